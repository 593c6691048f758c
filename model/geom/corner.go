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
}

// solve finds how the lines meet: mitred, trimmed, or cut off straight. It is
// false where they close in on each other and yet never cross.
func (k corner) solve() (turn, bool) {
	last := len(k.a) - 1
	end, start := k.a.End(), k.b.Start()
	plain := turn{last, 1, 0, 0, end.Lerp(start, 0.5)}
	if end.Dist(start) <= k.tol/8 {
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
	return plain, opens || k.da != k.db
}

// turnAt reads a crossing of the lengthened lines.
func (k corner) turnAt(x Crossing) turn {
	t := turn{x.IA, x.TA, x.IB - 1, x.TB, x.At}
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
// end where that is within rounding.
func (t turn) arrive(p Path) Path {
	last := len(p) - 1
	if p[last].P3.Dist(t.meet) <= joinTol {
		p[last].P3 = t.meet
		return p
	}
	return append(p, Line(p[last].P3, t.meet))
}

// leave starts p exactly at the corner, as arrive ends it.
func (t turn) leave(p Path) Path {
	if p[0].P0.Dist(t.meet) <= joinTol {
		p[0].P0 = t.meet
		return p
	}
	return append(Path{Line(t.meet, p[0].P0)}, p...)
}
