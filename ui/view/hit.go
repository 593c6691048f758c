package view

import (
	"math"

	"quarterstep/model/geom"
)

// How near the pointer must be, in pixels: half a handle's 44 px area, and to
// a line.
const (
	HandleReach = 22
	LineReach   = 8
)

// Spot is the index of the place nearest to at within reach pixels; of two
// equally near the later one, which is drawn on top. It is false for none.
func (v View) Spot(at Px, places []geom.Point, reach float64) (int, bool) {
	best, found := -1, reach
	for i, p := range places {
		if d := v.ToPx(p).Sub(at).Len(); d <= found {
			best, found = i, d
		}
	}
	return best, best >= 0
}

// Line is the index of the path nearest to at within reach pixels, and the
// place on it, to a tenth of a pixel; of two equally near the later one. It is
// false for none.
func (v View) Line(at Px, paths []geom.Path, reach float64) (int, geom.Point, bool) {
	p := v.ToMM(at)
	best, on, found := -1, geom.Point{}, reach/v.Scale
	for i, path := range paths {
		room := geom.Vec{X: found, Y: found}
		near := geom.Box{Min: p.Add(room.Scale(-1)), Max: p.Add(room)}
		for _, c := range path {
			if !near.Intersects(geom.BoxOf(c.P0, c.P1, c.P2, c.P3)) {
				continue
			}
			if t, d := c.Nearest(p, 0.1/v.Scale); d <= found {
				best, on, found = i, c.At(t), d
			}
		}
	}
	return best, on, best >= 0
}

// Snap is the place within reach pixels of at that a measuring hand means: a
// place of its own before a line. It is false, with at's own place, for none.
func (v View) Snap(at Px, places []geom.Point, paths []geom.Path, reach float64) (geom.Point, bool) {
	if i, ok := v.Spot(at, places, reach); ok {
		return places[i], true
	}
	if _, on, ok := v.Line(at, paths, reach); ok {
		return on, true
	}
	return v.ToMM(at), false
}

// Upright turns a movement that is within a few degrees of level or upright
// into exactly that, so that a measure "straight across" is one.
func Upright(d geom.Vec, degrees float64) geom.Vec {
	slope := math.Tan(degrees * math.Pi / 180)
	switch {
	case math.Abs(d.Y) <= slope*math.Abs(d.X):
		d.Y = 0
	case math.Abs(d.X) <= slope*math.Abs(d.Y):
		d.X = 0
	}
	return d
}
