package follow

import (
	"context"
	"maps"
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

	field  *Field
	search *nextSearch
	carry  *carry
	tol    float64
	known  map[int]geom.Point // corners that are beyond doubt
	unsure []bool             // corners not sure in a size between
	lines  []courseLine       // by edge: what it was followed along
}

// Next proposes the line of a size not yet traced. One traced size is enough;
// two tell how the corners move from size to size, and are better.
//
// The printed lines beside every side of the traced size are found first, a
// side leading from one corner at which the outline turns to the next. Each such
// corner may go to where a line of the one side meets a line of the other. All
// corners are chosen together: along each side one line leads from corner to
// corner, with print along as much of it as possible, as few other lines
// between it and the traced one as can be, and outside where the wanted size is
// larger. Corners at which the outline goes on smoothly are put on the line that
// was found, the growth of a side going to its longer edges. Then each edge is
// followed close to its line.
//
// The same is done by the traced outline carried along with its corners. Where
// lines of other sizes lie close beside most of it, this tells the sizes apart
// more surely and is taken if its edges lie on print, unless what was found first
// lies well on print all round. A corner that the two ways put at different places is
// doubtful.
//
// It takes about a quarter of a second for each step from the nearest traced
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
	var unsure []bool
	for {
		s, err := f.newNextSearch(ctx, traced, o.Place)
		if err != nil {
			return Proposal{}, err
		}
		n := len(s.guide)
		if unsure == nil {
			unsure = make([]bool, n)
		}
		c, err := s.newCarry(ctx)
		if err != nil {
			return Proposal{}, err
		}
		p := Proposal{field: f, search: s, carry: c, tol: o.Tol, unsure: unsure, Corners: make([]geom.Point, n), Edges: make([]Edge, n)}
		if err := p.solve(ctx); err != nil {
			return Proposal{}, err
		}
		if s.place == o.Place {
			return p, nil
		}
		between := Traced{Place: s.place}
		unsure = slices.Clone(unsure)
		for i, e := range p.Edges {
			between.Edges = append(between.Edges, e.Path)
			unsure[i] = unsure[i] || len(p.Doubts[i]) > 0
		}
		traced = append(traced, between)
	}
}

// Given is the proposal with one more corner's place beyond doubt: that corner
// lies there, those given before stay, and all others are looked for anew in
// the light of it. It takes some hundredths of a second.
func (p Proposal) Given(corner int, at geom.Point) Proposal {
	if p.search == nil || corner < 0 || corner >= len(p.Corners) || !at.Finite() {
		return p
	}
	p.known = maps.Clone(p.known)
	if p.known == nil {
		p.known = map[int]geom.Point{}
	}
	p.known[corner] = at
	p.Corners, p.Edges = slices.Clone(p.Corners), slices.Clone(p.Edges)
	if err := p.solve(context.Background()); err != nil {
		p.Corners[corner] = at
	}
	return p
}

// solve looks for all corners and for the edges whose corners have moved.
func (p *Proposal) solve(ctx context.Context) error {
	s, c := p.search.given(p.known), p.carry.given(p.known)
	choice := s.choose()
	at := s.settle(choice, p.known)
	carried := c.settle(c.together(), p.known)
	doubts := c.differing(at.corners, carried)
	whole := c.better(carried, at.corners)
	if whole {
		at = settled{corners: carried, lines: make([]courseLine, len(carried))}
	} else {
		s.addDoubts(doubts, choice, at, p.known)
	}
	for i := range p.known {
		doubts[i] = nil
	}
	p.Doubts = doubts
	n := len(at.corners)
	for i, c := range at.corners {
		if _, sure := p.known[i]; p.unsure[i] && !sure {
			p.Doubts[i] = append(p.Doubts[i], Doubt{At: c, Say: words.T("This corner was not sure in a size between.")})
		}
	}
	was, lines := p.Corners, p.lines
	p.Corners, p.lines = at.corners, at.lines
	for i := range n {
		if err := ctx.Err(); err != nil {
			return err
		}
		j := (i + 1) % n
		if len(p.Edges[i].Path) > 0 && was[i] == p.Corners[i] && was[j] == p.Corners[j] && at.lines[i] == lines[i] {
			continue
		}
		traced := stepped(s.guide[i])
		course := c.course(at.corners[i], at.corners[j], traced)
		if !whole {
			course = s.courseAlong(at.lines[i], at.corners[i], at.corners[j], traced)
		}
		p.Edges[i] = p.field.nextEdge(traced, course, p.tol)
	}
	return nil
}
