package geom

import (
	"quarterstep/assets/words"
)

// joinTol is how far apart in mm two ends may lie and still count as the same
// point: far below any line on paper, far above rounding.
const joinTol = 1e-6

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

// Join puts paths end to end. Where one starts within 1e-6 mm of where the one
// before ends, its start is set there exactly; a wider gap is bridged by a
// straight line. Empty paths are left out.
func Join(paths ...Path) Path {
	var out Path
	for _, p := range paths {
		if len(p) == 0 {
			continue
		}
		at := len(out)
		if at > 0 {
			if end := out.End(); end.Dist(p.Start()) > joinTol {
				out = append(out, Line(end, p.Start()))
				at++
			}
		}
		out = append(out, p...)
		if at > 0 {
			out[at].P0 = out[at-1].P3
		}
	}
	return out
}

// Transform is p with every point taken through m.
func (p Path) Transform(m Affine) Path {
	out := make(Path, len(p))
	for i, c := range p {
		out[i] = c.Transform(m)
	}
	return out
}

// Closed reports whether p ends within tol mm of its start. An empty path is
// not closed.
func (p Path) Closed(tol float64) bool {
	return len(p) > 0 && p.Start().Dist(p.End()) <= tol
}

// Validate reports the first place where p is not a path: a coordinate that is
// no ordinary number, or a cubic that starts more than 1e-6 mm from where the
// one before ends.
func (p Path) Validate() error {
	for i, c := range p {
		if !c.Finite() {
			return words.Errorf("curve %d of the line has a coordinate that is not a number", i+1)
		}
		if i > 0 && c.P0.Dist(p[i-1].P3) > joinTol {
			return words.Errorf("the line is broken before curve %d: it ends at (%s, %s) and goes on at (%s, %s)",
				i+1, words.Figure(p[i-1].P3.X, 3), words.Figure(p[i-1].P3.Y, 3), words.Figure(c.P0.X, 3), words.Figure(c.P0.Y, 3))
		}
	}
	return nil
}
