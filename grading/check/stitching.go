package check

import (
	"errors"
	"fmt"
	"math"
	"slices"

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

// stitching finds stitching lines and how long they are, each once.
type stitching struct {
	p     model.Pattern
	r     grading.Result
	now   map[int]stitched // by piece, in the size wanted
	bases map[int]stitched // by piece, as graded where that is not the same
	print printedLines
}

type stitched struct {
	edges   []geom.Path
	err     error
	lengths []float64 // of each edge once measured, mm; NaN where it cannot be
}

func newStitching(p model.Pattern, r grading.Result, print printedLines) *stitching {
	return &stitching{p, r, map[int]stitched{}, map[int]stitched{}, print}
}

// line is the stitching line of piece i in a printed size or newLine, edge by
// edge: the outline without its seam allowances.
func (s *stitching) line(i int, size string) ([]geom.Path, error) {
	out := s.stitch(i, size)
	return out.edges, out.err
}

// stitch is line with the lengths of its edges, found once.
func (s *stitching) stitch(i int, size string) stitched {
	q := s.p.Pieces[i]
	if size == baseLine {
		return s.base(i)
	}
	if size == newLine || len(q.Nest) == 0 || len(q.Edges) == 0 {
		out, ok := s.now[i]
		if !ok {
			out = s.measured(i, size)
			s.now[i] = out
		}
		return out
	}
	key := lineKey(q, size)
	out, ok := s.print[key]
	if !ok {
		out = s.measured(i, size)
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
		out = s.measured(i, baseLine)
		s.bases[i] = out
	}
	return out
}

func (s *stitching) measured(i int, size string) stitched {
	var out stitched
	if out.edges, out.err = s.takeSeamsOff(i, size); out.err != nil {
		return out
	}
	out.lengths = make([]float64, len(out.edges))
	for j, e := range out.edges {
		var err error
		if out.lengths[j], err = e.Length(arcTol); err != nil {
			out.lengths[j] = math.NaN()
		}
	}
	return out
}

func (s *stitching) takeSeamsOff(i int, size string) ([]geom.Path, error) {
	q := s.p.Pieces[i]
	edges := s.r.Pieces[i].Edges
	switch size {
	case newLine:
	case baseLine:
		edges = s.r.Pieces[i].Base
	default:
		o, ok := q.Printed(size)
		if !ok {
			return nil, fmt.Errorf("%s is not printed in size %s", q.Name, size)
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
		return edges, nil
	}
	return geom.OffsetOutline(edges, in, arcTol)
}

// length is the stitched length of a stretch, mm; false where there is no
// stitching line, of which seamless speaks.
func (s *stitching) length(i int, of model.Stretch, size string) (float64, bool) {
	line := s.stitch(i, size)
	if line.err != nil {
		return 0, false
	}
	var total float64
	for _, id := range of.Edges {
		total += line.lengths[s.p.Pieces[i].EdgeIndex(id)]
	}
	return total, !math.IsNaN(total)
}

// leads is the stitched length of a link's whole leader, mm.
func (s *stitching) leads(l model.Link, size string) (float64, bool) {
	var total float64
	for _, of := range l.Leads() {
		mm, ok := s.length(s.p.PieceIndex(of.Piece), of, size)
		if !ok {
			return 0, false
		}
		total += mm
	}
	return total, true
}

// ease is the follower's stitching length less the leader's, mm.
func (s *stitching) ease(l model.Link, b int, size string) (float64, bool) {
	lead, okA := s.leads(l, size)
	follow, okB := s.length(b, l.Follow, size)
	return follow - lead, okA && okB
}

// printedEase is the mean ease of the printed sizes that both pieces have.
func (s *stitching) printedEase(l model.Link, a, b int) (float64, bool) {
	var sum float64
	count := 0
	for _, o := range s.p.Pieces[a].Nest {
		if e, ok := s.ease(l, b, o.Size); ok {
			sum += e
			count++
		}
	}
	return sum / float64(max(1, count)), count > 0
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
			What: fmt.Sprintf("%s is too narrow for its seams", q.Name),
			Much: fmt.Sprintf("%s at the %s", show(q.Edges[where.Edge].Allowance, s.p), edgeName(q, where.Edge)),
			Say: fmt.Sprintf("A seam allowance of %s does not fit at the %s of %s.",
				show(q.Edges[where.Edge].Allowance, s.p), edgeName(q, where.Edge), q.Name),
			Help: "Choose a size nearer the printed ones, or a narrower allowance there.",
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
