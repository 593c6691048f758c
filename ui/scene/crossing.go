package scene

import (
	"sort"

	"quarterstep/model/geom"
)

// Crossing is where a ruler laid on the Table crosses a size's line.
type Crossing struct {
	S       float64 // mm along the ruler
	Size    string  // "40"; for the computed line the size wanted, or "own"
	Printed bool
}

// Crossings lists where the straight line from a to b crosses the printed and
// computed lines, in order from a, to within tol mm.
func Crossings(in Input, a, b geom.Point, tol float64) []Crossing {
	var out []Crossing
	wanted := in.Result.Size
	if in.Pattern.Target.Own() {
		wanted = "own"
	}
	for i, q := range in.Pattern.Pieces {
		m := in.place(q)
		for _, o := range q.Nest {
			for _, s := range crossed(a, b, geom.Join(o.Edges...).Transform(m), tol) {
				out = append(out, Crossing{S: s, Size: o.Size, Printed: true})
			}
		}
		if r, ok := in.graded(i); ok {
			for _, s := range crossed(a, b, r.Outline().Transform(m), tol) {
				out = append(out, Crossing{S: s, Size: wanted})
			}
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].S < out[j].S })
	return out
}

// crossed is how far along a to b each crossing with path lies.
func crossed(a, b geom.Point, path geom.Path, tol float64) []float64 {
	var out []float64
	ruler := b.Sub(a)
	dir := ruler.Unit()
	for _, c := range path {
		if !geom.BoxOf(a, b).Grow(1).Intersects(geom.BoxOf(c.P0, c.P1, c.P2, c.P3)) {
			continue
		}
		pts := c.Flatten(tol)
		for i := 1; i < len(pts); i++ {
			u, v := dir.Cross(pts[i-1].Sub(a)), dir.Cross(pts[i].Sub(a))
			if (u > 0) == (v > 0) {
				continue
			}
			p := pts[i-1].Lerp(pts[i], u/(u-v))
			if s := p.Sub(a).Dot(dir); s >= 0 && s <= ruler.Len() {
				out = append(out, s)
			}
		}
	}
	return out
}

// Reading is the stretch of a ruler from the outermost printed size it crosses
// to the computed line next beyond it; false where it crosses no such pair.
func Reading(cs []Crossing) (from, to Crossing, ok bool) {
	for i, c := range cs {
		if c.Printed {
			continue
		}
		if i > 0 && cs[i-1].Printed {
			return cs[i-1], c, true
		}
		if i+1 < len(cs) && cs[i+1].Printed {
			return cs[i+1], c, true
		}
	}
	return Crossing{}, Crossing{}, false
}
