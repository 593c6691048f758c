package scene

import (
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// seamTol is how far, in mm, the stitching line may be drawn from its place:
// less than a pixel at any zoom at which whole pieces are seen.
const seamTol = 0.05

// seam draws the stitching line, inside the cutting line by each edge's
// allowance. Edges that have none are left out, and so is the whole line where
// an allowance is too wide for its curve: the checks say so in words.
func (l *Layer) seam(q model.Piece, r grading.Piece, m geom.Affine) {
	inwards := make([]float64, len(q.Edges))
	for k, e := range q.Edges {
		inwards[k] = -e.Allowance
	}
	lines, err := geom.OffsetOutline(r.Edges, inwards, seamTol)
	if err != nil {
		return
	}
	for k, e := range lines {
		if inwards[k] != 0 {
			l.Lines = append(l.Lines, Line{
				Path: e.Transform(m), Width: 1.1, Dash: []float64{6, 3}, Ink: InkAccent, Alpha: 1,
			})
		}
	}
}
