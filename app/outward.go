package app

import (
	"math"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// Outward is 1 where moving right across the grain takes what is at a place of
// piece q, graded as r, away from its fold or centre edge, or where it has none
// from its middle; -1 where it takes it towards them.
func Outward(q model.Piece, r grading.Piece, place geom.Point) float64 {
	x := func(at geom.Point) float64 {
		across, _ := q.AcrossAlong(geom.Vec(at))
		return across
	}
	middle := x(r.Outline().Bounds().Centre())
	for j, e := range q.Edges {
		if e.Kind == model.Fold || e.Kind == model.Centre {
			return math.Copysign(1, middle-x(r.Edges[j].Start()))
		}
	}
	return math.Copysign(1, x(place)-middle)
}
