package propose

import (
	"math"
	"strings"

	"quarterstep/grading/seam"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// measureTol bounds every length and distance read here, mm.
const measureTol = 1e-3

// sheet is a piece as it is read here.
type sheet struct {
	q      model.Piece
	sort   sort
	layer  layer
	half   string // "front", "back" or ""
	role   []role // of each edge
	seamed bool   // some edge has an allowance, so that stitching lines are known
	tapes  []*seam.Tape
	sizes  []string // of the chart, as tapes
	index  map[string]int
}

func newSheet(p model.Pattern, i int) *sheet {
	q := p.Pieces[i]
	s := &sheet{q: q, sort: sortOf(q.Name), layer: layerOf(q.Name), half: half(q.Name), index: map[string]int{}}
	if len(q.Points) != len(q.Edges) {
		return s // no edge of it can be told by its ends
	}
	for _, e := range q.Edges {
		s.role = append(s.role, roleOf(e, s.sort))
		s.seamed = s.seamed || e.Allowance > 0
	}
	for _, d := range q.Darts {
		s.skipDart(d)
	}
	for _, o := range q.Nest {
		if len(o.Edges) != len(q.Edges) || !drawn(o) {
			continue
		}
		t := seam.NewTape(q, o.Edges)
		for _, size := range o.Sizes() {
			s.index[size] = len(s.tapes)
			s.tapes, s.sizes = append(s.tapes, t), append(s.sizes, size)
		}
	}
	return s
}

// drawn reports that every edge of a printed line is a line.
func drawn(o model.Outline) bool {
	for _, e := range o.Edges {
		if len(e) == 0 || e.Validate() != nil {
			return false
		}
	}
	return true
}

// skipDart marks the edges across a dart's mouth, unless they would be most of
// the piece.
func (s *sheet) skipDart(d model.Dart) {
	a, b := s.q.PointIndex(d.From), s.q.PointIndex(d.To)
	n := len(s.q.Edges)
	if a < 0 || b < 0 || len(s.q.Points) != n || 2*((b-a+n)%n) > n {
		return
	}
	for k := a; k != b; k = (k + 1) % n {
		s.role[k] = dartCap
	}
}

// edges is the printed line of that size; false when it has none that can be
// measured.
func (s *sheet) edges(size string) ([]geom.Path, bool) {
	if _, ok := s.index[size]; !ok {
		return nil, false
	}
	o, ok := s.q.Printed(size)
	return o.Edges, ok
}

// shared is the sizes that all of the sheets have.
func shared(sheets ...*sheet) []string {
	var out []string
	if len(sheets) == 0 {
		return nil
	}
next:
	for _, size := range sheets[0].sizes {
		for _, s := range sheets[1:] {
			if _, ok := s.index[size]; !ok {
				continue next
			}
		}
		out = append(out, size)
	}
	return out
}

// length is how long the edges are sewn in that size, mm; NaN where that
// cannot be measured.
func (s *sheet) length(size string, edges []int) float64 {
	i, ok := s.index[size]
	if !ok {
		return math.NaN()
	}
	var sum float64
	for _, j := range edges {
		l, err := s.tapes[i].Length(j)
		if err != nil {
			return math.NaN()
		}
		sum += l
	}
	return sum
}

// next is the edge after j along the outline, before the one before it; both
// go past a dart's mouth.
func (s *sheet) next(j int) int   { return s.step(j, 1) }
func (s *sheet) before(j int) int { return s.step(j, -1) }

func (s *sheet) step(j, by int) int {
	n := len(s.role)
	k := (j + by + n) % n
	for k != j && s.role[k] == dartCap {
		k = (k + by + n) % n
	}
	return k
}

// pointName is the name of the grade point where edge j starts.
func (s *sheet) pointName(j int) string {
	return strings.TrimSpace(plain(s.q.Points[(j+len(s.q.Points))%len(s.q.Points)].Name))
}
