package geom

import "math"

// mostLegs caps the straight legs of one flattened cubic.
const mostLegs = 1 << 16

// legs is how many equal steps of t keep the chords within tol mm of c: the
// chord of a step h departs from the curve by at most h²/8 times the greatest
// second derivative, which a cubic has at one of its ends (linear
// interpolation's error, any handbook of numerical analysis).
func (c Cubic) legs(tol float64) int {
	if c.IsStraight(tol) {
		return 1
	}
	e0, e1 := c.bends()
	n := math.Ceil(math.Sqrt(6 * max(e0.Len(), e1.Len()) / 8 / tol))
	if !(n < mostLegs) {
		return mostLegs
	}
	return max(int(n), 1)
}

// Flatten gives points on c, from start to end, whose joining lines stay
// within tol mm of it. tol below about 1e-9 of the curve's size is not met:
// there are never more than 65,537 points.
func (c Cubic) Flatten(tol float64) []Point {
	n := c.legs(tol)
	out := make([]Point, n+1)
	for k := range out {
		out[k] = c.At(float64(k) / float64(n))
	}
	return out
}

// Flatten joins its cubics' flattened points, joints once each; none for an
// empty path.
func (p Path) Flatten(tol float64) []Point {
	var out []Point
	for i, c := range p {
		pts := c.Flatten(tol)
		if i > 0 {
			pts = pts[1:]
		}
		out = append(out, pts...)
	}
	return out
}
