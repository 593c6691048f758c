package check

import (
	"errors"
	"fmt"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// newLine stands for the size wanted where a printed size is named.
const newLine = ""

// stitching finds stitching lines, each once.
type stitching struct {
	p     model.Pattern
	r     grading.Result
	known map[lineOf]stitched
}

// lineOf is a piece by its index and one of its sizes.
type lineOf struct {
	piece int
	size  string
}

type stitched struct {
	edges []geom.Path
	err   error
}

func newStitching(p model.Pattern, r grading.Result) *stitching {
	return &stitching{p, r, map[lineOf]stitched{}}
}

// line is the stitching line of piece i in a printed size or newLine, edge by
// edge: the outline without its seam allowances.
func (s *stitching) line(i int, size string) ([]geom.Path, error) {
	key := lineOf{i, size}
	out, ok := s.known[key]
	if !ok {
		out.edges, out.err = s.takeSeamsOff(i, size)
		s.known[key] = out
	}
	return out.edges, out.err
}

func (s *stitching) takeSeamsOff(i int, size string) ([]geom.Path, error) {
	q := s.p.Pieces[i]
	edges := s.r.Pieces[i].Edges
	if size != newLine {
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
	edges, err := s.line(i, size)
	if err != nil {
		return 0, false
	}
	var total float64
	for _, id := range of.Edges {
		l, err := edges[s.p.Pieces[i].EdgeIndex(id)].Length(arcTol)
		if err != nil {
			return 0, false
		}
		total += l
	}
	return total, true
}

// ease is the follower's stitching length less the leader's, mm.
func (s *stitching) ease(l model.Link, a, b int, size string) (float64, bool) {
	lead, okA := s.length(a, l.Lead, size)
	follow, okB := s.length(b, l.Follow, size)
	return follow - lead, okA && okB
}

// printedEase is the mean ease of the printed sizes that both pieces have.
func (s *stitching) printedEase(l model.Link, a, b int) (float64, bool) {
	var sum float64
	count := 0
	for _, o := range s.p.Pieces[a].Nest {
		if e, ok := s.ease(l, a, b, o.Size); ok {
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
