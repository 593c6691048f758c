package geom

import (
	"math"
	"math/cmplx"

	"quarterstep/assets/words"
)

// speed is how fast a cubic runs: |k0 + k1 t + k2 t²| mm per unit of t. Read
// as one complex polynomial it has up to two roots; they and their mirror
// images are the only places where the speed is not analytic, which gives a
// proven bound for the error of a Gauss rule instead of a guess.
type speed struct {
	k0, k1, k2 Vec
	root       [2]complex128
	n          int     // roots in use
	l1, l2     float64 // lengths of k1 and k2
}

func (c Cubic) speed() speed {
	d0, d1, d2 := c.P1.Sub(c.P0).Scale(3), c.P2.Sub(c.P1).Scale(3), c.P3.Sub(c.P2).Scale(3)
	s := speed{k0: d0, k1: d1.Sub(d0).Scale(2), k2: d0.Add(d2).Sub(d1.Scale(2))}
	s.l1, s.l2 = s.k1.Len(), s.k2.Len()
	size := s.k0.Len() + s.l1 + s.l2
	k0, k1, k2 := complex(s.k0.X, s.k0.Y), complex(s.k1.X, s.k1.Y), complex(s.k2.X, s.k2.Y)
	switch {
	case s.l2 > 1e-15*size:
		h := cmplx.Sqrt(k1*k1 - 4*k2*k0)
		if real(k1)*real(h)+imag(k1)*imag(h) < 0 {
			h = -h
		}
		q := -(k1 + h) / 2
		s.root[0], s.n = q/k2, 2
		if q != 0 {
			s.root[1] = k0 / q
		}
	case s.l1 > 1e-15*size:
		s.root[0], s.n = -k0/k1, 1
	}
	return s
}

// at is the speed at t.
func (s *speed) at(t float64) float64 {
	x := s.k0.X + t*(s.k1.X+t*s.k2.X)
	y := s.k0.Y + t*(s.k1.Y+t*s.k2.Y)
	return math.Sqrt(x*x + y*y)
}

// integral is the length from parameter a to b, a <= b, within tol mm.
func (s *speed) integral(a, b, tol float64) float64 {
	if b <= a {
		return 0
	}
	if s.bound(a, b) <= tol/2 { // the usual case
		return s.gauss(a, b)
	}
	cut := [4]float64{a, b}
	cuts := 2
	live := *s
	live.n = 0
	for _, w := range s.root[:s.n] {
		// A root this near the real line shifts the speed by no more than
		// tol/8 when put on it, and there |t - w| is straight on each side.
		k := s.l1 + s.l2*(1+cmplx.Abs(w))
		if math.Abs(imag(w))*k > tol/8 {
			live.root[live.n] = w
			live.n++
		} else if r := real(w); r > a && r < b {
			cut[cuts] = r
			cuts++
		}
	}
	if cuts == 2 {
		return live.adapt(a, b, tol/2/(b-a))
	}
	if cuts == 4 && cut[2] > cut[3] {
		cut[2], cut[3] = cut[3], cut[2]
	}
	cut[1], cut[2], cut[3] = cut[2], cut[3], b
	if cuts == 3 {
		cut[2] = b
	}
	sum, rate := 0.0, tol/2/(b-a)
	for i := 1; i < cuts; i++ {
		sum += live.adapt(cut[i-1], cut[i], rate)
	}
	return sum
}

// adapt halves the interval until the Gauss rule's error bound is within rate
// mm per unit of t.
func (s *speed) adapt(a, b, rate float64) float64 {
	if s.bound(a, b) <= rate*(b-a) || b-a < 1e-13 {
		return s.gauss(a, b)
	}
	m := (a + b) / 2
	return s.adapt(a, m, rate) + s.adapt(m, b, rate)
}

// bound is the proven error of the 12-point Gauss-Legendre rule on [a, b]:
// 64/15 M rho^-24 / (1 - rho^-2), with M a bound of the integrand on the
// ellipse with foci a, b through the nearest root (L. N. Trefethen,
// Approximation Theory and Approximation Practice, theorem 19.3).
func (s *speed) bound(a, b float64) float64 {
	if s.n == 0 {
		return 0
	}
	m, h := (a+b)/2, (b-a)/2
	rho := math.Inf(1)
	for _, w := range s.root[:s.n] {
		x, y := (real(w)-m)/h, imag(w)/h
		half := (math.Sqrt((x-1)*(x-1)+y*y) + math.Sqrt((x+1)*(x+1)+y*y)) / 2 // semi-axis of the ellipse through w
		rho = min(rho, half+math.Sqrt(max(half*half-1, 0)))
	}
	if rho <= 1.001 {
		return math.Inf(1)
	}
	rho = min(rho, 1e6)
	r := h * (rho + 1/rho) / 2
	c0 := s.at(m)
	x, y := s.k1.X+2*m*s.k2.X, s.k1.Y+2*m*s.k2.Y
	c1 := math.Sqrt(x*x + y*y)
	bound := c0 + r*(c1+r*s.l2)
	r2 := rho * rho
	r8 := r2 * r2 * r2 * r2
	return h * 64 / 15 * bound / (r8 * r8 * r8) / (1 - 1/r2)
}

// gaussX and gaussW are the positive places and the weights of the 12-point
// Gauss-Legendre rule (Abramowitz and Stegun, table 25.4).
var (
	gaussX = [6]float64{
		0.1252334085114689, 0.3678314989981802, 0.5873179542866175,
		0.7699026741943047, 0.9041172563704749, 0.9815606342467193,
	}
	gaussW = [6]float64{
		0.2491470458134028, 0.2334925365383548, 0.2031674267230659,
		0.1600783285433462, 0.1069393259953184, 0.0471753363865118,
	}
)

func (s *speed) gauss(a, b float64) float64 {
	m, h := (a+b)/2, (b-a)/2
	var sum float64
	for i, x := range gaussX {
		sum += gaussW[i] * (s.at(m-h*x) + s.at(m+h*x))
	}
	return h * sum
}

// inverse is the parameter in [a, b] reached after s0 mm from a, within tol mm
// along the curve: Newton's rule kept between brackets.
func (s *speed) inverse(a, b, s0, guess, tol float64) float64 {
	lo, hi, t := a, b, min(max(guess, a), b)
	for range 200 {
		f := s.integral(a, t, tol/4) - s0
		if math.Abs(f) <= tol/2 {
			return t
		}
		if f > 0 {
			hi = t
		} else {
			lo = t
		}
		next := t - f/s.at(t)
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if next == t {
			return t
		}
		t = next
	}
	return t
}

// checkTol refuses what cannot be measured to tol.
func (c Cubic) checkTol(tol float64) error {
	if !c.Finite() {
		return words.Errorf("a coordinate is not a number")
	}
	if !(tol > 0) || tol < 1e-13*c.reach() {
		return words.Errorf("a tolerance of %g mm cannot be met on a curve of this size", tol)
	}
	return nil
}

// Length is the arc length in mm, within tol. It is an error for coordinates
// that are not numbers and for a tol finer than 1e-13 of the curve's size.
func (c Cubic) Length(tol float64) (float64, error) { return c.LengthTo(1, tol) }

// LengthTo is the arc length from the start to parameter t (0 to 1) in mm,
// within tol; errors as Length.
func (c Cubic) LengthTo(t, tol float64) (float64, error) {
	if err := c.checkTol(tol); err != nil {
		return 0, words.Errorf("measuring a curve: %w", err)
	}
	s := c.speed()
	return s.integral(0, min(max(t, 0), 1), tol), nil
}

// ParamAt is the parameter reached after s mm along the curve, within tol mm
// of length; before the start it is 0, beyond the end 1. Errors as Length.
func (c Cubic) ParamAt(s, tol float64) (float64, error) {
	if err := c.checkTol(tol); err != nil {
		return 0, words.Errorf("finding a place on a curve: %w", err)
	}
	v := c.speed()
	total := v.integral(0, 1, tol/4)
	switch {
	case s <= 0:
		return 0, nil
	case s >= total:
		return 1, nil
	}
	return v.inverse(0, 1, s, s/total, tol), nil
}

// Length is the arc length of the whole path in mm, within tol; errors as
// Cubic.Length, with tol shared out over the cubics.
func (p Path) Length(tol float64) (float64, error) {
	var sum float64
	for _, c := range p {
		l, err := c.Length(tol / float64(len(p)))
		if err != nil {
			return 0, err
		}
		sum += l
	}
	return sum, nil
}
