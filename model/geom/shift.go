package geom

import (
	"math"

	"quarterstep/assets/words"
)

// slideLeast is the sine of the least angle at which a corner slides along its
// neighbour: at less it would slide farther than 4 widths.
const slideLeast = 1.0 / mitreLimit

// ShiftEdges moves each edge of a closed outline parallel to itself by d[k] mm,
// positive outwards whichever way the outline runs, and returns the edges of
// the new closed outline, one for one. Between its corners a shifted edge keeps
// |d[k]| from its old line within tol mm.
//
// A corner slides along the edge beside it, which is cut shorter or goes on
// straight. Where that edge runs smoothly on (within 14.5 degrees) the corner
// moves straight out and carries that edge's end along, its other end staying;
// a held edge is never carried: there, and at a corner so sharp that it turns
// back, a straight step joins the two lines.
//
// An *EdgeError names the edge of which nothing is left, or that does not meet
// the next one any more. Other errors: as OffsetOutline, and fewer than two
// edges.
func ShiftEdges(edges []Path, d []float64, held []bool, tol float64) ([]Path, error) {
	whole, err := outlineOf(edges, d)
	if err == nil && (len(edges) < 2 || len(held) != len(edges)) {
		err = words.Errorf("it has %d edges, %d of them known as held or not", len(edges), len(held))
	}
	if err != nil {
		return nil, words.Errorf("shifting edges: %w", err)
	}
	n, side := len(edges), math.Copysign(1, whole.Area())
	out := make([]shifted, n)
	for k, e := range edges {
		out[k] = shifted{line: e, source: e, d: d[k], held: held[k], last: len(e) - 1, tEnd: 1}
		if d[k] != 0 {
			if out[k].line, err = OffsetEdge(e, side*d[k], tol/2); err != nil {
				return nil, &EdgeError{k, err.Error()}
			}
			out[k].last = len(out[k].line) - 1
		}
	}
	for k := range out {
		if a, b := &out[k], &out[(k+1)%n]; (a.d != 0 || b.d != 0) && !joinShifted(a, b, tol/2) {
			return nil, &EdgeError{k, words.T("moved so far, it does not meet the edge after it")}
		}
	}
	moved := make([]Path, n)
	for k, s := range out {
		if moved[k] = s.finish(tol); moved[k] == nil {
			return nil, &EdgeError{k, words.T("moved so far, nothing of it is left")}
		}
	}
	return moved, nil
}

// shifted is an edge on its way to its new place: what of line is kept, and
// what is done at its two ends.
type shifted struct {
	line, source Path
	d            float64
	held         bool
	first, last  int // the cubics of line kept, from parameter tStart to tEnd
	tStart, tEnd float64
	start, end   endMove
}

// endMove is where an end goes: carried there, or cut or lengthened to it.
type endMove struct {
	set   bool
	carry bool
	to    Point
}

// joinShifted brings the end of a and the start of b together; false where they
// do not meet.
func joinShifted(a, b *shifted, tol float64) bool {
	u, v := a.source.EndDir(), b.source.StartDir()
	if math.Abs(u.Cross(v)) >= slideLeast {
		return slide(a, b, tol)
	}
	outer := a
	to := a.line.End()
	if math.Abs(b.d) > math.Abs(a.d) {
		outer, to = b, b.line.Start()
	}
	runsOn := u.Dot(v) > 0 && !(outer == a && b.held) && !(outer == b && a.held)
	if !runsOn { // the outer line goes to the other by a step
		if outer == a {
			to = b.line.Start()
		} else {
			to = a.line.End()
		}
	}
	a.end = endMove{true, runsOn && outer == b, to}
	b.start = endMove{true, runsOn && outer == a, to}
	return true
}

// slide cuts or lengthens both lines to where they, or the straight lines that
// go on from their ends, cross. On a line straight at its end the place is
// exact, else within tol.
func slide(a, b *shifted, tol float64) bool {
	reach := 2 * mitreLimit * (math.Abs(a.d) + math.Abs(b.d))
	last, first := a.line[len(a.line)-1], b.line[0]
	end, start := last.P3, first.P0
	dirA, dirB := a.line.EndDir(), b.line.StartDir()
	straightA, straightB := last.IsStraight(joinTol), first.IsStraight(joinTol)
	if straightA && straightB {
		u, v, ok := raysMeet(end, dirA, start, dirB.Scale(-1))
		if ok && u > -last.P0.Dist(end) && v > -start.Dist(first.P3) {
			to := end.Add(dirA.Scale(u))
			a.end, b.start = endMove{set: true, to: to}, endMove{set: true, to: to}
			return to.Dist(a.source.End()) <= reach
		}
	}
	longA := append(append(Path(nil), a.line...), Line(end, end.Add(dirA.Scale(reach))))
	longB := append(Path{Line(start.Add(dirB.Scale(-reach)), start)}, b.line...)
	k := corner{a: a.line, b: b.line, at: a.source.End()}
	x, ok := k.nearest(Intersect(longA, longB, tol))
	if !ok || x.At.Dist(k.at) > reach {
		return false
	}
	t := k.turnAt(x)
	switch {
	case straightA && t.ia == len(a.line)-1:
		t.meet = end.Add(dirA.Scale(t.meet.Sub(end).Dot(dirA)))
	case straightB && t.ib == 0:
		t.meet = start.Add(dirB.Scale(t.meet.Sub(start).Dot(dirB)))
	}
	a.last, a.tEnd, a.end = t.ia, t.ta, endMove{set: true, to: t.meet}
	b.first, b.tStart, b.start = t.ib, t.tb, endMove{set: true, to: t.meet}
	return true
}

// finish is the edge in its new place; nil when nothing of it is left. A line
// straight within tol at its end goes on as one straight line.
func (s shifted) finish(tol float64) Path {
	if !s.start.set && !s.end.set {
		return s.line
	}
	if s.first > s.last || s.first == s.last && s.tStart >= s.tEnd {
		return nil
	}
	p := s.line.between(s.first, s.tStart, s.last, s.tEnd)
	var start, end Vec
	if s.start.carry {
		start = s.start.to.Sub(p.Start())
	}
	if s.end.carry {
		end = s.end.to.Sub(p.End())
	}
	p = p.CarryEnds(start, end, tol)
	if s.end.set {
		p = p.reach(s.end.to, tol)
	}
	if s.start.set {
		p = p.Reverse().reach(s.start.to, tol).Reverse()
	}
	return p
}

// reach is p with its end at to: a straight last cubic is drawn anew to there, a
// curve is followed by a straight one.
func (p Path) reach(to Point, tol float64) Path {
	p = append(Path(nil), p...)
	c := &p[len(p)-1]
	by := to.Sub(c.P3)
	switch dir := c.P3.Sub(c.P0).Unit(); {
	case c.IsStraight(tol) && math.Abs(by.Cross(dir)) <= tol:
		*c = Line(c.P0, to)
	case by.Len() <= tol:
		c.P2, c.P3 = c.P2.Add(by), to
	default:
		p = append(p, Line(c.P3, to))
	}
	return p
}
