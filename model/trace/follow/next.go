package follow

import (
	"context"
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// Traced is a size whose line is done: a closed ring of edges. Edge i leads
// from corner i to the next corner, the last one back to the first. All sizes
// start at the same corner and go round the same way.
type Traced struct {
	Place int // among the printed sizes, smallest first, one apart where no size is printed between
	Edges []geom.Path
}

// NextOptions say which size is to be proposed.
type NextOptions struct {
	Place int     // of the wanted size, counted as in Traced
	Tol   float64 // as in Options
}

// Proposal is another size's line as the traced sizes and the print let
// expect it, to be confirmed corner by corner.
type Proposal struct {
	Corners []geom.Point
	Edges   []Edge    // Edges[i] from Corners[i] to the next one, with its doubts
	Doubts  [][]Doubt // by corner: what may be wrong with its place
}

// Next proposes the line of a size not yet traced. One traced size is enough;
// two tell how the corners move from size to size, and are better.
//
// Each corner is taken to where the printed lines beside its two edges meet
// again, all corners together: an edge carried along with its two corners must
// lie on a printed line for as much of its length as possible, with as few
// other printed lines between it and the traced one as can be, and on the outer
// side where the wanted size is larger. Then each edge is followed close to
// where it was carried to.
//
// It takes about a fifth of a second for each step from the nearest traced
// size, and ctx ends it early with the context's error. It is an error where
// traced sizes are missing, are no rings, or differ in their corners.
func (f *Field) Next(ctx context.Context, traced []Traced, o NextOptions) (Proposal, error) {
	p, err := f.stepwise(ctx, slices.Clone(traced), o)
	if err != nil {
		return Proposal{}, words.Errorf("looking for the next size: %w", err)
	}
	return p, nil
}

// stepwise proposes the sizes from the nearest traced one on, up to the wanted
// one: a single step is found more surely than several at once.
func (f *Field) stepwise(ctx context.Context, traced []Traced, o NextOptions) (Proposal, error) {
	var unsure [][]Doubt
	for {
		s, err := f.newNextSearch(traced, o.Place)
		if err != nil {
			return Proposal{}, err
		}
		p, err := f.oneStep(ctx, s, o)
		if err != nil {
			return Proposal{}, err
		}
		if s.place == o.Place {
			for i, d := range unsure {
				if len(d) > 0 {
					p.Doubts[i] = append(p.Doubts[i], Doubt{At: p.Corners[i], Say: words.T("This corner was not sure in a size between.")})
				}
			}
			return p, nil
		}
		if unsure == nil {
			unsure = make([][]Doubt, len(p.Corners))
		}
		between := Traced{Place: s.place}
		for i, e := range p.Edges {
			between.Edges = append(between.Edges, e.Path)
			unsure[i] = append(unsure[i], p.Doubts[i]...)
		}
		traced = append(traced, between)
	}
}

// oneStep proposes the size next to a traced one.
func (f *Field) oneStep(ctx context.Context, s *nextSearch, o NextOptions) (Proposal, error) {
	n := len(s.from.edges)
	for i := range n {
		if err := ctx.Err(); err != nil {
			return Proposal{}, err
		}
		s.moves = append(s.moves, s.cornerMoves(i))
	}
	choice := s.together()
	p := Proposal{Corners: make([]geom.Point, n), Edges: make([]Edge, n), Doubts: make([][]Doubt, n)}
	moves := s.settle(choice)
	for i := range n {
		p.Corners[i] = s.from.corner(i).Add(moves[i])
		p.Doubts[i] = s.cornerDoubts(i, choice, moves)
	}
	for i := range n {
		if err := ctx.Err(); err != nil {
			return Proposal{}, err
		}
		p.Edges[i] = f.nextEdge(s, i, p.Corners[i], p.Corners[(i+1)%n], o)
	}
	return p, nil
}

// nextSearch is what is known when another size is looked for.
type nextSearch struct {
	ink   *inkMap
	web   *web
	from  outline       // of the traced size nearest to the wanted one
	guide []geom.Path   // its edges
	place int           // of the size looked for, the next one to it
	side  float64       // 1 where it is larger, -1 where smaller
	want  []geom.Vec    // how far each corner is expected to move; nil with one size traced
	moves [][]move      // by corner: where it may go
	pairs [][][]float64 // by edge, move of its first corner and of its last: how well it then lies
	lines [][][]float64 // by edge and place: how far out printed lines run beside it, in mm
}

// move is a way of a corner from the traced size to the wanted one.
type move struct {
	by    geom.Vec
	score float64
}

func (f *Field) newNextSearch(traced []Traced, at int) (*nextSearch, error) {
	if len(traced) == 0 {
		return nil, words.Errorf("no size is traced yet; trace one first")
	}
	byNearness := slices.Clone(traced)
	slices.SortStableFunc(byNearness, func(a, b Traced) int { return abs(a.Place-at) - abs(b.Place-at) })
	near := byNearness[0]
	if near.Place == at {
		return nil, words.Errorf("this size is traced already")
	}
	s := &nextSearch{ink: &f.ink, web: f.web, side: 1}
	if at < near.Place {
		s.side = -1
	}
	s.place = near.Place + int(s.side)
	for _, t := range byNearness {
		if len(t.Edges) != len(near.Edges) {
			return nil, words.Errorf("the traced sizes have different numbers of corners (%d and %d); mend one of them", len(near.Edges), len(t.Edges))
		}
	}
	var err error
	if s.from, err = newOutline(near.Edges); err != nil {
		return nil, err
	}
	s.guide = near.Edges
	if len(byNearness) > 1 {
		if other := byNearness[1]; other.Place != near.Place {
			share := s.side / float64(other.Place-near.Place)
			for i, e := range other.Edges {
				s.want = append(s.want, e.Start().Sub(near.Edges[i].Start()).Scale(share))
			}
		}
	}
	for i := range s.from.edges {
		s.lines = append(s.lines, s.linesBeside(i))
	}
	return s, nil
}

func abs(i int) int { return max(i, -i) }

// mostStep is how far in mm a corner may move from one size to the next.
const mostStep = 12.0

// reachOf is how far around the expected place corner i is looked for, and
// that place's way from the traced corner.
func (s *nextSearch) reachOf(i int) (centre geom.Vec, r float64) {
	if s.want == nil {
		return geom.Vec{}, mostStep
	}
	return s.want[i], 2 + 0.3*s.want[i].Len()
}

// linesBeside lists, for every place of edge i, how far out printed lines of
// its direction run beside it, those further in with a minus.
func (s *nextSearch) linesBeside(i int) [][]float64 {
	reach := mostStep
	out := make([][]float64, len(s.from.edges[i]))
	for k, p := range s.from.edges[i] {
		start, on := 0.0, false
		for d := -reach; d <= reach; d += inkCell / 2 {
			ink := s.ink.under(p.at.Add(p.out.Scale(d)), p.inkDir)
			switch {
			case ink && !on:
				start = d
			case !ink && on:
				out[k] = append(out[k], (start+d)/2)
			}
			on = ink
		}
	}
	return out
}

// between counts the lines that run between place k of edge i and d mm out of
// it. What a dashed line leaves out is looked for a little further on.
func (s *nextSearch) between(i, k int, d float64) int {
	const beside = 0.9
	most := 0
	lines := s.lines[i]
	for j := max(k-1, 0); j <= min(k+1, len(lines)-1); j++ {
		n := 0
		for _, l := range lines[j] {
			if (d > 0 && l > beside && l < d-beside) || (d < 0 && l < -beside && l > d+beside) {
				n++
			}
		}
		most = max(most, n)
	}
	return most
}

// carried is place k of edge i when its corners move by a and b and its middle
// by bulge mm more to the outside.
func (s *nextSearch) carried(i, k int, a, b geom.Vec, bulge float64) geom.Point {
	p := s.from.edges[i][k]
	by := a.Scale(1 - p.share).Add(b.Scale(p.share)).Add(p.out.Scale(4 * p.share * (1 - p.share) * bulge))
	return p.at.Add(by)
}

func within(v float64, lo, hi float64) float64 { return math.Min(math.Max(v, lo), hi) }
