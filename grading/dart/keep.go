package dart

import (
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// How exactly, in mm: the width of a dart is kept, lengths are measured, and an
// edge must be straight to stay so.
const (
	keepTol     = 1e-6
	measureTol  = 1e-7
	straightTol = 0.01
)

// Width is how wide the dart is where both its legs are as long as their mean:
// the width a ruler finds once the legs are made equal, mm.
func (d Dart) Width(edges []geom.Path) float64 {
	a, b := d.legs(edges)
	return width(d.Apex, a, b)
}

func width(apex, a, b geom.Point) float64 {
	u, v := a.Sub(apex), b.Sub(apex)
	return (u.Len() + v.Len()) * math.Sin(math.Abs(math.Atan2(u.Cross(v), u.Dot(v)))/2)
}

// Keep makes the dart wide mm wide, as by Width: the leg end on the side that
// turns is moved along its own seam, or straight on from it, and the curves on
// both its sides are carried with it; all other grade points stay. A dart as
// wide as that within 1e-6 mm is not touched. The error says that no place on
// the seam gives that width.
func (d Dart) Keep(edges []geom.Path, wide float64) ([]geom.Path, error) {
	if math.Abs(d.Width(edges)-wide) <= keepTol {
		return edges, nil
	}
	a, b := d.legs(edges)
	end, seam, other := d.To, edges[d.To], a
	if d.Turns == Before {
		end, seam, other = d.From, edges[d.before(len(edges))].Reverse(), b
	}
	to, err := d.placeFor(wide, seam, other)
	if err != nil {
		return nil, err
	}
	out := slices.Clone(edges)
	carryPoint(out, end, to.Sub(seam.Start()))
	return out, nil
}

// carryPoint moves grade point k of an outline by v, and the ends of the two
// edges that meet there.
func carryPoint(edges []geom.Path, k int, v geom.Vec) {
	last := (k + len(edges) - 1) % len(edges)
	edges[last] = edges[last].CarryEnds(geom.Vec{}, v, straightTol)
	edges[k] = edges[k].CarryEnds(v, geom.Vec{}, straightTol)
}

// placeFor is the place on a seam, which starts at a leg end, or straight
// before it, that makes the dart to its other leg end wide mm wide.
func (d Dart) placeFor(wide float64, seam geom.Path, other geom.Point) (geom.Point, error) {
	m, err := geom.Measure(seam, measureTol)
	if err != nil {
		return geom.Point{}, words.Errorf("measuring the seam beside the %s: %w", d.Name, err)
	}
	start, dir := seam.Start(), seam.StartDir()
	at := func(s float64) geom.Point {
		if s < 0 {
			return start.Add(dir.Scale(s))
		}
		return m.At(s)
	}
	const most = 0.9 // of the seam, so that something of it is left
	miss := func(s float64) float64 { return width(d.Apex, other, at(s)) - wide }
	lo, hi := 0.0, most*m.Length()
	if miss(0) > 0 {
		lo, hi = min(0, other.Sub(start).Dot(dir)), 0
	}
	s, ok := zero(miss, lo, hi)
	if !ok {
		return geom.Point{}, words.Errorf("the %s cannot be kept %s mm wide: the seam beside it has no place for its leg", d.Name, words.Figure(wide, 1))
	}
	return at(s), nil
}

// zero is where f, of other signs at lo and hi, is 0 within keepTol; false where
// the signs are alike.
func zero(f func(float64) float64, lo, hi float64) (float64, bool) {
	atLo, atHi := f(lo), f(hi)
	if atLo*atHi > 0 {
		return 0, false
	}
	mid := lo
	for range 100 {
		mid = (lo + hi) / 2
		v := f(mid)
		if math.Abs(v) <= keepTol/4 {
			break
		}
		if v*atLo > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return mid, true
}
