package scene

import (
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// seamTol is how far, in mm, the stitching line may be drawn from its place:
// less than a pixel at any zoom at which whole pieces are seen.
const seamTol = 0.05

// Sewn remembers the stitching lines drawn last, for the same one is drawn often. The
// zero Sewn is ready.
type Sewn struct {
	// Aside has a line of very many curves worked out elsewhere: it does work there, then
	// done where the layers are drawn, and shows the Table anew. Until then the line is
	// not drawn. Nil has all worked out at once.
	Aside func(work, done func())

	known map[string]*sewnLine // by the ID of the piece
	under map[string]bool      // worked out elsewhere now
}

// sewnLine is a stitching line, nil where there is none, and what it was drawn from.
type sewnLine struct {
	cut   []geom.Path
	edges []model.Edge
	lines []geom.Path
}

// curvesAtOnce is how many curves of a line are worked out within a frame: some
// milliseconds. A garment's largest piece has about a hundred.
const curvesAtOnce = 500

// line is the stitching line of a piece, nil where an allowance is too wide.
func (s *Sewn) line(q model.Piece, r grading.Piece) []geom.Path {
	if s == nil {
		return inward(q, r)
	}
	if was, ok := s.known[q.ID]; ok && sameStorage(was.cut, r.Edges) && sameStorage(was.edges, q.Edges) {
		return was.lines
	}
	if s.known == nil {
		s.known, s.under = map[string]*sewnLine{}, map[string]bool{}
	}
	now := &sewnLine{cut: r.Edges, edges: q.Edges}
	if s.Aside == nil || curves(r.Edges) <= curvesAtOnce {
		now.lines = inward(q, r)
		s.known[q.ID] = now
		return now.lines
	}
	if s.under[q.ID] { // of the line as it was before; this one comes after it
		return nil
	}
	s.under[q.ID] = true
	s.Aside(func() { now.lines = inward(q, r) }, func() {
		delete(s.under, q.ID)
		s.known[q.ID] = now
	})
	return nil
}

func curves(edges []geom.Path) (n int) {
	for _, e := range edges {
		n += len(e)
	}
	return n
}

// inward is the cutting line moved inwards by each edge's allowance, nil where that
// cannot be.
func inward(q model.Piece, r grading.Piece) []geom.Path {
	by := make([]float64, len(q.Edges))
	for k, e := range q.Edges {
		by[k] = -e.Allowance
	}
	lines, err := geom.OffsetOutline(r.Edges, by, seamTol)
	if err != nil {
		return nil
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
func (l *Layer) seam(sewn *Sewn, q model.Piece, r grading.Piece, m geom.Affine) {
	for k, e := range sewn.line(q, r) {
		if q.Edges[k].Allowance != 0 {
			l.Lines = append(l.Lines, Line{
				Path: e.Transform(m), Width: 1.1, Dash: []float64{6, 3}, Ink: InkAccent, Alpha: 1,
			})
		}
	}
}
