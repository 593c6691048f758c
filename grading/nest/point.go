package nest

import (
	"quarterstep/model"
	"quarterstep/model/geom"
)

// point is how one point of the piece moves through the printed sizes it was
// drawn in.
type point struct {
	at    []axes // per printed size
	rates [2]rate
	slide *geom.Vec // it may only move along this direction
}

func newPoint(n print, at []axes, follow Follows) point {
	p := point{at: at}
	p.rates[0] = n.fitRate(follow.Across, func(i int) float64 { return at[i][0] })
	p.rates[1] = n.fitRate(follow.Along, func(i int) float64 { return at[i][1] })
	return p
}

// growth is how far the point goes from printed size from to place t beyond
// the printed sizes.
func (p point) growth(n print, f frame, from int, t float64, method model.Method) axes {
	d := axes{n.growth(p.rates[0], from, t, method), n.growth(p.rates[1], from, t, method)}
	if p.slide == nil {
		return d
	}
	v := geom.Vec(f.point(d))
	return f.dir(p.slide.Scale(v.Dot(*p.slide)))
}

// shares is how far the point has gone from printed size i to the next, 0 to 1
// in each direction.
func (p point) shares(n print, i int, t float64, method model.Method) axes {
	if method == model.BySteps {
		s := n.share(model.Steps, t, i)
		return axes{s, s}
	}
	return axes{n.share(p.rates[0].measure, t, i), n.share(p.rates[1].measure, t, i)}
}

// place is where the point lies at place t of the chart.
func (p point) place(n print, f frame, t float64, method model.Method) axes {
	if i, ok := n.at(t); ok {
		return p.at[i]
	}
	if i, ok := n.around(t); ok {
		return mix(p.at[i], p.at[i+1], p.shares(n, i, t, method))
	}
	from := n.nearest(t)
	if len(p.at) < 2 {
		return p.at[from]
	}
	return add(p.at[from], p.growth(n, f, from, t, method))
}
