package nest

import (
	"math"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// point is how one point of the piece moves through the printed lines it was
// drawn in.
type point struct {
	at    []axes // per printed line
	rates [2]rate
	slide *geom.Vec // it may only move along this direction
	// settled is what a hand shook the point off where all lines together say
	// it lies, per printed line; nil on a nest that was not traced.
	settled []axes
	// proposed is the measures it follows unless the pattern says otherwise, and
	// fits how well the print follows each measure there is.
	proposed [2]model.Measure
	fits     [2][]Fits
}

func newPoint(n print, at []axes, follow Follows) point {
	p := point{at: at}
	p.rates[0] = n.fitRate(follow.Across, func(i int) float64 { return at[i][0] })
	p.rates[1] = n.fitRate(follow.Along, func(i int) float64 { return at[i][1] })
	return p
}

// wants is the places of the chart its two directions are wanted at.
func (p point) wants(w aim) axes { return axes{w.at(p.rates[0].measure), w.at(p.rates[1].measure)} }

// place is where the point is wanted.
func (p point) place(n print, f frame, w aim) axes {
	t := p.wants(w)
	var at, grown axes
	for a := range 2 {
		at[a], grown[a] = p.coordinate(n, a, t[a], w.method)
	}
	return add(at, p.held(f, grown))
}

// growth is how far the point goes beyond the printed sizes to place t.
func (p point) growth(n print, f frame, t float64, method model.Method) axes {
	var grown axes
	for a := range 2 {
		_, grown[a] = p.coordinate(n, a, t, method)
	}
	return p.held(f, grown)
}

// coordinate is direction a of the point at place t: where the print has it,
// or the nearest printed line, and how far it goes on from there.
func (p point) coordinate(n print, a int, t float64, method model.Method) (at, grown float64) {
	if i, ok := n.at(t); ok {
		return p.at[i][a], 0
	}
	if i, ok := n.around(t); ok {
		return p.at[i][a] + p.shares(n, i, t, method)[a]*(p.at[i+1][a]-p.at[i][a]), 0
	}
	from := n.nearest(t)
	grown = n.growth(p.rates[a], from, t, method)
	if p.settled != nil {
		grown += fade(t-n.edge(from, t)) * p.settled[from][a]
	}
	return p.at[from][a], grown
}

// held is a movement as far as the point may make it.
func (p point) held(f frame, d axes) axes {
	if p.slide == nil {
		return d
	}
	v := geom.Vec(f.point(d))
	return f.dir(p.slide.Scale(v.Dot(*p.slide)))
}

// shares is how far the point has gone from printed line i to the next at
// place t, 0 to 1 in each direction.
func (p point) shares(n print, i int, t float64, method model.Method) axes {
	if method == model.BySteps {
		s := n.share(model.Steps, t, i)
		return axes{s, s}
	}
	return axes{n.share(p.rates[0].measure, t, i), n.share(p.rates[1].measure, t, i)}
}

// fade is how far a line that goes on by so many steps has left the shaking of
// the printed line behind.
func fade(steps float64) float64 { return math.Min(1, math.Abs(steps)) }
