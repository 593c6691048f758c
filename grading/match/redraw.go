package match

import (
	"math"

	"quarterstep/model/geom"
)

// stub is the length in mm of the scraps that a traced line may have at a
// corner, which tell no direction.
const stub = 0.6

// How far in mm a redrawn edge may lie from the joints and middles of a traced
// one, and how far from it anywhere. Where a polygon's sides are too long for
// a bend twice as much is allowed.
const (
	redrawTol = 0.08
	swing     = 0.1
)

// counts are the numbers of curves tried.
var counts = [...]int{1, 2, 3, 5, 7, 10, 14, 20, 28, 40}

// redraw draws a traced edge anew with few smooth curves that keep within swing
// of it, or within twice that if there is no other way. An edge that cannot be
// drawn so with fewer curves than it has is kept as it was.
func redraw(edge geom.Path) geom.Path {
	pts := tracedPoints(edge)
	second := edge
	for _, n := range counts {
		if n >= len(edge) {
			break
		}
		p, off, err := geom.Fit(pts, geom.Vec{}, geom.Vec{}, n)
		if err != nil || off > 2*redrawTol {
			continue
		}
		p[0].P0, p[len(p)-1].P3 = edge.Start(), edge.End()
		out := swingOf(p, edge)
		if off <= redrawTol && out <= swing {
			return p
		}
		if len(second) == len(edge) && out <= 2*swing {
			second = p
		}
	}
	return second
}

// swingOf is how far in mm p swings out from a traced edge anywhere. Beside its
// ends, where the trace has scraps, only what goes beyond them counts.
func swingOf(p, edge geom.Path) float64 {
	var most float64
	for _, q := range p.Flatten(0.02) {
		_, _, d := edge.Nearest(q, 0.01)
		if math.Min(q.Dist(edge.Start()), q.Dist(edge.End())) < 2*stub {
			d -= stub / 3
		}
		most = math.Max(most, d)
	}
	return most
}

// tracedPoints is the joints of a traced edge and the middles between them.
// Those within a stub of an end are left out, the ends are not.
func tracedPoints(edge geom.Path) []geom.Point {
	a, b := edge.Start(), edge.End()
	pts := []geom.Point{a}
	for _, c := range edge {
		for _, t := range [2]float64{0.5, 1} {
			if q := c.At(t); math.Min(q.Dist(a), q.Dist(b)) > stub {
				pts = append(pts, q)
			}
		}
	}
	return append(pts, b)
}
