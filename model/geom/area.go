package geom

// Area is the area in mm² that p goes round, exact to rounding, positive when
// it runs clockwise as seen on the paper. An open path is closed by a straight
// line; where a path crosses itself the parts count with their own signs.
func (p Path) Area() float64 {
	o := p.Start()
	var sum float64
	for _, c := range p {
		// Half the integral of x dy - y dx in Bernstein form.
		a, b, d, e := c.P0.Sub(o), c.P1.Sub(o), c.P2.Sub(o), c.P3.Sub(o)
		sum += a.Cross(b.Scale(6).Add(d.Scale(3)).Add(e)) +
			b.Cross(d.Add(e).Scale(3)) + d.Cross(e.Scale(6))
	}
	return sum / 20
}

// Contains reports whether q lies inside the closed outline p (even-odd rule;
// an open path is closed by a straight line). Within tol mm of the line the
// answer may be either.
func (p Path) Contains(q Point, tol float64) bool {
	var hull Box
	for _, c := range p {
		hull = hull.Union(c.hull())
	}
	if !hull.Contains(q) {
		return false
	}
	pts := p.Flatten(tol)
	in := false
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		if (a.Y > q.Y) != (b.Y > q.Y) && q.X < a.X+(q.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}
