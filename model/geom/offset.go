package geom

import (
	"math"

	"quarterstep/assets/words"
)

// mitreLimit is how many widths from its corner a mitred corner may reach
// before it is cut off straight.
const mitreLimit = 4

// OffsetEdge is the line that runs d mm beside p. Positive d lies to the left
// of travel: outside an outline that runs clockwise as seen on the paper;
// negative d lies inside. Away from corners every point keeps |d| from p
// within tol mm. Corners of p are mitred on the side that opens, cut off
// straight where the mitre would reach more than 4 |d| from the corner, and
// trimmed where they close in, as is a bend tighter than d.
//
// It is an error when p is empty or no path, tol is not positive, p has a
// spike, or a bend is so tight that no line is left at that distance.
func OffsetEdge(p Path, d, tol float64) (Path, error) {
	if err := offsetInput(p, d, tol); err != nil {
		return nil, err
	}
	if d == 0 {
		return append(Path(nil), p...), nil
	}
	o := offsetting{d: d, tol: tol / 2}
	for _, c := range p {
		if err := o.add(c); err != nil {
			return nil, err
		}
	}
	if len(o.out) == 0 {
		return nil, o.tooTight(p.Start())
	}
	if o.dropped && !o.clear(p) {
		return nil, o.tooTight(o.corner)
	}
	return o.out, nil
}

func offsetInput(p Path, d, tol float64) error {
	if len(p) == 0 {
		return words.Errorf("drawing a line beside another: there is no line")
	}
	if err := p.Validate(); err != nil {
		return words.Errorf("drawing a line beside another: %w", err)
	}
	if !(tol > 0) || !finite(d) || p.StartDir().IsZero() {
		return words.Errorf("drawing a line %g mm beside another within %g mm: not possible for a line of this size", d, tol)
	}
	return nil
}

// offsetting is an offset line being built, cubic by cubic.
type offsetting struct {
	d, tol  float64
	out     Path
	corner  Point // the source point where the last part was left
	dropped bool  // a bend too tight was left out
}

func (o *offsetting) tooTight(at Point) error {
	return words.Errorf("no line is left %s mm beside it: it bends too tightly near (%s, %s)", words.Figure(math.Abs(o.d), 1), words.Figure(at.X, 1), words.Figure(at.Y, 1))
}

// add goes on along the next cubic: its smooth parts, each joined to what is
// there by a corner.
func (o *offsetting) add(c Cubic) error {
	if c.Tangent(0).IsZero() {
		return nil
	}
	cuts, keep := c.turnsBack(o.d)
	for k := 1; k < len(cuts); k++ {
		if !keep[k-1] {
			o.dropped = true
			continue
		}
		part, err := o.beside(c, cuts[k-1], cuts[k], 12)
		if err != nil {
			return err
		}
		if err := o.join(part, c.At(cuts[k-1])); err != nil {
			return err
		}
	}
	o.corner = c.P3
	return nil
}

func (o *offsetting) join(part Path, at Point) error {
	if len(o.out) == 0 {
		o.out = part
		return nil
	}
	x, ok := corner{o.out, part, o.d, o.d, at, o.tol}.solve()
	if !ok {
		return o.tooTight(at)
	}
	o.out = append(x.arrive(o.out.cutAt(x.ia, x.ta)), x.leave(part.between(x.ib, x.tb, len(part)-1, 1))...)
	return nil
}

// cutAt shortens p in place to end at parameter t of cubic i.
func (p Path) cutAt(i int, t float64) Path {
	if t == 0 && i > 0 {
		return p[:i]
	}
	p[i] = p[i].Sub(0, t)
	return p[:i+1]
}

// clear reports whether the finished line keeps its distance from p, tried at
// places so close that between them it comes nearer by far less than what is kept
// in hand.
func (o *offsetting) clear(p Path) bool {
	const places, inHand = 32, 0.1 // of each cubic, and of the tolerance
	for _, c := range o.out {
		for k := range places + 1 {
			if _, _, dist := p.Nearest(c.At(float64(k)/places), o.tol/8); dist < math.Abs(o.d)-(1-inHand)*2*o.tol {
				return false
			}
		}
	}
	return true
}

// beside fits cubics beside c from t0 to t1, halving until one fits.
func (o *offsetting) beside(c Cubic, t0, t1 float64, depth int) (Path, error) {
	if q, ok := o.one(c, t0, t1); ok {
		return Path{q}, nil
	}
	m := (t0 + t1) / 2
	if depth == 0 {
		at := c.At(m)
		return nil, words.Errorf("drawing a line beside another: it has a spike near (%s, %s)", words.Figure(at.X, 1), words.Figure(at.Y, 1))
	}
	l, err := o.beside(c, t0, m, depth-1)
	if err != nil {
		return nil, err
	}
	r, err := o.beside(c, m, t1, depth-1)
	return append(l, r...), err
}

// one is a single cubic beside c from t0 to t1, if one is close enough.
func (o *offsetting) one(c Cubic, t0, t1 float64) (Cubic, bool) {
	a, b := c.beside(t0, o.d), c.beside(t1, o.d)
	u, v := c.Tangent(t0), c.Tangent(t1)
	h := (t1 - t0) / 3
	lu, lv := c.Deriv(t0).Len()*c.stretchAt(t0, o.d)*h, c.Deriv(t1).Len()*c.stretchAt(t1, o.d)*h
	hermite := Cubic{a, a.Add(u.Scale(lu)), b.Add(v.Scale(-lv)), b}
	if q, ok := throughMiddle(hermite, u, v, c.beside((t0+t1)/2, o.d)); ok && o.close(q, c, t0, t1) {
		return q, true
	}
	return hermite, o.close(hermite, c, t0, t1)
}

// throughMiddle changes the handles' lengths of q along its end directions
// u and v so that its middle comes to m; false where that strains them.
func throughMiddle(q Cubic, u, v Vec, m Point) (Cubic, bool) {
	den := u.Cross(v)
	if math.Abs(den) < 1e-3 {
		return q, false
	}
	w := m.Sub(q.P0.Lerp(q.P3, 0.5)).Scale(8.0 / 3) // lu u - lv v
	lu, lv := w.Cross(v)/den, w.Cross(u)/den
	ru, rv := q.P1.Sub(q.P0).Dot(u), q.P3.Sub(q.P2).Dot(v)
	if lu < ru/2 || lu > 2*ru || lv < rv/2 || lv > 2*rv {
		return q, false
	}
	q.P1, q.P2 = q.P0.Add(u.Scale(lu)), q.P3.Add(v.Scale(-lv))
	return q, true
}

// close compares q with the true line beside c at seven places, each taken
// square to q. The difference is smooth with few humps, so holding it to half
// of tol there holds it to tol between.
func (o *offsetting) close(q, c Cubic, t0, t1 float64) bool {
	for k := 1.0; k < 8; k++ {
		u := k / 8
		p := c.beside(t0+u*(t1-t0), o.d)
		for range 2 {
			d := q.Deriv(u)
			if l := d.Dot(d); l > 0 {
				u = unit(u + p.Sub(q.At(u)).Dot(d)/l)
			}
		}
		if !(p.Dist(q.At(u)) <= o.tol/2) {
			return false
		}
	}
	return true
}

// beside is the point d mm to the left of c at t.
func (c Cubic) beside(t, d float64) Point { return c.At(t).Add(c.Tangent(t).Perp().Scale(-d)) }

// stretchAt is how much faster than c the line d mm to its left runs at t:
// negative where it runs backwards.
func (c Cubic) stretchAt(t, d float64) float64 {
	if c.stands(c.Deriv(t)) {
		t = 1e-4 + t*(1-2e-4) // curvature right beside the standstill
	}
	return 1 + d*c.Curvature(t)
}

// runsOn reports whether the line d mm to the left of c runs forwards at t:
// whether stretchAt is above 0, which seldom needs its roots.
func (c Cubic) runsOn(t, d float64) bool {
	v := c.Deriv(t)
	if c.stands(v) {
		return c.stretchAt(t, d) > 0
	}
	bend, speed := d*v.Cross(c.Deriv2(t)), v.Dot(v)
	if bend >= 0 {
		return true
	}
	// It runs backwards where the bend is more than the speed's third power.
	switch part := bend * bend / (speed * speed * speed); {
	case part < 0.99:
		return true
	case part > 1.01:
		return false
	}
	return c.stretchAt(t, d) > 0
}

// turnsBack divides 0 to 1 where the line d mm to the left of c starts or
// stops running backwards, and says which parts run forwards.
func (c Cubic) turnsBack(d float64) (cuts []float64, keep []bool) {
	const tries = 32
	forward := func(t float64) bool { return c.runsOn(t, d) }
	cuts, keep = append(cuts, 0), append(keep, forward(0))
	for k := 1; k <= tries; k++ {
		lo, hi := float64(k-1)/tries, float64(k)/tries
		now := keep[len(keep)-1]
		if forward(hi) == now {
			continue
		}
		for hi-lo > 1e-12 {
			if m := (lo + hi) / 2; forward(m) == now {
				lo = m
			} else {
				hi = m
			}
		}
		cuts, keep = append(cuts, hi), append(keep, !now)
	}
	return append(cuts, 1), keep
}
