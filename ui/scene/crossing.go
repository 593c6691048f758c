package scene

import (
	"math"
	"sort"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// Crossing is where a ruler laid on the Table crosses a size's line.
type Crossing struct {
	S       float64 // mm along the ruler
	Piece   string
	Size    string // "40"; for the computed line the size wanted, or "own"
	Printed bool
}

// Crossings lists where the straight line from a to b crosses the printed and
// computed lines, in order from a, to within tol mm.
func Crossings(in Input, a, b geom.Point, tol float64) []Crossing {
	var out []Crossing
	wanted := in.Result.Size
	if in.Pattern.Target.Own() {
		wanted = words.C("measures", "own")
	}
	for i, q := range in.Pattern.Pieces {
		m := in.place(q)
		for _, o := range q.Nest {
			for _, s := range crossed(a, b, geom.Join(o.Edges...).Transform(m), tol) {
				out = append(out, Crossing{S: s, Piece: q.ID, Size: o.Size, Printed: true})
			}
		}
		if r, ok := in.graded(i); ok {
			for _, s := range crossed(a, b, r.Outline().Transform(m), tol) {
				out = append(out, Crossing{S: s, Piece: q.ID, Size: wanted})
			}
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].S < out[j].S })
	return out
}

// GhostCrossings lists how far along the straight line from a to b it crosses the
// line that the other way of growing would give piece q, mm, to within tol mm.
func GhostCrossings(in Input, q model.Piece, a, b geom.Point, tol float64) []float64 {
	ghost := in.Ghost[q.ID]
	if len(ghost) == 0 {
		return nil
	}
	return crossed(a, b, geom.Join(ghost...).Transform(in.place(q)), tol)
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

// noGap is below what two lines are the same, mm: folds and centre lines, say.
const noGap = 0.05

// Reading is the stretch of a ruler from the outermost printed size of a piece
// that it crosses to the computed line next beyond it: the first such pair that
// is apart, else the first; false where it crosses no such pair.
func Reading(cs []Crossing) (from, to Crossing, ok bool) {
	byPiece := map[string][]Crossing{}
	for _, c := range cs {
		byPiece[c.Piece] = append(byPiece[c.Piece], c)
	}
	for _, own := range byPiece {
		for _, p := range pairs(own) {
			apart, had := p[1].gap(p[0]) > noGap, ok && to.gap(from) > noGap
			if !ok || apart && !had || apart == had && p[1].S < to.S {
				from, to, ok = p[0], p[1], true
			}
		}
	}
	return from, to, ok
}

func (c Crossing) gap(d Crossing) float64 { return math.Abs(c.S - d.S) }

// pairs are the computed lines among the crossings of one piece, each with the
// printed line next to it.
func pairs(cs []Crossing) [][2]Crossing {
	var out [][2]Crossing
	for i, c := range cs {
		switch {
		case c.Printed:
		case i > 0 && cs[i-1].Printed:
			out = append(out, [2]Crossing{cs[i-1], c})
		case i+1 < len(cs) && cs[i+1].Printed:
			out = append(out, [2]Crossing{cs[i+1], c})
		}
	}
	return out
}
