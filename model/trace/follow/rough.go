package follow

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// rough is the edge along points that no few cubics follow: straight where nearly
// all lie along a straight line, as on a seam with the cap of a dart in it; else a
// curve that is led to corners which lie beside the line; else straight from point
// to point, no more of them than are needed.
func rough(pts []geom.Point, tol float64) geom.Path {
	if mostlyStraight(pts, tol) {
		return geom.Path{geom.Line(pts[0], pts[len(pts)-1])}
	}
	if p, off, err := fewest(led(pts), tol); err == nil && !math.IsInf(off, 1) {
		return p
	}
	return geom.Polyline(without(pts, roughTol)...)
}

// roughTol is how far in mm a point may lie off the way without it.
const roughTol = 0.3

// mostlyStraight reports that four fifths of the points lie along one straight
// line, and both corners beside it.
func mostlyStraight(pts []geom.Point, tol float64) bool {
	inner := pts[1 : len(pts)-1]
	need := len(inner) * 4 / 5
	if need < 8 {
		return false
	}
	off := func(a geom.Point, dir geom.Vec, p geom.Point) float64 { return math.Abs(dir.Cross(p.Sub(a))) }
	for i, a := range inner {
		for _, b := range inner[i+1:] {
			dir := b.Sub(a).Unit()
			if off(a, dir, pts[0]) > cornerOff(aside[1]) || off(a, dir, pts[len(pts)-1]) > cornerOff(aside[1]) {
				continue
			}
			along := 0
			for _, p := range inner {
				if off(a, dir, p) <= 3*tol {
					along++
				}
			}
			if along >= need {
				return true
			}
		}
	}
	return false
}

// led is the points with those near each corner moved over, the more the nearer,
// so that they lead to a corner that lies beside their line.
func led(pts []geom.Point) []geom.Point {
	out := append([]geom.Point(nil), pts...)
	n := len(pts) - 1
	for _, end := range []int{0, n} {
		corner := pts[end]
		var xs leastSquaresLine
		for _, p := range pts[1:n] {
			if d := p.Dist(corner); d > 3 && d < 2*ledMM {
				xs.add(p)
			}
		}
		side, ok := xs.beside(corner)
		if !ok {
			continue
		}
		for i := 1; i < n; i++ {
			if d := pts[i].Dist(corner); d < ledMM {
				w := 1 - d/ledMM
				out[i] = out[i].Add(side.Scale(w * w))
			}
		}
	}
	return out
}

// ledMM is how far from a corner in mm a line is led to it.
const ledMM = 25

// leastSquaresLine is the straight line nearest to points.
type leastSquaresLine struct{ n, x, y, xx, xy, yy float64 }

func (l *leastSquaresLine) add(p geom.Point) {
	l.n, l.x, l.y, l.xx, l.xy, l.yy = l.n+1, l.x+p.X, l.y+p.Y, l.xx+p.X*p.X, l.xy+p.X*p.Y, l.yy+p.Y*p.Y
}

// beside is the way from the line, square to it, to a place.
func (l leastSquaresLine) beside(at geom.Point) (geom.Vec, bool) {
	if l.n < 4 {
		return geom.Vec{}, false
	}
	mx, my := l.x/l.n, l.y/l.n
	sxx, sxy, syy := l.xx/l.n-mx*mx, l.xy/l.n-mx*my, l.yy/l.n-my*my
	angle := 0.5 * math.Atan2(2*sxy, sxx-syy)
	dir := geom.Vec{X: math.Cos(angle), Y: math.Sin(angle)}
	v := at.Sub(geom.Pt(mx, my))
	return v.Sub(dir.Scale(v.Dot(dir))), true
}

// without is the points without those that the way between their neighbours
// passes within tol mm (D. Douglas, T. Peucker, Cartographica 10 (1973) 112).
func without(pts []geom.Point, tol float64) []geom.Point {
	if len(pts) < 3 {
		return pts
	}
	a, b, most, at := pts[0], pts[len(pts)-1], 0.0, 0
	for i, p := range pts[1 : len(pts)-1] {
		if d := segmentDist(a, b, p); d > most {
			most, at = d, i+1
		}
	}
	if most <= tol {
		return []geom.Point{a, b}
	}
	left := without(pts[:at+1], tol)
	return append(left[:len(left)-1:len(left)-1], without(pts[at:], tol)...)
}

// stickingOut is where what was seen leaves an edge that was drawn straight: the
// cap of a dart, say, which is no part of a straight seam.
func stickingOut(path geom.Path, seen []geom.Point) (Doubt, bool) {
	const out, ends = 1.0, 8.0 // mm
	a, b := path.Start(), path.End()
	if len(path) != 1 || !path.IsStraight(roughTol) {
		return Doubt{}, false
	}
	var most float64
	var at geom.Point
	for _, p := range seen {
		if d := segmentDist(a, b, p); d > most && p.Dist(a) > ends && p.Dist(b) > ends {
			most, at = d, p
		}
	}
	if most < out {
		return Doubt{}, false
	}
	return Doubt{At: at, Say: words.T("The line is drawn straight here, but print beside it is not: if it is a dart, click it with the mark Dart.")}, true
}
