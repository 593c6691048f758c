package geom

import "math"

// corner is where offset line a, da mm beside its source, meets the next, b,
// db mm beside its own; both sources have the point at in common.
type corner struct {
	a, b   Path
	da, db float64
	at     Point
	tol    float64
}

// turn is how a corner is solved: a is kept up to parameter ta of cubic ia and
// goes on straight to meet; b comes straight from meet to parameter tb of
// cubic ib.
type turn struct {
	ia   int
	ta   float64
	ib   int
	tb   float64
	meet Point
	snap float64 // an end within this many mm of meet is moved there
}

// solve finds how the lines meet: mitred, trimmed, or cut off straight. It is
// false where they close in on each other by more than tol and never cross.
func (k corner) solve() (turn, bool) {
	last := len(k.a) - 1
	end, start := k.a.End(), k.b.Start()
	gap := end.Dist(start)
	plain := turn{last, 1, 0, 0, end.Lerp(start, 0.5), joinTol}
	if gap <= k.tol/8 {
		plain.snap = gap
		return plain, true
	}
	dirA, dirB := k.a.EndDir(), k.b.StartDir()
	wide := max(math.Abs(k.da), math.Abs(k.db))
	reach := (mitreLimit + 1) * wide
	longA := append(append(Path(nil), k.a...), Line(end, end.Add(dirA.Scale(reach))))
	longB := append(Path{Line(start.Add(dirB.Scale(-reach)), start)}, k.b...)

	alike := k.da*k.db > 0
	opens := alike && dirA.Cross(dirB)*k.da >= 0
	best, found := turn{}, math.Inf(1)
	for _, x := range Intersect(longA, longB, k.tol/4) {
		inside := x.IA <= last && x.IB > 0
		if inside && opens || !inside && x.At.Dist(k.at) > mitreLimit*wide {
			continue
		}
		if far := x.At.Dist(end) + x.At.Dist(start); far < found {
			best, found = k.turnAt(x), far
		}
	}
	if !math.IsInf(found, 1) {
		return best, true
	}
	if gap <= k.tol {
		plain.snap = gap
	}
	return plain, opens || k.da != k.db || gap <= k.tol
}

// turnAt reads a crossing of the lengthened lines.
func (k corner) turnAt(x Crossing) turn {
	t := turn{x.IA, x.TA, x.IB - 1, x.TB, x.At, joinTol}
	if x.IA == len(k.a) {
		t.ia, t.ta = len(k.a)-1, 1
	}
	if x.IB == 0 {
		t.ib, t.tb = 0, 0
	}
	return t
}

// upTo is a up to the corner.
func (t turn) upTo(a Path) Path { return t.arrive(a.between(0, 0, t.ia, t.ta)) }

// from is b from the corner.
func (t turn) from(b Path) Path { return t.leave(b.between(t.ib, t.tb, len(b)-1, 1)) }

// arrive ends p exactly at the corner: by a straight piece, or by moving its
// end, and the handle with it, where that is near enough.
func (t turn) arrive(p Path) Path {
	c := &p[len(p)-1]
	by := t.meet.Sub(c.P3)
	if by.Len() > t.snap {
		return append(p, Line(c.P3, t.meet))
	}
	c.P2, c.P3 = c.P2.Add(by), t.meet
	return p
}

// leave starts p exactly at the corner, as arrive ends it.
func (t turn) leave(p Path) Path {
	c := &p[0]
	by := t.meet.Sub(c.P0)
	if by.Len() > t.snap {
		return append(Path{Line(t.meet, c.P0)}, p...)
	}
	c.P0, c.P1 = t.meet, c.P1.Add(by)
	return p
}
