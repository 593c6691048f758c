package geom

// Cubic is one cubic Bézier curve from P0 to P3, in millimetres.
type Cubic struct{ P0, P1, P2, P3 Point }

// Line is the straight cubic from a to b, its handles at the thirds, so that
// its parameter runs evenly with its length.
func Line(a, b Point) Cubic {
	return Cubic{a, a.Lerp(b, 1.0/3), a.Lerp(b, 2.0/3), b}
}

// At is the point at parameter t, by de Casteljau's rule; exactly P0 at 0 and
// P3 at 1.
func (c Cubic) At(t float64) Point {
	if t == 1 {
		return c.P3
	}
	a, b, d := c.P0.Lerp(c.P1, t), c.P1.Lerp(c.P2, t), c.P2.Lerp(c.P3, t)
	return a.Lerp(b, t).Lerp(b.Lerp(d, t), t)
}

// Split cuts c at parameter t; the first part ends where the second begins.
func (c Cubic) Split(t float64) (Cubic, Cubic) {
	a, b, d := c.P0.Lerp(c.P1, t), c.P1.Lerp(c.P2, t), c.P2.Lerp(c.P3, t)
	e, f := a.Lerp(b, t), b.Lerp(d, t)
	m := e.Lerp(f, t)
	return Cubic{c.P0, a, e, m}, Cubic{m, f, d, c.P3}
}

// Reverse is the same curve walked from P3 to P0.
func (c Cubic) Reverse() Cubic { return Cubic{c.P3, c.P2, c.P1, c.P0} }

// Move is c shifted by v.
func (c Cubic) Move(v Vec) Cubic {
	return Cubic{c.P0.Add(v), c.P1.Add(v), c.P2.Add(v), c.P3.Add(v)}
}

// Sub is the stretch of c from parameter t0 to t1, backwards where t1 < t0. It
// starts and ends exactly at c.At(t0) and c.At(t1), so stretches that share a
// parameter join exactly.
func (c Cubic) Sub(t0, t1 float64) Cubic {
	if t0 == 0 && t1 == 1 {
		return c
	}
	return Cubic{c.At(t0), c.blossom(t0, t0, t1), c.blossom(t0, t1, t1), c.At(t1)}
}

// blossom is the polar form of c: de Casteljau's rule with a parameter of its
// own at each of the three levels.
func (c Cubic) blossom(r, s, t float64) Point {
	a, b, d := c.P0.Lerp(c.P1, r), c.P1.Lerp(c.P2, r), c.P2.Lerp(c.P3, r)
	return a.Lerp(b, s).Lerp(b.Lerp(d, s), t)
}

// Transform is c with every point taken through m.
func (c Cubic) Transform(m Affine) Cubic {
	return Cubic{m.Apply(c.P0), m.Apply(c.P1), m.Apply(c.P2), m.Apply(c.P3)}
}

// Finite reports whether all coordinates are ordinary numbers.
func (c Cubic) Finite() bool {
	return c.P0.Finite() && c.P1.Finite() && c.P2.Finite() && c.P3.Finite()
}

// reach is the longest leg of the control polygon in mm: 0 only for a cubic
// that is a single point, and 3*reach bounds its speed.
func (c Cubic) reach() float64 {
	return max(c.P0.Dist(c.P1), c.P1.Dist(c.P2), c.P2.Dist(c.P3))
}
