package geom

import (
	"sort"

	"quarterstep/assets/words"
)

// knots is how many stretches of each cubic Measured tabulates.
const knots = 8

// Measured is a path with its arc length tabulated, for many questions of the
// kind "what lies s mm along". Every s is in mm from the path's start, is held
// between 0 and Length, and is met within the tolerance given to Measure. The
// zero Measured is an empty path.
type Measured struct {
	path  Path
	speed []speed
	s     []float64 // arc length at the knots, knots per cubic and one more
	tol   float64
}

// Measure tabulates p; tol bounds Length and every place looked up, in mm
// along the path. Errors as Cubic.Length.
func Measure(p Path, tol float64) (Measured, error) {
	m := Measured{path: p, tol: tol, speed: make([]speed, len(p)), s: make([]float64, 1, knots*len(p)+1)}
	part := tol / 4 / float64(max(len(p), 1))
	var sum float64
	for i, c := range p {
		if err := c.checkTol(part); err != nil {
			return Measured{}, words.Errorf("measuring curve %d of a line: %w", i+1, err)
		}
		m.speed[i] = c.speed()
		for k := range knots {
			sum += m.speed[i].integral(float64(k)/knots, float64(k+1)/knots, part/knots)
			m.s = append(m.s, sum)
		}
	}
	return m, nil
}

// Path is the path measured.
func (m Measured) Path() Path { return m.path }

// Length is the arc length of the whole path in mm.
func (m Measured) Length() float64 {
	if len(m.s) == 0 {
		return 0
	}
	return m.s[len(m.s)-1]
}

// Locate is the cubic and the parameter on it at s mm; (0, 0) for an empty
// path. At a joint it is the end of the earlier cubic.
func (m Measured) Locate(s float64) (i int, t float64) {
	if len(m.path) == 0 || !(s > 0) {
		return 0, 0
	}
	if s >= m.Length() {
		return len(m.path) - 1, 1
	}
	slack := 1e-12 * m.Length() // a joint is a joint, whatever the rounding
	k := max(sort.SearchFloat64s(m.s, s-slack), 1)
	i = (k - 1) / knots
	a := float64((k-1)%knots) / knots
	b := a + 1.0/knots
	if s >= m.s[k]-slack {
		return i, b
	}
	guess := a + (b-a)*(s-m.s[k-1])/(m.s[k]-m.s[k-1])
	return i, m.speed[i].inverse(a, b, s-m.s[k-1], guess, m.tol/2)
}

// At is the point s mm along.
func (m Measured) At(s float64) Point {
	if len(m.path) == 0 {
		return Point{}
	}
	i, t := m.Locate(s)
	return m.path[i].At(t)
}

// Tangent is the unit direction of travel s mm along; at a joint with a corner
// it is the direction of arrival. It is the zero Vec for an empty path.
func (m Measured) Tangent(s float64) Vec {
	if len(m.path) == 0 {
		return Vec{}
	}
	i, t := m.Locate(s)
	if d := m.path[i].Tangent(t); !d.IsZero() {
		return d
	}
	if d := m.path[:i].EndDir(); !d.IsZero() { // a cubic that is a single point
		return d
	}
	return m.path[i:].StartDir()
}

// To is the arc length in mm from the path's start to parameter t of cubic i.
func (m Measured) To(i int, t float64) float64 {
	if len(m.path) == 0 {
		return 0
	}
	k := min(max(int(t*knots), 0), knots-1)
	a := float64(k) / knots
	return m.s[i*knots+k] + m.speed[i].integral(a, min(t, 1), m.tol/4)
}

// Between is the stretch of the path from s0 to s1 mm, backwards where
// s1 < s0. A stretch without length is one cubic that is a point.
func (m Measured) Between(s0, s1 float64) Path {
	if len(m.path) == 0 {
		return nil
	}
	if s1 < s0 {
		return m.Between(s1, s0).Reverse()
	}
	i, t := m.Locate(s0)
	j, u := m.Locate(s1)
	return m.path.between(i, t, j, u)
}

// between is the stretch from parameter t of cubic i to u of cubic j, in
// order. Empty cubics at the two cuts are left out.
func (p Path) between(i int, t float64, j int, u float64) Path {
	if t == 1 && i < j {
		i, t = i+1, 0
	}
	if u == 0 && i < j {
		j, u = j-1, 1
	}
	if i == j {
		return Path{p[i].Sub(t, max(t, u))}
	}
	out := append(Path{p[i].Sub(t, 1)}, p[i+1:j]...)
	return append(out, p[j].Sub(0, u))
}

// SplitAt cuts p at s mm from its start, held between 0 and its length; the
// place is met within tol mm along the path. Both parts have at least one
// cubic. An empty path is an error, as is what Cubic.Length refuses.
func (p Path) SplitAt(s, tol float64) (Path, Path, error) {
	if len(p) == 0 {
		return nil, nil, words.Errorf("cutting a line: it is empty")
	}
	m, err := Measure(p, tol)
	if err != nil {
		return nil, nil, words.Errorf("cutting a line: %w", err)
	}
	i, t := m.Locate(s)
	last := len(p) - 1
	return p.between(0, 0, i, t), p.between(i, t, last, 1), nil
}
