package geom

// Cubic is one cubic Bézier curve from P0 to P3, in millimetres.
type Cubic struct{ P0, P1, P2, P3 Point }

// Line is the straight cubic from a to b, its handles at the thirds, so that
// its parameter runs evenly with its length.
func Line(a, b Point) Cubic {
	return Cubic{a, a.Lerp(b, 1.0/3), a.Lerp(b, 2.0/3), b}
}

// At is the point at parameter t, by de Casteljau's rule.
func (c Cubic) At(t float64) Point {
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
