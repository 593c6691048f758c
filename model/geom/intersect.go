package geom

import (
	"cmp"
	"math"
	"slices"
)

// Crossing is a place where two lines meet: parameter TA of cubic IA of the
// one, TB of cubic IB of the other.
type Crossing struct {
	IA int
	TA float64
	IB int
	TB float64
	At Point
}

// Intersect lists the places where a and b cross, in the order of a. Every
// clean crossing is found, its point within tol mm of both lines; where the
// lines only touch, or pass within tol of touching, a place may be given or
// not. Stretches that lie on each other are not crossings, though their ends
// may be listed. Crossings within tol of each other along both lines count as
// one.
func Intersect(a, b Path, tol float64) []Crossing {
	if !(tol > 0) {
		return nil
	}
	hulls := make([]Box, len(b))
	for j, d := range b {
		hulls[j] = d.hull()
	}
	m := meeting{tol: tol}
	for i, c := range a {
		hull := c.hull()
		for j, d := range b {
			if hull.Grow(tol).meets(hulls[j]) {
				m.ia, m.ib, m.a, m.b = i, j, c, d
				m.search(&arc{c, 0, 1, hull}, &arc{d, 0, 1, hulls[j]})
			}
		}
	}
	return distinct(m.out, a, b, tol)
}

// meeting collects the crossings of cubics, one pair at a time.
type meeting struct {
	tol    float64
	ia, ib int
	a, b   Cubic
	out    []Crossing
}

// arc is a stretch of a cubic with the parameters it covers and the hull of its
// control points.
type arc struct {
	Cubic
	t0, t1 float64
	box    Box
}

func (s *arc) halves() (a, b arc) {
	l, r := s.Split(0.5)
	m := (s.t0 + s.t1) / 2
	return arc{l, s.t0, m, l.hull()}, arc{r, m, s.t1, r.hull()}
}

// flat reports whether the arc is nearly an evenly run straight line.
func (s *arc) flat(tol float64) bool {
	e0, e1 := s.bends()
	bend, most := max(e0.Dot(e0), e1.Dot(e1)), tol*8/6
	return bend <= most*most
}

// longest is the square of the longest leg of the control polygon.
func (s *arc) longest() float64 {
	a, b, c := s.P1.Sub(s.P0), s.P2.Sub(s.P1), s.P3.Sub(s.P2)
	return max(a.Dot(a), b.Dot(b), c.Dot(c))
}

// search halves whichever arc is not yet straight while their hulls meet, and
// crosses the chords at the end.
func (m *meeting) search(a, b *arc) {
	if !a.box.Grow(m.tol).meets(b.box) {
		return
	}
	fa, fb := a.flat(m.tol/4), b.flat(m.tol/4)
	switch {
	case fa && fb:
		m.cross(a, b)
	case fb || !fa && a.longest() > b.longest():
		l, r := a.halves()
		m.search(&l, b)
		m.search(&r, b)
	default:
		l, r := b.halves()
		m.search(a, &l)
		m.search(a, &r)
	}
}

// cross meets the chords of two straight arcs, with room to spare at their
// ends, and polishes the place on the curves themselves.
func (m *meeting) cross(a, b *arc) {
	u, v, w := a.P3.Sub(a.P0), b.P3.Sub(b.P0), b.P0.Sub(a.P0)
	den := u.Cross(v)
	lu, lv := u.Len(), v.Len()
	if math.Abs(den) <= 1e-12*lu*lv || den == 0 {
		m.touch(a, b)
		return
	}
	s, t := w.Cross(v)/den, w.Cross(u)/den
	// The arcs stray up to tol/4 from their chords; at a slant that moves the
	// crossing along them by that over the sine of the angle.
	room := m.tol * lu * lv / math.Abs(den)
	ru, rv := min(room/lu, 1), min(room/lv, 1)
	if s < -ru || s > 1+ru || t < -rv || t > 1+rv {
		return
	}
	m.polish(a.t0+s*(a.t1-a.t0), b.t0+t*(b.t1-b.t0))
}

// touch tries the ends of two parallel arcs on each other.
func (m *meeting) touch(a, b *arc) {
	for _, ta := range [2]float64{a.t0, a.t1} {
		for _, tb := range [2]float64{b.t0, b.t1} {
			if m.a.At(ta).Dist(m.b.At(tb)) <= m.tol/2 {
				m.polish(ta, tb)
			}
		}
	}
}

// polish runs Newton's rule for a(ta) = b(tb) from a guess and keeps the
// result if it is a crossing within tol.
func (m *meeting) polish(ta, tb float64) {
	ta, tb = unit(ta), unit(tb)
	best, gap := Crossing{m.ia, ta, m.ib, tb, Point{}}, m.a.At(ta).Dist(m.b.At(tb))
	for range 12 {
		d := m.b.At(tb).Sub(m.a.At(ta))
		u, v := m.a.Deriv(ta), m.b.Deriv(tb)
		den := u.Cross(v)
		if den == 0 {
			break
		}
		ta, tb = unit(ta+d.Cross(v)/den), unit(tb+d.Cross(u)/den)
		now := m.a.At(ta).Dist(m.b.At(tb))
		if now < gap {
			best.TA, best.TB, gap = ta, tb, now
		} else if gap < m.tol/1e3 {
			break
		}
	}
	if gap <= m.tol {
		best.At = m.a.At(best.TA).Lerp(m.b.At(best.TB), 0.5)
		m.out = append(m.out, best)
	}
}

func unit(t float64) float64 { return min(max(t, 0), 1) }

// distinct sorts crossings along a and drops repeats.
func distinct(all []Crossing, a, b Path, tol float64) []Crossing {
	if len(all) == 0 {
		return nil
	}
	sortCrossings(all)
	same := func(x, y Crossing) bool {
		return x.At.Dist(y.At) <= 2*tol &&
			a.near(x.IA, x.TA, y.IA, y.TA, 4*tol) && b.near(x.IB, x.TB, y.IB, y.TB, 4*tol)
	}
	// Repeats lie in the same square of this grid or in one beside it.
	square := func(p Point, right, down float64) Point {
		return Pt(math.Floor(p.X/(3*tol))+right, math.Floor(p.Y/(3*tol))+down)
	}
	var out []Crossing
	kept := make(map[Point][]Crossing, len(all))
	for _, x := range all {
		repeat := false
		for i := 0; i < 9 && !repeat; i++ {
			repeat = slices.ContainsFunc(kept[square(x.At, float64(i%3-1), float64(i/3-1))], func(y Crossing) bool { return same(x, y) })
		}
		if !repeat {
			out = append(out, x)
			at := square(x.At, 0, 0)
			kept[at] = append(kept[at], x)
		}
	}
	return out
}

// near reports whether two places of p in either order lie within d mm of each
// other along it, which it may deny by a little on a stretch run unevenly. On
// a closed path the way across the joint of end and start counts too.
func (p Path) near(i int, t float64, j int, u float64, d float64) bool {
	if j < i || j == i && u < t {
		i, t, j, u = j, u, i, t
	}
	if p.stretch(i, t, j, u, d) <= d {
		return true
	}
	last := len(p) - 1
	return p.Closed(joinTol) && p.stretch(0, 0, i, t, d)+p.stretch(j, u, last, 1, d) <= d
}

// stretch is about the length from one place to a later one, found by the
// control polygon; it stops counting beyond d.
func (p Path) stretch(i int, t float64, j int, u float64, d float64) float64 {
	var sum float64
	for ; i <= j && sum <= d; i++ {
		end := 1.0
		if i == j {
			end = u
		}
		c := p[i].Sub(t, end)
		sum += c.P0.Dist(c.P1) + c.P1.Dist(c.P2) + c.P2.Dist(c.P3)
		t = 0
	}
	return sum
}

// SelfCrossings lists the places where an outline crosses itself: each once,
// the earlier place as A. The joints of neighbouring cubics, and of the end
// with the start where the outline closes within 1e-6 mm, do not count.
// Otherwise as Intersect.
func SelfCrossings(closed Path, tol float64) []Crossing {
	if !(tol > 0) {
		return nil
	}
	hulls := make([]Box, len(closed))
	for i, c := range closed {
		hulls[i] = c.hull()
	}
	m := meeting{tol: tol}
	for i, c := range closed {
		if x, ok := c.loop(); ok {
			x.IA, x.IB = i, i
			m.out = append(m.out, x)
		}
		hull := hulls[i].Grow(tol)
		for j := i + 1; j < len(closed); j++ {
			if hull.meets(hulls[j]) && !c.leavesTo(closed[j]) && !closed[j].leavesTo(c) {
				m.ia, m.ib, m.a, m.b = i, j, c, closed[j]
				m.search(&arc{c, 0, 1, hulls[i]}, &arc{closed[j], 0, 1, hulls[j]})
			}
		}
	}
	out := m.out[:0]
	for _, x := range m.out {
		if !closed.near(x.IA, x.TA, x.IB, x.TB, 16*tol) {
			out = append(out, x)
		}
	}
	return distinct(out, closed, closed, tol)
}

// leavesTo reports that d begins where c ends and all legs of both go one way:
// then c lies wholly before that place and d beyond, and they meet nowhere else.
func (c Cubic) leavesTo(d Cubic) bool {
	if c.P3 != d.P0 {
		return false
	}
	way := d.P3.Sub(c.P0)
	for _, leg := range [6]Vec{c.P1.Sub(c.P0), c.P2.Sub(c.P1), c.P3.Sub(c.P2), d.P1.Sub(d.P0), d.P2.Sub(d.P1), d.P3.Sub(d.P2)} {
		if !(leg.Dot(way) > 0 || leg.IsZero()) {
			return false
		}
	}
	return true
}

// loop is the one place where a cubic may cross itself. With the cubic as
// a t³ + b t² + k t + P0 and t, u its two parameters there,
// a(t² + tu + u²) + b(t + u) + k = 0; its part across a gives t + u, its part
// along a then t u.
func (c Cubic) loop() (Crossing, bool) {
	d0 := c.P1.Sub(c.P0)
	e0, e1 := c.bends()
	a, b, k := e1.Sub(e0), e0.Scale(3), d0.Scale(3)
	den := b.Cross(a)
	if size := c.reach(); math.Abs(den) <= tiny*size*size {
		return Crossing{}, false
	}
	sum := -k.Cross(a) / den
	product := sum*sum + (b.Dot(a)*sum+k.Dot(a))/a.Dot(a)
	t, u, n := quadratic(1, -sum, product)
	if n < 2 || t < 0 || u > 1 || u-t < tiny || t == 0 && u == 1 {
		return Crossing{}, false
	}
	return Crossing{TA: t, TB: u, At: c.At(t)}, true
}

func sortCrossings(all []Crossing) {
	slices.SortFunc(all, func(x, y Crossing) int {
		return cmp.Or(cmp.Compare(x.IA, y.IA), cmp.Compare(x.TA, y.TA), cmp.Compare(x.IB, y.IB), cmp.Compare(x.TB, y.TB))
	})
}
