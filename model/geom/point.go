package geom

import "math"

// Point is a place on the paper in millimetres, x to the right and y down.
type Point struct{ X, Y float64 }

// Vec is a movement in millimetres: the difference of two Points.
type Vec struct{ X, Y float64 }

// Pt is short for Point{x, y}.
func Pt(x, y float64) Point { return Point{x, y} }

// Add moves p by v.
func (p Point) Add(v Vec) Point { return Point{p.X + v.X, p.Y + v.Y} }

// Sub is the movement that takes q to p.
func (p Point) Sub(q Point) Vec { return Vec{p.X - q.X, p.Y - q.Y} }

// Dist is the distance from p to q in mm.
func (p Point) Dist(q Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }

// Lerp is the place a share t of the way from p to q; t may lie outside 0 to 1.
func (p Point) Lerp(q Point, t float64) Point {
	return Point{p.X + t*(q.X-p.X), p.Y + t*(q.Y-p.Y)}
}

// Finite reports whether both coordinates are ordinary numbers.
func (p Point) Finite() bool { return finite(p.X) && finite(p.Y) }

// Add is v followed by w.
func (v Vec) Add(w Vec) Vec { return Vec{v.X + w.X, v.Y + w.Y} }

// Sub is v less w.
func (v Vec) Sub(w Vec) Vec { return Vec{v.X - w.X, v.Y - w.Y} }

// Scale is v stretched by k.
func (v Vec) Scale(k float64) Vec { return Vec{k * v.X, k * v.Y} }

// Dot is the scalar product in mm².
func (v Vec) Dot(w Vec) float64 { return v.X*w.X + v.Y*w.Y }

// Cross is the z part of the vector product in mm²: positive when w lies
// clockwise of v as seen on the paper (y runs down).
func (v Vec) Cross(w Vec) float64 { return v.X*w.Y - v.Y*w.X }

// Len is the length of v in mm.
func (v Vec) Len() float64 { return math.Hypot(v.X, v.Y) }

// Perp is v turned a quarter clockwise as seen on the paper.
func (v Vec) Perp() Vec { return Vec{-v.Y, v.X} }

// Unit is v at length 1, or the zero Vec when v has no direction.
func (v Vec) Unit() Vec {
	l := v.Len()
	if l == 0 || !finite(l) {
		return Vec{}
	}
	return Vec{v.X / l, v.Y / l}
}

// IsZero reports whether v moves nothing.
func (v Vec) IsZero() bool { return v.X == 0 && v.Y == 0 }

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
