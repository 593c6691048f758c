package follow

import (
	"math"
	"slices"

	"quarterstep/model/geom"
)

// draw is the few clean cubics along what was seen of a line, straight where
// the line is.
func draw(seen []geom.Point, tol float64) (geom.Path, error) {
	pts := onward(even(seen))
	for _, near := range aside {
		kept := awayFromEnds(pts, near)
		if isStraight(kept, tol, cornerOff(near)) {
			return geom.Path{geom.Line(pts[0], pts[len(pts)-1])}, nil
		}
		best, least, err := fewest(kept, tol)
		if err != nil || !math.IsInf(least, 1) {
			return best, err
		}
	}
	return rough(pts, tol), nil
}

// aside is how near to its corners in mm what was seen is left out, one after
// the other, where no curve meets it: a corner that lies beside the line would
// have it begin backwards.
var aside = []float64{0, 3, 8}

// awayFromEnds is the points without those nearer to the ends than near.
func awayFromEnds(pts []geom.Point, near float64) []geom.Point {
	n := len(pts) - 1
	out := pts[:1:1]
	for _, p := range pts[1:n] {
		if p.Dist(pts[0]) >= near && p.Dist(pts[n]) >= near {
			out = append(out, p)
		}
	}
	return append(out, pts[n])
}

// fewest is the fewest cubics that lie within tol of the points, or else those
// that lie nearest, and how far off they lie; infinite where none may be drawn.
func fewest(pts []geom.Point, tol float64) (best geom.Path, least float64, err error) {
	least = math.Inf(1)
	for _, n := range []int{1, 2, 3, 4, 6, mostDrawn} {
		if n > len(pts)/3+1 {
			break
		}
		p, off, err := drawn(pts, n, tol)
		if err != nil {
			return nil, 0, err
		}
		if off < 0.8*least {
			best, least = p, off
		}
		if least <= tol {
			break
		}
	}
	return best, least, nil
}

// drawn is n cubics along the points, those that lie off the others left out,
// and how far in mm nine tenths of the points lie off it at most; infinite
// where it swings. What is left out, such as the strokes of a size label, it may
// leave as far as it likes.
func drawn(pts []geom.Point, n int, tol float64) (geom.Path, float64, error) {
	p, _, err := geom.Fit(pts, geom.Vec{}, geom.Vec{}, n)
	if err != nil {
		return nil, 0, err
	}
	off, kept := offCurve(pts, p, tol)
	if off <= 3*tol && len(kept) < len(pts) && len(kept) > 2*n {
		if p, _, err = geom.Fit(kept, geom.Vec{}, geom.Vec{}, n); err != nil {
			return nil, 0, err
		}
		off, _ = offCurve(pts, p, tol)
		pts = kept
	}
	if runsBack(p, pts) {
		return p, math.Inf(1), nil
	}
	for _, q := range dense(p, 0.5) {
		if _, d := nearestOf(pts, q); d > swing {
			return p, math.Inf(1), nil
		}
	}
	return p, off, nil
}

// runsBack reports whether a curve leaves its first corner, or comes to its
// last, from behind: a corner beside the line that was seen can make it so.
func runsBack(p geom.Path, pts []geom.Point) bool {
	n := len(pts) - 1
	first, last := pts[min(2, n)].Sub(pts[0]), pts[n].Sub(pts[max(n-2, 0)])
	return p.StartDir().Dot(first) < 0 || p.EndDir().Dot(last) < 0
}

// swing is how far in mm a curve may lie off what was seen: one through few
// points can meet them all and swing far out between.
const swing = 0.6

// offCurve is how far nine tenths of the points lie off the curve at most, and
// the points without those that stand out.
func offCurve(pts []geom.Point, p geom.Path, tol float64) (most float64, kept []geom.Point) {
	line := dense(p, 0.5)
	all := make([]float64, len(pts))
	for i, q := range pts {
		_, all[i] = nearestOf(line, q)
	}
	sorted := slices.Clone(all)
	slices.Sort(sorted)
	limit := max(2*tol, 4*sorted[len(sorted)/2])
	for i, q := range pts {
		if i == 0 || i == len(pts)-1 || all[i] <= limit {
			kept = append(kept, q)
		}
	}
	return sorted[(len(sorted)-1)*9/10], kept
}

func lengthOf(pts []geom.Point) float64 {
	var sum float64
	for i := 1; i < len(pts); i++ {
		sum += pts[i].Dist(pts[i-1])
	}
	return sum
}

// mostDrawn is the most cubics of an edge. What stays off them then, where
// ink of another line has drawn the middle aside, is no part of the edge.
const mostDrawn = 8

// even is the corners and a point for every 2 mm between, for more on a long
// edge, each the middle of what was seen there.
func even(seen []geom.Point) []geom.Point {
	evenMM := max(2, lengthOf(seen)/mostPoints)
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

// mostPoints is about how many points a curve is fitted to.
const mostPoints = 70

// sharpestTurn is the turning in radians, from one even step to the next, at
// which a point is not the edge's but of a line that runs across or over it.
const sharpestTurn = 0.6

// onward leaves out points at which the way turns back or to the side, as it
// does for a step where lines run into one another; an edge has no corners.
func onward(pts []geom.Point) []geom.Point {
	for range 4 {
		kept := pts[:1:1]
		for i := 1; i < len(pts)-1; i++ {
			u, v := pts[i].Sub(kept[len(kept)-1]), pts[i+1].Sub(pts[i])
			if math.Abs(math.Atan2(u.Cross(v), u.Dot(v))) <= sharpestTurn && u.Len() > 0.3 {
				kept = append(kept, pts[i])
			}
		}
		kept = append(kept, pts[len(pts)-1])
		if len(kept) == len(pts) {
			break
		}
		pts = kept
	}
	return pts
}

// cornerOff is how far in mm a corner may lie off a straight line that was seen,
// a click being as near as it is: farther where what is near it is left out, for
// there no curve would be better.
func cornerOff(near float64) float64 {
	if near > 0 {
		return 0.6
	}
	return 0.25
}

// isStraight reports whether the points lie along a straight line, up to what
// the print and the picture shake, and the ends within cornerOff of it.
func isStraight(pts []geom.Point, tol, cornerOff float64) bool {
	a, b := pts[0], pts[len(pts)-1]
	length, dir := a.Dist(b), b.Sub(a).Unit()
	var all leastSquares
	for _, p := range pts[1 : len(pts)-1] {
		v := p.Sub(a)
		all.add(v.Dot(dir)/length, dir.Cross(v))
	}
	start, end, ok := all.line()
	if !ok {
		start, end = 0, 0
	}
	if math.Abs(start) > cornerOff || math.Abs(end) > cornerOff {
		return false
	}
	var bow, weight float64
	for _, p := range pts[1 : len(pts)-1] {
		v := p.Sub(a)
		u := v.Dot(dir) / length
		off := dir.Cross(v) - start - (end-start)*u
		if math.Abs(off) > 3*tol {
			return false
		}
		k := 4*u*(1-u) - 2.0/3 // a bow of 1 mm beside the line nearest to it
		bow += k * off
		weight += k * k
	}
	return weight == 0 || math.Abs(bow/weight) <= tol
}

// leastSquares finds the straight line nearest to places at shares of a way.
type leastSquares struct{ n, u, uu, y, uy float64 }

func (l *leastSquares) add(u, y float64) {
	l.n, l.u, l.uu, l.y, l.uy = l.n+1, l.u+u, l.uu+u*u, l.y+y, l.uy+u*y
}

// line is the line's height at the start of the way and at its end.
func (l leastSquares) line() (start, end float64, ok bool) {
	det := l.n*l.uu - l.u*l.u
	if l.n < 4 || det < 0.02*l.n*l.n {
		return 0, 0, false
	}
	slope := (l.n*l.uy - l.u*l.y) / det
	start = (l.y - slope*l.u) / l.n
	return start, start + slope, true
}
