package girth

import (
	"slices"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// tol is how exactly lines are crossed and taken in, mm.
const tol = 1e-3

// sheet is one piece as drawn in one size.
type sheet struct {
	q     model.Piece
	cut   []geom.Path // the line on paper, edge by edge
	lines []grading.Line
	darts []grading.Dart

	known    func() ([]geom.Path, error) // the stitching line of a caller who has it
	stitched *stitching                  // once asked for
}

// gradedSheet is piece q in the size wanted.
func gradedSheet(q model.Piece, r grading.Piece) *sheet {
	return &sheet{q: q, cut: r.Edges, lines: r.Lines, darts: r.Darts}
}

// printedSheet is piece q as printed in a size, nil where it was not. A piece
// that stays the same serves all sizes, and so does a line drawn once.
func printedSheet(q model.Piece, size string) *sheet {
	o, ok := q.Printed(size)
	if !ok && len(q.Nest) > 0 && (q.OneForAll || len(q.Nest) == 1 && len(q.Gaps) == 0 && len(q.Cuts) == 0) {
		o, ok = q.Nest[0], true
	}
	if !ok {
		return nil
	}
	s := &sheet{q: q, cut: o.Edges}
	for _, l := range q.Lines {
		at := drawn(o, len(l.Drawn), func(i int) string { return l.Drawn[i].Size })
		if at >= 0 {
			s.lines = append(s.lines, grading.Line{ID: l.ID, Name: l.Name, Kind: l.Kind, Path: l.Drawn[at].Path})
		}
	}
	for _, d := range q.Darts {
		from, to := q.PointIndex(d.From), q.PointIndex(d.To)
		at := drawn(o, len(d.Apex), func(i int) string { return d.Apex[i].Size })
		if from >= 0 && to >= 0 && at >= 0 {
			s.darts = append(s.darts, grading.Dart{
				ID: d.ID, Name: d.Name,
				Leg1: o.Edges[from].Start(), Apex: d.Apex[at].At, Leg2: o.Edges[to].Start(),
			})
		}
	}
	return s
}

// drawn is which of n drawings of a mark belongs to outline o: the one of its
// size, or of any size it shares its line with, or the only one; -1 for none.
func drawn(o model.Outline, n int, size func(int) string) int {
	for i := range n {
		if s := size(i); s == "" || slices.Contains(o.Sizes(), s) {
			return i
		}
	}
	if n == 1 {
		return 0
	}
	return -1
}

// stitching is a stitching line, or why there is none.
type stitching struct {
	edges []geom.Path
	err   error
}

// sewn is the stitching line, edge by edge.
func (s *sheet) sewn() ([]geom.Path, error) {
	if s.stitched == nil {
		edges, err := s.takeSeamsOff()
		s.stitched = &stitching{edges, err}
	}
	return s.stitched.edges, s.stitched.err
}

func (s *sheet) takeSeamsOff() ([]geom.Path, error) {
	if s.known != nil {
		return s.known()
	}
	in := make([]float64, len(s.q.Edges))
	seamed := false
	for k, e := range s.q.Edges {
		in[k] = -e.Allowance
		seamed = seamed || e.Allowance != 0
	}
	if !seamed {
		return s.cut, nil
	}
	return geom.OffsetOutline(s.cut, in, tol)
}

// caps lists, for each edge, which dart's cap it is part of; -1 for none.
func (s *sheet) caps() []int {
	out := make([]int, len(s.q.Edges))
	for k := range out {
		out[k] = -1
	}
	for i, d := range s.q.Darts {
		from, to := s.q.PointIndex(d.From), s.q.PointIndex(d.To)
		if from < 0 || to < 0 {
			continue
		}
		for k := from; k != to; k = (k + 1) % len(out) {
			out[k] = i
		}
	}
	return out
}

// closed is an outline with the cap of each dart cut off straight from leg to
// leg: the first edge of a cap takes its place, the others are left empty.
func (s *sheet) closed(edges []geom.Path) []geom.Path {
	out := slices.Clone(edges)
	for _, d := range s.q.Darts {
		from, to := s.q.PointIndex(d.From), s.q.PointIndex(d.To)
		if from < 0 || to < 0 || from == to {
			continue
		}
		for k := from; k != to; k = (k + 1) % len(out) {
			out[k] = nil
		}
		out[from] = geom.Polyline(edges[from].Start(), edges[to].Start())
	}
	return out
}
