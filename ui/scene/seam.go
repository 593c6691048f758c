package scene

import (
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// seamTol is how far, in mm, the stitching line may be drawn from its place:
// less than a pixel at any zoom at which whole pieces are seen.
const seamTol = 0.05

// Sewn is the stitching lines drawn last, by the ID of their piece: a line of thousands
// of curves takes longer than a frame, and the same one is drawn often.
type Sewn map[string]sewnLine

// sewnLine is a stitching line, nil where there is none, and what it was drawn from.
type sewnLine struct {
	cut   []geom.Path
	edges []model.Edge
	lines []geom.Path
}

// line is the stitching line of a piece, nil where an allowance is too wide.
func (s Sewn) line(q model.Piece, r grading.Piece) []geom.Path {
	if was, ok := s[q.ID]; ok && sameStorage(was.cut, r.Edges) && sameStorage(was.edges, q.Edges) {
		return was.lines
	}
	inwards := make([]float64, len(q.Edges))
	for k, e := range q.Edges {
		inwards[k] = -e.Allowance
	}
	lines, err := geom.OffsetOutline(r.Edges, inwards, seamTol)
	if err != nil {
		lines = nil
	}
	if s != nil {
		s[q.ID] = sewnLine{r.Edges, q.Edges, lines}
	}
	return lines
}

// sameStorage reports that two slices are the very same: patterns and results are
// never written into.
func sameStorage[T any](a, b []T) bool {
	return len(a) == len(b) && len(a) > 0 && &a[0] == &b[0]
}

// seam draws the stitching line, inside the cutting line by each edge's
// allowance. Edges that have none are left out, and so is the whole line where
// an allowance is too wide for its curve: the checks say so in words.
func (l *Layer) seam(sewn Sewn, q model.Piece, r grading.Piece, m geom.Affine) {
	for k, e := range sewn.line(q, r) {
		if q.Edges[k].Allowance != 0 {
			l.Lines = append(l.Lines, Line{
				Path: e.Transform(m), Width: 1.1, Dash: []float64{6, 3}, Ink: InkAccent, Alpha: 1,
			})
		}
	}
}
