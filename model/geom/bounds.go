package geom

// Bounds is the smallest box around the curve itself, not its handles.
func (c Cubic) Bounds() Box {
	b := BoxOf(c.P0, c.P3)
	hull := BoxOf(c.P1, c.P2)
	if b.Min.X <= hull.Min.X && b.Max.X >= hull.Max.X && b.Min.Y <= hull.Min.Y && b.Max.Y >= hull.Max.Y {
		return b
	}
	d0, d1, d2 := c.P1.Sub(c.P0), c.P2.Sub(c.P1), c.P3.Sub(c.P2)
	a, m := d0.Add(d2).Sub(d1.Scale(2)), d1.Sub(d0).Scale(2)
	for _, k := range [2][3]float64{{a.X, m.X, d0.X}, {a.Y, m.Y, d0.Y}} {
		lo, hi, n := quadratic(k[0], k[1], k[2])
		for _, t := range []float64{lo, hi}[:n] {
			if t > 0 && t < 1 {
				p := c.At(t)
				b = BoxOf(b.Min, b.Max, p)
			}
		}
	}
	return b
}

// hull is the box around the control points: looser than Bounds and cheaper.
func (c Cubic) hull() Box {
	return Box{
		Pt(min(c.P0.X, c.P1.X, c.P2.X, c.P3.X), min(c.P0.Y, c.P1.Y, c.P2.Y, c.P3.Y)),
		Pt(max(c.P0.X, c.P1.X, c.P2.X, c.P3.X), max(c.P0.Y, c.P1.Y, c.P2.Y, c.P3.Y)),
	}
}

// Bounds is the smallest box around the line; empty for an empty path.
func (p Path) Bounds() Box {
	if len(p) == 0 {
		return Box{}
	}
	b := p[0].Bounds()
	for _, c := range p[1:] {
		o := c.Bounds()
		b = BoxOf(b.Min, b.Max, o.Min, o.Max)
	}
	return b
}

// IsStraight reports whether the curve lies within tol mm of the straight line
// between its ends.
func (c Cubic) IsStraight(tol float64) bool { return Path{c}.IsStraight(tol) }

// IsStraight reports whether the whole path lies within tol mm of the straight
// line between its ends. An empty path is straight.
func (p Path) IsStraight(tol float64) bool {
	if len(p) == 0 {
		return true
	}
	start, chord := p.Start(), p.End().Sub(p.Start())
	along := chord.Unit()
	if along.IsZero() {
		along = Vec{X: 1}
	}
	side := along.Perp()
	turned := func(q Point) Point {
		v := q.Sub(start)
		return Point{v.Dot(along), v.Dot(side)}
	}
	room := Box{Pt(0, 0), Pt(chord.Len(), 0)}
	for _, c := range p {
		t := Cubic{turned(c.P0), turned(c.P1), turned(c.P2), turned(c.P3)}
		b := t.Bounds()
		for _, q := range [4]Point{b.Min, b.Max, {b.Min.X, b.Max.Y}, {b.Max.X, b.Min.Y}} {
			if !(room.dist(q) <= tol) {
				return false
			}
		}
	}
	return true
}
