package geom

import (
	"math"

	"quarterstep/assets/words"
)

// Nearest is the parameter of the place of c nearest to p, and its distance
// from p in mm, which is within tol of the least there is.
func (c Cubic) Nearest(p Point, tol float64) (t, dist float64) {
	t, dist = 0, p.Dist(c.P0)
	if d := p.Dist(c.P3); d < dist {
		t, dist = 1, d
	}
	q := footPoly(c, p)
	width := 1e-15
	if v := 3 * c.reach(); v > 0 {
		width = max(width, tol/v)
	}
	q.roots(0, 1, width, func(u float64) {
		if d := p.Dist(c.At(u)); d < dist {
			t, dist = u, d
		}
	})
	return t, dist
}

// quintic is a polynomial of degree 5 by its Bernstein coefficients on an
// interval.
type quintic [6]float64

// footPoly is (c(t) - p) . c'(t) / 3: zero where the line from p meets the
// curve at a right angle.
func footPoly(c Cubic, p Point) quintic {
	r := [4]Vec{c.P0.Sub(p), c.P1.Sub(p), c.P2.Sub(p), c.P3.Sub(p)}
	d := [3]Vec{r[1].Sub(r[0]), r[2].Sub(r[1]), r[3].Sub(r[2])}
	return quintic{
		r[0].Dot(d[0]),
		(2*r[0].Dot(d[1]) + 3*r[1].Dot(d[0])) / 5,
		(r[0].Dot(d[2]) + 6*r[1].Dot(d[1]) + 3*r[2].Dot(d[0])) / 10,
		(3*r[1].Dot(d[2]) + 6*r[2].Dot(d[1]) + r[3].Dot(d[0])) / 10,
		(3*r[2].Dot(d[2]) + 2*r[3].Dot(d[1])) / 5,
		r[3].Dot(d[2]),
	}
}

// roots calls found with every root on [a, b], the interval of q, within width
// of t, and may call it with others. The number of sign changes of Bernstein
// coefficients bounds the number of roots (Descartes' rule), so no root is
// missed: none means none, one is closed in on, more are halved.
func (q quintic) roots(a, b, width float64, found func(t float64)) {
	n := q.signChanges()
	if n == 0 {
		return
	}
	if b-a <= width {
		found((a + b) / 2)
		return
	}
	if n == 1 && q[0]*q[5] < 0 {
		found(a + (b-a)*q.soleRoot(width/(b-a)))
		return
	}
	l, r := q.halve()
	m := (a + b) / 2
	if l[5] == 0 {
		found(m)
	}
	l.roots(a, m, width, found)
	r.roots(m, b, width, found)
}

func (q quintic) signChanges() int {
	n, last := 0, 0.0
	for _, x := range q {
		if x != 0 {
			if x*last < 0 {
				n++
			}
			last = math.Copysign(1, x)
		}
	}
	return n
}

// halve cuts the interval in two by de Casteljau's rule.
func (q quintic) halve() (l, r quintic) {
	for i := range q {
		l[i], r[5-i] = q[0], q[5-i]
		for j := 0; j < 5-i; j++ {
			q[j] = (q[j] + q[j+1]) / 2
		}
	}
	return l, r
}

// at is the value and the slope at u in 0 to 1.
func (q quintic) at(u float64) (value, slope float64) {
	for k := 5; k > 1; k-- {
		for j := range k {
			q[j] += u * (q[j+1] - q[j])
		}
	}
	return q[0] + u*(q[1]-q[0]), 5 * (q[1] - q[0])
}

// soleRoot is the root in 0 to 1 of a q whose ends differ in sign, within
// width: Newton's rule kept between brackets.
func (q quintic) soleRoot(width float64) float64 {
	lo, hi := 0.0, 1.0
	up := q[5] > 0
	// Not at an end: a root there may be rounding's, and hide the true one.
	u := min(max(q[0]/(q[0]-q[5]), 0.01), 0.99)
	for range 100 {
		f, slope := q.at(u)
		if f == 0 {
			return u
		}
		if (f > 0) == up {
			hi = u
		} else {
			lo = u
		}
		next := u - f/slope
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if math.Abs(next-u) <= width/8 || hi-lo <= width {
			return next
		}
		u = next
	}
	return u
}

// Nearest is the cubic of p and the parameter on it nearest to q, and the
// distance from q in mm, within tol of the least there is. An empty path is
// infinitely far.
func (p Path) Nearest(q Point, tol float64) (i int, t, dist float64) {
	dist = math.Inf(1)
	for k, c := range p {
		if c.hull().dist(q) >= dist {
			continue
		}
		if u, d := c.Nearest(q, tol); d < dist {
			i, t, dist = k, u, d
		}
	}
	return i, t, dist
}

// NearestS is Nearest with the place given in mm along the path, measured
// within tol. Errors as Cubic.Length; an empty path is an error.
func (p Path) NearestS(q Point, tol float64) (s, dist float64, err error) {
	if len(p) == 0 {
		return 0, 0, words.Errorf("finding the nearest place on a line: it is empty")
	}
	i, t, dist := p.Nearest(q, tol)
	part := tol / float64(i+1)
	s, err = p[:i].Length(tol - part)
	if i == 0 {
		s, part = 0, tol
	}
	if err == nil {
		var rest float64
		rest, err = p[i].LengthTo(t, part)
		s += rest
	}
	if err != nil {
		return 0, 0, words.Errorf("finding the nearest place on a line: %w", err)
	}
	return s, dist, nil
}
