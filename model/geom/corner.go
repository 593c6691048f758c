package geom

import (
	"cmp"
	"math"
	"slices"
)

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
	alike := k.da*k.db > 0
	opens := alike && dirA.Cross(dirB)*k.da >= 0
	limit := mitreLimit * max(math.Abs(k.da), math.Abs(k.db))
	switch {
	case opens: // the usual mitre
		u, v, ok := raysMeet(end, dirA, start, dirB.Scale(-1))
		if m := end.Add(dirA.Scale(u)); ok && u >= 0 && v >= 0 && m.Dist(k.at) <= limit {
			plain.meet = m
			return plain, true
		}
	case alike: // the usual trim
		if x, ok := k.nearest(Intersect(k.a, k.b, k.tol/4)); ok {
			return turn{x.IA, x.TA, x.IB, x.TB, x.At, joinTol}, true
		}
	}
	reach := limit * (mitreLimit + 1) / mitreLimit
	longA := append(append(Path(nil), k.a...), Line(end, end.Add(dirA.Scale(reach))))
	longB := append(Path{Line(start.Add(dirB.Scale(-reach)), start)}, k.b...)
	found := slices.DeleteFunc(Intersect(longA, longB, k.tol/4), func(x Crossing) bool {
		inside := x.IA <= last && x.IB > 0
		return inside && opens || !inside && x.At.Dist(k.at) > limit
	})
	if x, ok := k.nearest(found); ok {
		return k.turnAt(x), true
	}
	if gap <= k.tol {
		plain.snap = gap
	}
	return plain, opens || k.da != k.db || gap <= k.tol
}

// nearest is the crossing nearest to the two ends.
func (k corner) nearest(found []Crossing) (Crossing, bool) {
	if len(found) == 0 {
		return Crossing{}, false
	}
	far := func(x Crossing) float64 { return x.At.Dist(k.a.End()) + x.At.Dist(k.b.Start()) }
	return slices.MinFunc(found, func(x, y Crossing) int { return cmp.Compare(far(x), far(y)) }), true
}

// raysMeet solves p + u v = q + w r for u and w in mm, v and r unit; false for
// parallel rays.
func raysMeet(p Point, v Vec, q Point, r Vec) (u, w float64, ok bool) {
	den, d := v.Cross(r), q.Sub(p)
	if den == 0 {
		return 0, 0, false
	}
	return d.Cross(r) / den, d.Cross(v) / den, true
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
