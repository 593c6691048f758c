package straight

import (
	"math"

	"quarterstep/model/geom"
)

// Lens is how a lens bends straight lines: a place at distance r from Centre
// in a picture without bend lies at r (1 + K1 (r/Scale)²) in the photo (the
// radial term of Brown 1966). The zero Lens bends nothing.
type Lens struct {
	K1     float64
	Centre geom.Point // px
	Scale  float64    // px, the length r is divided by
}

// none reports whether l bends nothing.
func (l Lens) none() bool { return l.K1 == 0 || l.Scale == 0 }

// bend takes a place of the picture without bend to the photo. A lens of strong
// barrel shape shows nothing beyond the distance at which its term would turn
// back: there it is nowhere (not a number).
func (l Lens) bend(p geom.Point) geom.Point {
	if l.none() {
		return p
	}
	v := p.Sub(l.Centre)
	r := v.Len() / l.Scale
	if 1+3*l.K1*r*r < 0 {
		return geom.Pt(math.NaN(), math.NaN())
	}
	return l.Centre.Add(v.Scale(1 + l.K1*r*r))
}

// unbend takes a place of the photo to the picture without bend, to 1e-9 px.
// Where a lens of strong barrel shape shows no place at all, it is the farthest
// place that it shows.
func (l Lens) unbend(p geom.Point) geom.Point {
	if l.none() {
		return p
	}
	v := p.Sub(l.Centre)
	want := v.Len() / l.Scale
	if want == 0 {
		return p
	}
	most := math.Inf(1)
	if l.K1 < 0 {
		most = math.Sqrt(-1 / (3 * l.K1))
	}
	r := min(want, most)
	for range 50 {
		slope := 1 + 3*l.K1*r*r
		if slope < 1e-6 {
			break
		}
		d := (r*(1+l.K1*r*r) - want) / slope
		r = min(max(r-d, 0), most)
		if math.Abs(d)*l.Scale < 1e-10 {
			break
		}
	}
	return l.Centre.Add(v.Scale(r / want))
}
