package straight

import (
	"image"
	"math"

	"quarterstep/model/geom"
)

// brightness is the grey of g at p, between the four pixels round it; beyond
// the picture it is that of its rim.
func brightness(g *image.Gray, p geom.Point) float64 {
	x, y := p.X-0.5-float64(g.Rect.Min.X), p.Y-0.5-float64(g.Rect.Min.Y)
	w, h := g.Rect.Dx(), g.Rect.Dy()
	x, y = min(max(x, 0), float64(w-1)), min(max(y, 0), float64(h-1))
	x0, y0 := min(int(x), max(w-2, 0)), min(int(y), max(h-2, 0))
	fx, fy := x-float64(x0), y-float64(y0)
	x1, y1 := min(x0+1, w-1), min(y0+1, h-1)
	a, b := g.Pix[y0*g.Stride:], g.Pix[y1*g.Stride:]
	top := float64(a[x0]) + fx*(float64(a[x1])-float64(a[x0]))
	low := float64(b[x0]) + fx*(float64(b[x1])-float64(b[x0]))
	return top + fy*(low-top)
}

// inside reports whether p lies on the picture, at least margin pixels in.
func inside(g *image.Gray, p geom.Point, margin float64) bool {
	b := g.Rect
	return p.X >= float64(b.Min.X)+margin && p.X <= float64(b.Max.X)-margin &&
		p.Y >= float64(b.Min.Y)+margin && p.Y <= float64(b.Max.Y)-margin
}

// The brightness across an edge or a line is looked at in steps of half a
// pixel, each the mean of five places along the edge, a pixel apart.
const (
	acrossStep = 0.5
	alongHalf  = 2
)

// across is the brightness along the normal n through at, from -reach to
// +reach pixels.
func across(g *image.Gray, at geom.Point, n geom.Vec, reach float64) []float64 {
	count := 2*int(math.Ceil(reach/acrossStep)) + 1
	out := make([]float64, count)
	along := n.Perp()
	for i := range out {
		q := at.Add(n.Scale(float64(i-count/2) * acrossStep))
		for k := -alongHalf; k <= alongHalf; k++ {
			out[i] += brightness(g, q.Add(along.Scale(float64(k))))
		}
		out[i] /= 2*alongHalf + 1
	}
	return out
}

// spot is a place where an edge or a line crosses a look across: how far along
// the normal in pixels, and how strong in grey levels.
type spot struct{ off, strength float64 }

// steps finds where the brightness steps up (sign 1) or down (sign -1) along
// the normal, by at least least grey levels.
func steps(p []float64, sign, least float64) []spot {
	const half = 4 // of half a pixel: two pixels on either side
	r := make([]float64, len(p))
	for i := half; i < len(p)-half; i++ {
		for k := 1; k <= half; k++ {
			r[i] += sign * (p[i+k] - p[i-k]) / half
		}
	}
	return peaks(r, least)
}

// ridges finds the middles of lines lighter (sign 1) or darker (sign -1) than
// both sides beside pixels away, by at least least grey levels.
func ridges(p []float64, sign, beside, least float64) []spot {
	k := int(math.Round(beside / acrossStep))
	r := make([]float64, len(p))
	for i := k + 1; i < len(p)-k-1; i++ {
		mid := (p[i-1] + p[i] + p[i+1]) / 3
		left, right := sign*(mid-p[i-k]), sign*(mid-p[i+k])
		if min(left, right) >= 0.6*least { // else it is the rim of one, or a line beside it
			r[i] = (left + right) / 2
		}
	}
	return peaks(r, least)
}

// peaks finds the tops of r by the parabola through three neighbours.
func peaks(r []float64, least float64) []spot {
	var out []spot
	for i := 1; i+1 < len(r); i++ {
		if r[i] < least || r[i] < r[i-1] || r[i] <= r[i+1] {
			continue
		}
		d := 0.0
		if bend := r[i-1] - 2*r[i] + r[i+1]; bend < 0 {
			d = (r[i-1] - r[i+1]) / (2 * bend)
		}
		out = append(out, spot{(float64(i-len(r)/2) + d) * acrossStep, r[i]})
	}
	return out
}
