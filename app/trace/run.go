// words: none, these are of the command qstep.
package trace

import (
	"cmp"
	"context"
	"fmt"

	"quarterstep/app/edit"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/trace/follow"
)

// Sheet is the picture that clicks are of.
type Sheet struct {
	Lines *follow.Field
	PerMM [2]float64 // pixels of the picture that was clicked to a mm, across and down
}

// Trace traces the pieces of a clicks file off a picture of the pattern and puts
// them on the Shelf. What is doubtful of their lines is said, a sentence each.
// An error names the piece, and the size and corner where there is one; nothing
// is traced then.
func (c Clicks) Trace(ctx context.Context, p model.Pattern, picture string, on Sheet) (model.Pattern, []string, error) {
	r := run{ctx: ctx, p: p, hand: Hand{Lines: on.Lines, Reach: cmp.Or(c.Reach, UsualReach)}, perMM: [2]float64{1, 1}}
	if c.Unit == "px" {
		r.perMM = on.PerMM
	}
	for _, q := range c.Pieces {
		if err := r.piece(picture, q); err != nil {
			return p, nil, fmt.Errorf("tracing %s, %w", cmp.Or(q.Name, "a piece"), err)
		}
	}
	return r.p, r.says, nil
}

// run is a clicks file under way.
type run struct {
	ctx   context.Context
	p     model.Pattern
	hand  Hand
	perMM [2]float64 // units of the file to a mm, across and down
	id    string     // of the tracing
	name  string
	says  []string
}

// do makes one edit.
func (r *run) do(f func(model.Pattern) (model.Pattern, error)) error {
	p, err := f(r.p)
	if err == nil {
		r.p = p
	}
	return err
}

func (r *run) mm(p Place) geom.Point { return geom.Pt(p.X/r.perMM[0], p.Y/r.perMM[1]) }

// tracing is the tracing in hand.
func (r *run) tracing() model.Tracing {
	if i := r.p.TracingIndex(r.id); i >= 0 {
		return r.p.Tracings[i]
	}
	return model.Tracing{}
}

func (r *run) piece(picture string, q Clicked) error {
	r.id = fresh("tracing", func(id string) bool { return r.p.TracingIndex(id) < 0 })
	r.name = cmp.Or(q.Name, fmt.Sprintf("Piece %d", len(r.p.Pieces)+1))
	if err := r.do(edit.StartTracing(r.id, picture, r.name, max(q.Cut, 1))); err != nil {
		return err
	}
	for i, s := range q.Sizes {
		if err := r.ctx.Err(); err != nil {
			return err
		}
		trace := r.clicked
		if s.Propose {
			trace = r.proposed
		}
		if err := trace(s); err != nil {
			return fmt.Errorf("size %s%w", s.Size, err)
		}
		if i > 0 {
			continue
		}
		if err := r.edges(q); err != nil { // before others are proposed: what lies on the fold stays straight
			return err
		}
	}
	if err := r.marks(q); err != nil {
		return err
	}
	for _, f := range Faults(r.tracing(), r.p.Chart) {
		r.say("", f)
	}
	id := fresh("piece", func(id string) bool { return r.p.PieceIndex(id) < 0 })
	if err := r.do(edit.FinishTracing(r.id, id)); err != nil {
		return err
	}
	return r.gaps(id, q.Gaps)
}

// fresh is the first of kind-1, kind-2, ... that is free.
func fresh(kind string, free func(string) bool) string {
	for n := 1; ; n++ {
		if id := fmt.Sprintf("%s-%d", kind, n); free(id) {
			return id
		}
	}
}

// clicked traces a size corner by corner. Its errors go on from "size 38".
func (r *run) clicked(s ClickedSize) error {
	if _, ok := r.p.Chart.Place(s.Size); !ok {
		return fmt.Errorf(" is not on the chart %s", r.p.Chart.Name)
	}
	for i, c := range s.Corners {
		line, _ := LineOf(r.tracing(), s.Size)
		to := r.hand.OntoPrint(r.mm(c.At))
		var along follow.Edge
		if i > 0 {
			along = r.edge(s, line, i-1, to)
		}
		if err := r.do(edit.AddCorner(r.id, s.Size, to, along.Path)); err != nil {
			return fmt.Errorf(", corner %d: %w", i+1, err)
		}
		r.doubt(s.Size, i, along.Doubts)
	}
	line, _ := LineOf(r.tracing(), s.Size)
	n := len(line.Corners)
	last := r.edge(s, line, n-1, line.Corners[0])
	if err := r.do(edit.CloseSize(r.id, s.Size, last.Path)); err != nil {
		return fmt.Errorf(", corner %d: %w", n, err)
	}
	r.doubt(s.Size, n, last.Doubts)
	return nil
}

// edge is edge j of a size, from its corner j as it was clicked.
func (r *run) edge(s ClickedSize, line model.TracedSize, j int, to geom.Point) follow.Edge {
	c := s.Corners[j]
	hand := r.hand
	hand.Straight = c.Straight || c.Fold
	via := make([]geom.Point, len(c.Via))
	for k, v := range c.Via {
		via[k] = hand.OntoPrint(r.mm(v))
	}
	return hand.Edge(r.tracing(), line, j, to, via)
}

// proposed takes the line that is proposed for a size, its corners put right.
func (r *run) proposed(s ClickedSize) error {
	k := r.tracing()
	next, ok := r.hand.Propose(r.ctx, k, r.p.Chart, s.Size)
	if !ok {
		return fmt.Errorf(" cannot be proposed: the sizes before it do not tell where it runs; click its corners")
	}
	for _, c := range s.Corners {
		if c.Corner > len(next.Line.Corners) {
			return fmt.Errorf(", corner %d: it has %d corners", c.Corner, len(next.Line.Corners))
		}
		next = next.Corrected(c.Corner-1, r.hand.OntoPrint(r.mm(c.At)))
	}
	if err := r.do(edit.TakeTraced(r.id, next.Line)); err != nil {
		return fmt.Errorf(": %w", err)
	}
	for j, ds := range next.Corners {
		for _, d := range ds {
			r.say(fmt.Sprintf("size %s, corner %d, ", s.Size, j+1), d)
		}
	}
	for j, d := range next.Doubts {
		r.doubt(s.Size, j+1, d)
	}
	return nil
}

// doubt says what is doubtful of edge n of a size.
func (r *run) doubt(size string, n int, doubts []follow.Doubt) {
	for _, d := range doubts {
		r.say(fmt.Sprintf("size %s, edge %d, ", size, n), d)
	}
}

// say keeps a doubt with where it is.
func (r *run) say(of string, d follow.Doubt) {
	r.says = append(r.says, fmt.Sprintf("%s, %sat %.0f, %.0f mm: %s", r.name, of, d.At.X, d.At.Y, d.Say))
}

// edges names the edges and says what they are.
func (r *run) edges(q Clicked) error {
	first := q.Sizes[0].Corners
	name := func(e ClickedEdge) error {
		if first[e.Edge-1].Fold {
			e.Kind = model.Fold
		}
		if err := r.do(edit.NameTracedEdge(r.id, e.Edge-1, e.Name, e.Kind, float64(e.Allowance))); err != nil {
			return fmt.Errorf("edge %d: %w", e.Edge, err)
		}
		return nil
	}
	for j, c := range first {
		if c.Fold {
			if err := name(ClickedEdge{Edge: j + 1}); err != nil {
				return err
			}
		}
	}
	for _, e := range q.Edges {
		if err := name(e); err != nil {
			return err
		}
	}
	return nil
}

// marks puts the marks on the piece.
func (r *run) marks(q Clicked) error {
	for i, l := range q.Lines {
		if err := r.do(edit.AddTracedLine(r.id, l.Kind, l.Size, r.mm(l.From), r.mm(l.To))); err != nil {
			return fmt.Errorf("line %d: %w", i+1, err)
		}
	}
	for i, n := range q.Notches {
		if err := r.do(edit.AddTracedNotch(r.id, n.Size, r.mm(n.At), n.Double)); err != nil {
			return fmt.Errorf("notch %d: %w", i+1, err)
		}
	}
	for i, d := range q.Darts {
		if err := r.do(edit.AddTracedDart(r.id, cmp.Or(d.Name, "dart"), d.Size, r.mm(d.From), r.mm(d.Apex), r.mm(d.To))); err != nil {
			return fmt.Errorf("dart %d: %w", i+1, err)
		}
	}
	return nil
}

// gaps types the gaps of a piece clicked in one size.
func (r *run) gaps(piece string, gaps []ClickedGap) error {
	for _, g := range gaps {
		point := r.p.Pieces[r.p.PieceIndex(piece)].Points[g.Corner-1].ID
		for _, way := range []struct {
			along bool
			mm    Amount
		}{{false, g.Across}, {true, g.Along}} {
			if way.mm == 0 {
				continue
			}
			if err := r.do(edit.SetGap(piece, point, way.along, float64(way.mm))); err != nil {
				return fmt.Errorf("gap of corner %d: %w", g.Corner, err)
			}
		}
	}
	return nil
}
