package follow

import (
	"math"

	"quarterstep/model/geom"
)

// draw is the few clean cubics along what was seen of a line, straight where
// the line is.
func draw(seen []geom.Point, tol float64) (geom.Path, error) {
	pts := even(seen)
	if isStraight(pts, tol) {
		return geom.Path{geom.Line(pts[0], pts[len(pts)-1])}, nil
	}
	for n := 1; n <= 8; n++ {
		p, off, err := geom.Fit(pts, geom.Vec{}, geom.Vec{}, n)
		if err != nil {
			return nil, err
		}
		if off <= tol || n == 8 {
			return p, nil
		}
	}
	return nil, nil
}

// even is the corners and a point for every evenMM between, each the middle of
// what was seen there.
func even(seen []geom.Point) []geom.Point {
	const evenMM = 2.0
	first, last := seen[0], seen[len(seen)-1]
	out := []geom.Point{first}
	var x, y, n, s float64
	for i := 1; i < len(seen)-1; i++ {
		p := seen[i]
		s += p.Dist(seen[i-1])
		if p.Dist(first) < 0.8 || p.Dist(last) < 0.8 {
			continue
		}
		x, y, n = x+p.X, y+p.Y, n+1
		if s >= evenMM {
			out = append(out, geom.Pt(x/n, y/n))
			x, y, n, s = 0, 0, 0, 0
		}
	}
	if n > 0 {
		out = append(out, geom.Pt(x/n, y/n))
	}
	return append(out, last)
}

// isStraight reports whether the points lie along the straight line between
// the ends, up to what the print and the picture shake.
func isStraight(pts []geom.Point, tol float64) bool {
	a, b := pts[0], pts[len(pts)-1]
	dir := b.Sub(a).Unit()
	var bow, weight float64
	for _, p := range pts[1 : len(pts)-1] {
		v := p.Sub(a)
		off := dir.Cross(v)
		if math.Abs(off) > 3*tol {
			return false
		}
		u := v.Dot(dir) / a.Dist(b)
		k := 4 * u * (1 - u) // a bow of 1 mm
		bow += k * off
		weight += k * k
	}
	return weight == 0 || math.Abs(bow/weight) <= tol
}
