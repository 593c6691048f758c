package draft

import (
	"math"

	"quarterstep/model/geom"
)

// between is a point that takes share wx across and wy down of the way from a
// to b, then moves dx and dy mm: it grades by those shares of a's and b's
// movements.
func between(a, b geom.Point, wx, wy, dx, dy float64) geom.Point {
	return geom.Pt(a.X+wx*(b.X-a.X)+dx, a.Y+wy*(b.Y-a.Y)+dy)
}

// by is the point dx across and dy down from p.
func by(p geom.Point, dx, dy float64) geom.Point { return geom.Pt(p.X+dx, p.Y+dy) }

func curve(a, p, q, b geom.Point) geom.Path { return geom.Path{{P0: a, P1: p, P2: q, P3: b}} }

func line(a, b geom.Point) geom.Path { return geom.Polyline(a, b) }

// slope is a shoulder's direction from neck to tip, degrees below level.
func slope(degrees float64) geom.Vec {
	s, c := math.Sincos(degrees * math.Pi / 180)
	return geom.Vec{X: c, Y: s}
}

// armhole runs from the shoulder tip, square to the shoulder, in to its
// narrowest place, hollow mm nearer the centre than the tip and share deep of
// the way down, and out to the underarm, level there.
func armhole(tip, arm geom.Point, shoulder geom.Vec, hollow, deep float64) geom.Path {
	square := shoulder.Perp().Scale(34)
	narrow := between(tip, arm, 0, deep, -hollow, 0)
	return geom.Path{
		{P0: tip, P1: tip.Add(square), P2: between(tip, arm, 0, 0.55*deep, -hollow, 0), P3: narrow},
		{P0: narrow, P1: between(tip, arm, 0, deep+0.27, -hollow, 0), P2: between(tip, arm, 0.42, 1, -hollow/2, 0), P3: arm},
	}
}

// neckline runs level from the centre up to the neck point, where it meets
// the shoulder squarely; reach is the length of its last handle.
func neckline(centre, neck geom.Point, shoulder geom.Vec, level, reach float64) geom.Path {
	square := shoulder.Perp().Scale(reach)
	return curve(centre, between(centre, neck, level, 0, 0, 0), neck.Add(square), neck)
}

// capShape is half a sleeve cap in a square: (0, 0) the underarm, (1, 1) the
// crown. Stretched to any width and height it stays smooth.
type capShape [7]geom.Point

// The front of a cap is scooped lower than its back, which is rounder above.
var (
	capBack = capShape{
		{X: 0, Y: 0},
		{X: 0.20, Y: 0.03},
		{X: 0.33, Y: 0.20},
		{X: 0.45, Y: 0.45},
		{X: 0.57, Y: 0.70},
		{X: 0.72, Y: 1},
		{X: 1, Y: 1},
	}
	capFront = capShape{
		{X: 0, Y: 0},
		{X: 0.27, Y: 0.02},
		{X: 0.38, Y: 0.17},
		{X: 0.48, Y: 0.42},
		{X: 0.58, Y: 0.67},
		{X: 0.71, Y: 1},
		{X: 1, Y: 1},
	}
)

// from is the half cap from its underarm to the crown.
func (c capShape) from(underarm, crown geom.Point) geom.Path {
	pts := make([]geom.Point, len(c))
	for i, w := range c {
		pts[i] = between(underarm, crown, w.X, w.Y, 0, 0)
	}
	return geom.FromControls(pts)
}

// foldedPeak is where the cap of a dart comes to its point: with the dart
// folded down, the cloth beside its lower leg must lie along the seam below.
// along is the seam's direction just below the lower leg.
func foldedPeak(apex, upper, lower geom.Point, along geom.Vec) geom.Point {
	leg := lower.Sub(apex).Unit()
	mirrored := leg.Scale(2 * leg.Dot(along)).Sub(along)
	middle := upper.Lerp(lower, 0.5)
	axis := middle.Sub(apex)
	return lower.Add(mirrored.Scale(axis.Cross(apex.Sub(lower)) / axis.Cross(mirrored)))
}
