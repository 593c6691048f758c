package app

import (
	"slices"

	"quarterstep/model/geom"
)

// Turn is the job with piece i turned the other way up where it lies; its grain
// still runs down the sheets. Its words read from the same side as before.
func (j Job) Turn(i int) (Job, error) {
	placed := slices.Clone(j.Plan.Pieces)
	q := placed[i]
	middle := q.Piece.Outline.Transform(q.At).Bounds().Centre()
	half := geom.Translate(geom.Vec(middle)).Mul(geom.Affine{A: -1, D: -1}).Mul(geom.Translate(geom.Vec(middle).Scale(-1)))
	q.At = half.Mul(q.At)
	q.Piece.Labels = upright(q.Piece.Labels)
	placed[i] = q
	return j.lay(placed, j.Plan.Setup)
}
