package grading

import (
	"cmp"
	"context"

	"quarterstep/assets/words"
	"quarterstep/grading/nest"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// Grader grades patterns and remembers what it read of their nests, so that
// grading again after a hand correction or for a new target is quick. The zero
// Grader is ready; it is not safe for use from two goroutines at once.
type Grader struct {
	fits  map[string]remembered
	links map[string]readLink
}

// remembered is a piece as it was when its nest was read.
type remembered struct {
	piece model.Piece
	chart *model.ChartSize
	fit   *nest.Fit
}

// Grade works out p at its target; a pattern without pieces has an empty
// result. It fails on a pattern that has no chart, a target off the chart, or a
// piece whose nest cannot be read; the error names the piece.
func (g *Grader) Grade(p model.Pattern) (Result, error) {
	return g.GradeUntil(context.Background(), p)
}

// GradeUntil is Grade until ctx ends, whose error it then returns. What was read of p's
// nests by then is not remembered, what was read before is.
func (g *Grader) GradeUntil(ctx context.Context, p model.Pattern) (Result, error) {
	if len(p.Pieces) == 0 {
		return Result{Size: p.Chart.NameAt(p.Target.Place)}, nil
	}
	t := p.Target.Place
	if _, ok := p.Chart.At(t, model.Steps); !ok {
		return Result{}, words.Errorf("the size wanted is not on chart %s", p.Chart.Name)
	}
	fits, err := g.read(ctx, p)
	if err != nil {
		return Result{}, err
	}
	out := Result{Size: p.Chart.NameAt(t), Short: shortfalls(p), Pieces: make([]Piece, len(p.Pieces))}
	lines := make([][]geom.Path, len(p.Pieces))
	left := make([]stages, len(p.Pieces))
	for i, q := range p.Pieces {
		if err := ctx.Err(); err != nil {
			return Result{}, err
		}
		edges, exact, refused := fits[i].Edges(p.Target)
		hand := layHand(q, p.Chart, t, edges)
		if refused != nil {
			hand.unlaid = refused.Error()
		}
		tips := apexes(q, fits[i], p.Target)
		left[i].fit, left[i].darts = fits[i], layDarts(q, p.Chart, t, &hand, tips)
		long := lengthen(p, q, fits[i], edges, hand, tips)
		left[i].long, lines[i] = long, long.edges
		out.Pieces[i] = Piece{ID: q.ID, Name: q.Name, Base: long.base, Put: long.put, Handles: long.handles, Unlaid: cmp.Or(hand.unlaid, long.unlaid), Printed: exact, Frozen: fits[i].Frozen(), Opens: fits[i].Opens(p.Target)}
		if long.put != nil {
			out.Pieces[i].Before = long.before
		}
	}
	linked, err := g.link(p, fits, lines)
	if err != nil {
		return Result{}, err
	}
	out.Unlinked, out.Seams = linked.unlinked, linked.seams
	for i, q := range p.Pieces {
		if err := ctx.Err(); err != nil {
			return Result{}, err
		}
		left[i].gave = linked.given[i]
		if err := left[i].spot(q, lines[i], p.Target); err != nil {
			return Result{}, words.Errorf("finding the notches of %s: %w", q.Name, err)
		}
	}
	linked.meetNotches(p, left)
	for i, q := range p.Pieces {
		r := &out.Pieces[i]
		r.Edges = lines[i]
		r.Printed = r.Printed && r.Put == nil && sameLine(r.Base, r.Edges)
		if err := left[i].mark(r, q, p.Target); err != nil {
			return Result{}, words.Errorf("marking %s: %w", q.Name, err)
		}
		r.Points = increments(q, fits[i], p.Target, r, &left[i].long)
	}
	return out, nil
}

// Unread is how many printed edges of p, in all their sizes, must be read before it
// can be graded: the work that takes longest by far.
func (g *Grader) Unread(p model.Pattern) int {
	n := 0
	for _, q := range p.Pieces {
		if !g.remembers(p, q) {
			n += len(q.Edges) * len(q.Nest)
		}
	}
	return n
}

// Count is how many printed edges were read and are remembered.
func (g *Grader) Count() int {
	n := 0
	for _, r := range g.fits {
		n += len(r.piece.Edges) * len(r.piece.Nest)
	}
	return n
}

func (g *Grader) remembers(p model.Pattern, q model.Piece) bool {
	r, ok := g.fits[q.ID]
	return ok && len(p.Chart.Sizes) > 0 && r.chart == &p.Chart.Sizes[0] && sameNest(r.piece, q)
}

// read reads every nest of p that is not remembered.
func (g *Grader) read(ctx context.Context, p model.Pattern) ([]*nest.Fit, error) {
	next := make(map[string]remembered, len(p.Pieces))
	fits := make([]*nest.Fit, len(p.Pieces))
	for i, q := range p.Pieces {
		r := g.fits[q.ID]
		if !g.remembers(p, q) {
			fit, err := nest.NewUntil(ctx, q, p.Chart)
			if err != nil {
				return nil, err
			}
			r = remembered{q, &p.Chart.Sizes[0], fit}
		}
		next[q.ID], fits[i] = r, r.fit
	}
	g.fits = next
	return fits, nil
}

// sameNest reports that b is a with at most its hand corrections or its place
// on the Table changed.
func sameNest(a, b model.Piece) bool {
	return a.Name == b.Name && same(a.Points, b.Points) && same(a.Edges, b.Edges) && same(a.Nest, b.Nest) &&
		same(a.Lines, b.Lines) && same(a.Notches, b.Notches) && same(a.Darts, b.Darts) &&
		a.OneForAll == b.OneForAll && same(a.Gaps, b.Gaps) && same(a.Cuts, b.Cuts)
}

// same reports that two slices are the very same storage: edits replace
// slices and never write into them.
func same[T any](a, b []T) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}

// sameLine reports that two outlines are the same within 1e-6 mm.
func sameLine(a, b []geom.Path) bool {
	const tol = 1e-6
	for j := range a {
		pa, pb := a[j].Controls(), b[j].Controls()
		if len(pa) != len(pb) {
			return false
		}
		for k := range pa {
			if pa[k].Dist(pb[k]) > tol {
				return false
			}
		}
	}
	return true
}

// GradeSizes works out p at each named size of its chart, by the chart alone:
// without the wearer's own measurements, the target otherwise unchanged. They
// come in the order given. It fails on a size the chart lacks.
func (g *Grader) GradeSizes(p model.Pattern, sizes []string) ([]Result, error) {
	return g.GradeSizesUntil(context.Background(), p, sizes)
}

// GradeSizesUntil is GradeSizes until ctx ends, whose error it then returns.
func (g *Grader) GradeSizesUntil(ctx context.Context, p model.Pattern, sizes []string) ([]Result, error) {
	out := make([]Result, len(sizes))
	for i, s := range sizes {
		place, ok := p.Chart.Place(s)
		if !ok {
			return nil, words.Errorf("chart %s has no size %s", p.Chart.Name, s)
		}
		at := p
		at.Target.Place, at.Target.Body = float64(place), nil
		var err error
		if out[i], err = g.GradeUntil(ctx, at); err != nil {
			return nil, err
		}
	}
	return out, nil
}
