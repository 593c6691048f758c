package geom

// Path is a run of cubics, each starting exactly where the one before ends.
// The zero Path is empty.
type Path []Cubic

// Polyline joins the points by straight cubics; fewer than two points give an
// empty path.
func Polyline(pts ...Point) Path {
	var p Path
	for i := 1; i < len(pts); i++ {
		p = append(p, Line(pts[i-1], pts[i]))
	}
	return p
}

// Start is the first point; the zero Point for an empty path.
func (p Path) Start() Point {
	if len(p) == 0 {
		return Point{}
	}
	return p[0].P0
}

// End is the last point; the zero Point for an empty path.
func (p Path) End() Point {
	if len(p) == 0 {
		return Point{}
	}
	return p[len(p)-1].P3
}

// Reverse is the same path walked from its end.
func (p Path) Reverse() Path {
	out := make(Path, len(p))
	for i, c := range p {
		out[len(p)-1-i] = c.Reverse()
	}
	return out
}

// Move is p shifted by v.
func (p Path) Move(v Vec) Path {
	out := make(Path, len(p))
	for i, c := range p {
		out[i] = c.Move(v)
	}
	return out
}

// Controls lists the 3n+1 control points of n cubics, joints once each.
func (p Path) Controls() []Point {
	if len(p) == 0 {
		return nil
	}
	out := make([]Point, 0, 3*len(p)+1)
	out = append(out, p[0].P0)
	for _, c := range p {
		out = append(out, c.P1, c.P2, c.P3)
	}
	return out
}

// FromControls is the inverse of Controls: 3n+1 points make n cubics. Any
// other count gives an empty path.
func FromControls(pts []Point) Path {
	if len(pts) < 4 || len(pts)%3 != 1 {
		return nil
	}
	p := make(Path, 0, len(pts)/3)
	for i := 0; i+3 < len(pts); i += 3 {
		p = append(p, Cubic{pts[i], pts[i+1], pts[i+2], pts[i+3]})
	}
	return p
}
