package nest

import (
	"context"
	"fmt"
	"math"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// arcTol is how exactly edge lengths are measured while reading a nest, mm.
const arcTol = 1e-4

// Fit is one piece read: how its points, edges and marks move.
type Fit struct {
	piece   model.Piece // its sizes laid on its centre or fold line
	printed []model.Outline
	laid    laid
	print   print
	frame   frame
	points  []point
	edges   []edge
	lines   []lineFit
	notches []notchFit
	darts   []dartFit
	shaken  bool   // traced by a hand that shook
	square  []bool // per grade point: an edge leaves a fold or centre edge square there
	cutting *cutting
}

// New reads the nest of piece q against chart. It fails on a piece whose
// printed sizes are not on the chart or are missing.
func New(q model.Piece, chart model.SizeChart) (*Fit, error) {
	return NewUntil(context.Background(), q, chart)
}

// NewUntil is New until ctx ends, whose error it then returns; no more than a size of
// one edge is read after that.
func NewUntil(ctx context.Context, q model.Piece, chart model.SizeChart) (*Fit, error) {
	n, err := readPrint(q, chart)
	if err != nil {
		return nil, err
	}
	fit := &Fit{frame: newFrame(q.GrainDir()), print: n, printed: q.Nest, cutting: readCuts(q)}
	q, fit.laid = onCentre(q, n)
	fit.piece = q
	fit.readPoints(usualFollows(q, chart))
	for j, e := range q.Edges {
		paths := make([]geom.Path, len(q.Nest))
		for i, o := range q.Nest {
			paths[i] = o.Edges[j]
		}
		read, err := newEdge(ctx, fit.print, fit.frame, paths, fit.ends(j),
			[2]bool{fit.runsOn(j), fit.runsOn((j + 1) % len(fit.points))}, arcTol)
		if err != nil {
			return nil, fmt.Errorf("%s, %s: %w", q.Name, edgeName(e, j), err)
		}
		fit.edges = append(fit.edges, read)
	}
	if err := fit.carryEdges(ctx); err != nil {
		return nil, err
	}
	return fit, fit.readMarks()
}

// carryEdges finds how the edges go on that are not drawn alike in all sizes:
// together with the grade points where a hand shook, else each by itself.
func (fit *Fit) carryEdges(ctx context.Context) error {
	if len(fit.print.lines) < 2 {
		return nil
	}
	var err error
	if fit.shaken, err = fit.settle(ctx); err != nil {
		return err
	}
	if fit.shaken {
		fit.readSquares()
		return nil
	}
	for j := range fit.edges {
		if fit.edges[j].reads() {
			continue
		}
		if err := fit.edges[j].trace(ctx, fit.print, fit.ends(j), arcTol); err != nil {
			return fmt.Errorf("%s, %s: %w", fit.piece.Name, edgeName(fit.piece.Edges[j], j), err)
		}
	}
	return nil
}

// ends is how the two ends of edge j move, across and along.
func (fit *Fit) ends(j int) [2]ends {
	a, b := fit.points[j], fit.points[(j+1)%len(fit.points)]
	return [2]ends{{a.rates[0], b.rates[0]}, {a.rates[1], b.rates[1]}}
}

// How far a line turns at a point it runs smoothly through, in radians: on a
// drawn nest what a drawing program rounds away, about a degree; on a traced
// one what a hand shakes it by, on the mean of all sizes and in any of them.
const (
	turnDrawn  = 0.02
	turnTraced = 0.06
	turnShaken = 0.25
)

// runsOn reports whether the line runs smoothly through grade point k in every
// printed size.
func (fit *Fit) runsOn(k int) bool {
	n := len(fit.points)
	var sum, most float64
	for _, o := range fit.piece.Nest {
		u, v := endDir(o.Edges[(k+n-1)%n]), endDir(o.Edges[k].Reverse()).Scale(-1)
		turn := math.Atan2(u.Cross(v), u.Dot(v))
		sum += turn
		most = math.Max(most, math.Abs(turn))
	}
	mean := math.Abs(sum) / float64(len(fit.piece.Nest))
	return most < turnDrawn || most < turnShaken && mean < turnTraced
}

// endDir is the direction in which a path ends: that of the whole where a hand
// drew it straight.
func endDir(p geom.Path) geom.Vec {
	chord := p.End().Sub(p.Start()).Unit()
	for _, c := range p.Controls() {
		if math.Abs(c.Sub(p.Start()).Cross(chord)) > waveOfStraight/2 {
			return p.EndDir()
		}
	}
	return chord
}

func edgeName(e model.Edge, i int) string {
	if e.Name != "" {
		return e.Name
	}
	return words.F("edge %d", i+1)
}

func (fit *Fit) readPoints(usual []Follows) {
	typed := map[string]model.Gap{}
	if len(fit.piece.Nest) == 1 {
		for _, g := range fit.piece.Gaps {
			typed[g.Point] = g
		}
	}
	fit.points = make([]point, len(fit.piece.Points))
	for k, g := range fit.piece.Points {
		at := make([]axes, len(fit.piece.Nest))
		for i, o := range fit.piece.Nest {
			at[i] = fit.frame.of(o.Edges[k].Start())
		}
		follow, proposed, fits := fit.print.follows(g, usual[k], at)
		p := newPoint(fit.print, at, follow)
		p.proposed, p.fits = proposed, fits
		if gap, ok := typed[g.ID]; ok {
			p.rates = [2]rate{fit.print.typedRate(follow.Across, gap.Across), fit.print.typedRate(follow.Along, gap.Along)}
		}
		fit.points[k] = p
	}
	for j, e := range fit.piece.Edges {
		if e.Kind == model.Fold || e.Kind == model.Centre {
			fit.holdEdge(j, (j+1)%len(fit.points))
		}
	}
}

// holdEdge keeps the two ends of a fold or centre edge on its own line.
func (fit *Fit) holdEdge(i, j int) {
	a, b := &fit.points[i], &fit.points[j]
	last := len(a.at) - 1
	dir := fit.frame.point(b.at[last]).Sub(fit.frame.point(a.at[last])).Unit()
	a.slide, b.slide = &dir, &dir
}

// Frozen reports that the piece was printed in one size only and that nothing
// says how it grows.
func (fit *Fit) Frozen() bool {
	return len(fit.print.lines) < 2 && !fit.piece.OneForAll && len(fit.piece.Gaps) == 0 && fit.cutting == nil
}

// From is the name of the printed size that a point wanted at place t goes on
// from.
func (fit *Fit) From(t float64) string {
	i := fit.print.nearest(t)
	sizes := fit.piece.Nest[i].Sizes()
	if t < fit.print.lines[i].lo {
		return sizes[0]
	}
	return sizes[len(sizes)-1]
}

// Movement is one direction of how a grade point moves, in mm.
type Movement struct {
	Follows  model.Measure
	From     string    // the printed size counted from
	Gaps     []float64 // between neighbouring printed sizes
	PerStep  float64   // mean printed gap per chart step
	ByChart  float64   // from that size to the size wanted
	BySteps  float64
	Residual float64
	Proposed model.Measure // what it follows unless the pattern says otherwise
	Fits     []Fits        // how well the print follows each measure, best first
}

// Movements says how grade point k gets to where it is wanted, across and
// along.
func (fit *Fit) Movements(k int, t model.Target) [2]Movement {
	var out [2]Movement
	if fit.piece.OneForAll {
		return out
	}
	p := fit.points[k]
	w := fit.aim(t)
	if fit.cutting != nil {
		return fit.cutMovements(k, w)
	}
	byChart, bySteps := w, w
	byChart.method, bySteps.method = model.ByChart, model.BySteps
	chart, steps := p.place(fit.print, fit.frame, byChart), p.place(fit.print, fit.frame, bySteps)
	for a, place := range p.wants(w) {
		from := fit.print.nearest(place)
		m := Movement{
			Follows: p.rates[a].measure, PerStep: p.rates[a].perStep, Residual: p.rates[a].residual,
			Proposed: p.proposed[a], Fits: p.fits[a],
			From: fit.From(place), ByChart: chart[a] - p.at[from][a], BySteps: steps[a] - p.at[from][a],
		}
		for i := 0; i+1 < len(p.at); i++ {
			m.Gaps = append(m.Gaps, p.at[i+1][a]-p.at[i][a])
		}
		out[a] = m
	}
	return out
}
