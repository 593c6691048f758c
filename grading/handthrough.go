package grading

import (
	"quarterstep/model"
	"quarterstep/model/geom"
)

// smoothThrough makes the line run smoothly through grade point k: the handles
// on its two sides are turned to their common direction, the longer counting
// more, and keep their lengths. Beside a straight edge only the curve turns.
// At a fold or centre line it is the other edge that turns, square to it.
func smoothThrough(q model.Piece, edges []geom.Path, k int) {
	n := len(edges)
	before := (k + n - 1) % n
	u, v := handle(edges[before].Reverse()).Scale(-1), handle(edges[k])
	dir := u.Add(v).Unit()
	switch {
	case heldLine(q.Edges[before]) && heldLine(q.Edges[k]):
		return
	case heldLine(q.Edges[before]):
		dir = squareTo(edges[before].EndDir(), v)
	case heldLine(q.Edges[k]):
		dir = squareTo(edges[k].StartDir(), u)
	case edges[before].IsStraight(straightTol) && !edges[k].IsStraight(straightTol):
		dir = u.Unit()
	case edges[k].IsStraight(straightTol) && !edges[before].IsStraight(straightTol):
		dir = v.Unit()
	}
	if dir.IsZero() {
		return
	}
	if !heldLine(q.Edges[before]) {
		edges[before] = turned(edges[before].Reverse(), dir.Scale(-1)).Reverse()
	}
	if !heldLine(q.Edges[k]) {
		edges[k] = turned(edges[k], dir)
	}
}

// heldLine reports that an edge never moves across itself.
func heldLine(e model.Edge) bool { return e.Kind == model.Fold || e.Kind == model.Centre }

// handle is the first handle of p.
func handle(p geom.Path) geom.Vec { return p[0].P1.Sub(p[0].P0) }

// squareTo is the unit direction square to line on the side v goes.
func squareTo(line, v geom.Vec) geom.Vec {
	s := line.Perp()
	if s.Dot(v) < 0 {
		s = s.Scale(-1)
	}
	return s
}

// turned is p with its first handle turned to dir.
func turned(p geom.Path, dir geom.Vec) geom.Path {
	h := handle(p)
	if h.Unit() == dir {
		return p
	}
	out := append(geom.Path(nil), p...)
	out[0].P1 = out[0].P0.Add(dir.Scale(h.Len()))
	return out
}
