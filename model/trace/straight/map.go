package straight

import (
	"math"

	"quarterstep/model/geom"
)

// Map takes a photo's places to mm on the flat paper and back: first the bend
// of the lens is taken out, then the perspective. H is that of places without
// bend, in pixels, to mm, row by row, its last row positive where the photo
// shows paper. What cannot be in the photo, such as the far side of the horizon,
// is nowhere (not a number); so is everything to the zero Map.
type Map struct {
	Lens Lens
	H    [9]float64
}

// MM is where px lies on the paper, in mm.
func (m Map) MM(px geom.Point) geom.Point { return project(m.H, m.Lens.unbend(px)) }

// Pixel is where the photo shows the place mm of the paper.
func (m Map) Pixel(mm geom.Point) geom.Point { return m.Lens.bend(project(inverse3(m.H), mm)) }

// Back is Pixel for many places: what they share is worked out once.
func (m Map) Back() func(mm geom.Point) geom.Point {
	inv := inverse3(m.H)
	return func(mm geom.Point) geom.Point { return m.Lens.bend(project(inv, mm)) }
}

// PerMM is how many pixels a millimetre of the paper has at px, the smaller of
// the two ways across.
func (m Map) PerMM(px geom.Point) float64 {
	at := m.MM(px)
	x, y := m.MM(px.Add(geom.Vec{X: 1})).Sub(at), m.MM(px.Add(geom.Vec{Y: 1})).Sub(at)
	a, b, c := x.Dot(x), x.Dot(y), y.Dot(y)
	longest := math.Sqrt((a + c + math.Hypot(a-c, 2*b)) / 2)
	return 1 / longest
}

// project is p through the projective map h.
// It is nowhere at the far side of the horizon.
func project(h [9]float64, p geom.Point) geom.Point {
	w := h[6]*p.X + h[7]*p.Y + h[8]
	if !(w > 0) {
		return geom.Pt(math.NaN(), math.NaN())
	}
	return geom.Pt((h[0]*p.X+h[1]*p.Y+h[2])/w, (h[3]*p.X+h[4]*p.Y+h[5])/w)
}

// inverse3 undoes the projective map h.
func inverse3(h [9]float64) [9]float64 {
	c := [9]float64{
		h[4]*h[8] - h[5]*h[7], h[2]*h[7] - h[1]*h[8], h[1]*h[5] - h[2]*h[4],
		h[5]*h[6] - h[3]*h[8], h[0]*h[8] - h[2]*h[6], h[2]*h[3] - h[0]*h[5],
		h[3]*h[7] - h[4]*h[6], h[1]*h[6] - h[0]*h[7], h[0]*h[4] - h[1]*h[3],
	}
	det := h[0]*c[0] + h[1]*c[3] + h[2]*c[6]
	for i := range c {
		c[i] /= det
	}
	return c
}

// times3 is b followed by a.
func times3(a, b [9]float64) [9]float64 {
	var out [9]float64
	for i := range 3 {
		for j := range 3 {
			for k := range 3 {
				out[3*i+j] += a[3*i+k] * b[3*k+j]
			}
		}
	}
	return out
}
