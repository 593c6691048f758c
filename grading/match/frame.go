package match

import (
	"math"
	"strings"

	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/glossary"
)

// shape is a piece as naming sees it: the largest printed size with the grain
// hanging down, or standing on its head.
type shape struct {
	q     model.Piece
	head  bool // upside down
	edges []geom.Path
	pt    []flat // grade points
	lo    flat   // smallest across and along
	size  flat   // width and height
	title string // the piece's name in lower-case English words
}

// flat is a place or a movement by its parts across and along the grain, mm.
type flat struct{ across, along float64 }

func newShape(q model.Piece, head bool) *shape {
	s := &shape{q: q, head: head, edges: q.Nest[len(q.Nest)-1].Edges, title: glossary.English(q.Name)}
	lo, hi := flat{math.Inf(1), math.Inf(1)}, flat{math.Inf(-1), math.Inf(-1)}
	for _, e := range s.edges {
		s.pt = append(s.pt, s.flat(geom.Vec(e.Start())))
		for _, p := range e.Flatten(1) {
			f := s.flat(geom.Vec(p))
			lo = flat{min(lo.across, f.across), min(lo.along, f.along)}
			hi = flat{max(hi.across, f.across), max(hi.along, f.along)}
		}
	}
	s.lo, s.size = lo, flat{hi.across - lo.across, hi.along - lo.along}
	return s
}

func (s *shape) flat(v geom.Vec) flat {
	x, y := s.q.AcrossAlong(v)
	if s.head {
		x, y = -x, -y
	}
	return flat{x, y}
}

func (s *shape) has(words ...string) bool {
	for _, w := range words {
		if strings.Contains(s.title, w) {
			return true
		}
	}
	return false
}

func (s *shape) n() int            { return len(s.edges) }
func (s *shape) next(k int) int    { return (k + 1) % s.n() }
func (s *shape) before(k int) int  { return (k + s.n() - 1) % s.n() }
func (s *shape) chord(k int) flat  { return s.flat(s.edges[k].End().Sub(s.edges[k].Start())) }
func (s *shape) across(k int) bool { c := s.chord(k); return math.Abs(c.across) > math.Abs(c.along) }

// height is how high a grade point lies, 0 at the bottom to 1 at the top.
func (s *shape) height(k int) float64 {
	if s.size.along == 0 {
		return 0
	}
	return 1 - (s.pt[k].along-s.lo.along)/s.size.along
}

// upright reports whether an edge is straight and runs along the grain: within
// 3 degrees and a hand's wobble.
func (s *shape) upright(k int) bool {
	c := s.chord(k)
	return math.Abs(c.across) < 0.05*math.Abs(c.along) && s.edges[k].IsStraight(2)
}
