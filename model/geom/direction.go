package geom

import "math"

// tiny is the share of a cubic's size below which a derivative counts as zero:
// its direction would be rounding.
const tiny = 1e-9

// Deriv is the first derivative at t, in mm per unit of t.
func (c Cubic) Deriv(t float64) Vec {
	d0, d1, d2 := c.P1.Sub(c.P0), c.P2.Sub(c.P1), c.P3.Sub(c.P2)
	s := 1 - t
	return d0.Scale(3 * s * s).Add(d1.Scale(6 * s * t)).Add(d2.Scale(3 * t * t))
}

// Deriv2 is the second derivative at t, in mm per unit of t squared.
func (c Cubic) Deriv2(t float64) Vec {
	e0, e1 := c.bends()
	return e0.Scale(6 * (1 - t)).Add(e1.Scale(6 * t))
}

// bends are the second differences of the control points.
func (c Cubic) bends() (Vec, Vec) {
	d0, d1, d2 := c.P1.Sub(c.P0), c.P2.Sub(c.P1), c.P3.Sub(c.P2)
	return d1.Sub(d0), d2.Sub(d1)
}

// stands reports whether d, a derivative of c, is too short to be told from 0.
func (c Cubic) stands(d Vec) bool {
	// A leg is no longer than its two sides together; what is longer than that
	// bound, with room for rounding, needs no square roots.
	far := max(block(c.P0, c.P1), block(c.P1, c.P2), block(c.P2, c.P3)) * tiny
	if d.Dot(d) > 1.001*far*far {
		return false
	}
	return !(d.Len() > tiny*c.reach())
}

// block is how far two points are apart across and down together.
func block(p, q Point) float64 { return math.Abs(q.X-p.X) + math.Abs(q.Y-p.Y) }

// Tangent is the unit direction of travel at t. Where the curve stands still,
// as at an end whose handle has no length, it is the direction just inside the
// curve from there; a cubic that is a single point has the zero Vec.
func (c Cubic) Tangent(t float64) Vec {
	if d := c.Deriv(t); !c.stands(d) {
		return d.Unit()
	}
	e0, e1 := c.bends()
	if d := c.Deriv2(t); !c.stands(d) {
		if t > 0.5 { // coming in, speed falls to nothing
			d = d.Scale(-1)
		}
		return d.Unit()
	}
	return e1.Sub(e0).Unit()
}

// Curvature is 1/radius at t in 1/mm, positive where the curve bends clockwise
// as seen on the paper; 0 where the curve stands still.
func (c Cubic) Curvature(t float64) float64 {
	d := c.Deriv(t)
	if c.stands(d) {
		return 0
	}
	v := d.Len()
	return d.Cross(c.Deriv2(t)) / (v * v * v)
}

// Inflections are the parameters strictly between 0 and 1 where the bend
// changes sides, in rising order: at most two.
func (c Cubic) Inflections() []float64 {
	d0 := c.P1.Sub(c.P0)
	e0, e1 := c.bends()
	f := e1.Sub(e0)
	// Deriv x Deriv2 / 18 with Deriv/3 = d0 + 2 e0 t + f t², Deriv2/6 = e0 + f t.
	a, b, k := e0.Cross(f), d0.Cross(f), d0.Cross(e0)
	scale := c.reach()
	if max(math.Abs(a), math.Abs(b), math.Abs(k)) <= tiny*scale*scale {
		return nil // straight
	}
	var out []float64
	lo, hi, n := quadratic(a, b, k)
	if n == 2 && lo != hi || n == 1 {
		for _, t := range []float64{lo, hi}[:n] {
			if t > 0 && t < 1 {
				out = append(out, t)
			}
		}
	}
	return out
}

// quadratic solves a t² + b t + c = 0: n real roots, 0 to 2, lo <= hi. With
// one root both are it. It avoids the cancellation of the school formula.
func quadratic(a, b, c float64) (lo, hi float64, n int) {
	if math.Abs(a) <= 1e-14*(math.Abs(b)+math.Abs(c)) {
		if b == 0 {
			return 0, 0, 0
		}
		t := -c / b
		return t, t, 1
	}
	disc := b*b - 4*a*c
	if disc < 0 {
		return 0, 0, 0
	}
	q := -(b + math.Copysign(math.Sqrt(disc), b)) / 2
	t, u := q/a, q/a
	if q != 0 {
		u = c / q
	}
	return min(t, u), max(t, u), 2
}

// StartDir is the unit direction in which p sets off, whatever its handles'
// lengths; the zero Vec for an empty path or a single point.
func (p Path) StartDir() Vec {
	for _, c := range p {
		if d := c.Tangent(0); !d.IsZero() {
			return d
		}
	}
	return Vec{}
}

// EndDir is the unit direction in which p arrives, in the sense of travel.
func (p Path) EndDir() Vec {
	for i := len(p) - 1; i >= 0; i-- {
		if d := p[i].Tangent(1); !d.IsZero() {
			return d
		}
	}
	return Vec{}
}
