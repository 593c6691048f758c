package check

import (
	"errors"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// newLine stands for the size wanted where a printed size is named, and baseLine
// for it before corrections and links.
const (
	newLine  = ""
	baseLine = "base"
)

// stitching finds stitching lines, each once.
type stitching struct {
	p     model.Pattern
	r     grading.Result
	seen  []*remembered    // by piece: its line in the size wanted
	bases map[int]stitched // by piece, as graded where that is not the same
	print printedLines
}

type stitched struct {
	edges []geom.Path
	err   error
}

func newStitching(p model.Pattern, r grading.Result, seen []*remembered, print printedLines) *stitching {
	return &stitching{p, r, seen, map[int]stitched{}, print}
}

// line is the stitching line of piece i in a printed size or newLine, edge by
// edge: the outline without its seam allowances.
func (s *stitching) line(i int, size string) ([]geom.Path, error) {
	out := s.stitch(i, size)
	return out.edges, out.err
}

// stitch is line with its error, found once.
func (s *stitching) stitch(i int, size string) stitched {
	q := s.p.Pieces[i]
	if size == baseLine {
		return s.base(i)
	}
	if size == newLine {
		m := s.seen[i]
		if m.sewn == nil {
			line := s.takeSeamsOff(i, newLine)
			m.sewn = &line
		}
		return *m.sewn
	}
	key := lineKey(q, size)
	out, ok := s.print[key]
	if !ok {
		out = s.takeSeamsOff(i, size)
		s.print[key] = out
	}
	return out
}

// base is the stitching line of piece i as graded, which is that of the new line
// where nothing was corrected.
func (s *stitching) base(i int) stitched {
	r := s.r.Pieces[i]
	if slices.EqualFunc(r.Edges, r.Base, slices.Equal[geom.Path]) {
		return s.stitch(i, newLine)
	}
	out, ok := s.bases[i]
	if !ok {
		out = s.takeSeamsOff(i, baseLine)
		s.bases[i] = out
	}
	return out
}

func (s *stitching) takeSeamsOff(i int, size string) stitched {
	q := s.p.Pieces[i]
	edges := s.r.Pieces[i].Edges
	switch size {
	case newLine:
	case baseLine:
		edges = s.r.Pieces[i].Base
	default:
		o, ok := q.Printed(size)
		if !ok {
			return stitched{err: words.Errorf("%s is not printed in size %s", q.Name, size)}
		}
		edges = o.Edges
	}
	in := make([]float64, len(q.Edges))
	seamed := false
	for j, e := range q.Edges {
		in[j] = -e.Allowance
		seamed = seamed || e.Allowance > 0
	}
	if !seamed {
		return stitched{edges: edges}
	}
	line, err := geom.OffsetOutline(edges, in, arcTol)
	return stitched{line, err}
}

// seamless finds pieces that are too narrow somewhere for their seam
// allowances, though no printed size was.
func (s *stitching) seamless() []Finding {
	var out []Finding
	for i, q := range s.p.Pieces {
		var where *geom.EdgeError
		if _, err := s.line(i, newLine); err == nil || !errors.As(err, &where) || s.printedSeamless(i) {
			continue
		}
		out = append(out, Finding{
			Code: "no-seam", Piece: q.ID, Edge: q.Edges[where.Edge].ID, Where: middle(s.r.Pieces[i].Edges[where.Edge]),
			By: q.Edges[where.Edge].Allowance, Look: true,
			What: words.F("%s is too narrow for its seams", q.Name),
			Much: words.F("%s at the %s", show(q.Edges[where.Edge].Allowance, s.p), edgeName(q, where.Edge)),
			Say: words.F("A seam allowance of %s does not fit at the %s of %s.",
				show(q.Edges[where.Edge].Allowance, s.p), edgeName(q, where.Edge), q.Name),
			Help: words.T("Choose a size nearer the printed ones, or a narrower allowance there."),
		})
	}
	return out
}

func (s *stitching) printedSeamless(i int) bool {
	for _, o := range s.p.Pieces[i].Nest {
		if _, err := s.line(i, o.Size); err != nil {
			return true
		}
	}
	return false
}
