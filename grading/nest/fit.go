package nest

import (
	"fmt"
	"math"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// arcTol is how exactly edge lengths are measured while reading a nest, mm.
const arcTol = 1e-4

// foldDrift is how far per chart step, in mm, a fold or centre edge may drift
// across itself in print and still be taken as lying still.
const foldDrift = 1.0

// Fit is one piece read: how its points, edges and marks move.
type Fit struct {
	piece   model.Piece
	print   print
	frame   frame
	points  []point
	edges   []edge
	lines   []lineFit
	notches []notchFit
	darts   []dartFit
}

// New reads the nest of piece q against chart. It fails on a piece whose
// printed sizes are not on the chart or are missing.
func New(q model.Piece, chart model.SizeChart) (*Fit, error) {
	fit := &Fit{piece: q, frame: newFrame(q.GrainDir()), print: print{chart: chart}}
	if len(q.Nest) == 0 {
		return nil, fmt.Errorf("%s has no printed size", q.Name)
	}
	for _, o := range q.Nest {
		place, ok := chart.Place(o.Size)
		if !ok {
			return nil, fmt.Errorf("%s is printed in size %s, which chart %s does not have", q.Name, o.Size, chart.Name)
		}
		fit.print.places = append(fit.print.places, place)
	}
	fit.readPoints(Follow(q, chart))
	for j, e := range q.Edges {
		paths := make([]geom.Path, len(q.Nest))
		for i, o := range q.Nest {
			paths[i] = o.Edges[j]
		}
		a, b := fit.points[j], fit.points[(j+1)%len(fit.points)]
		read, err := newEdge(fit.print, fit.frame, paths,
			[2]ends{{a.rates[0], b.rates[0]}, {a.rates[1], b.rates[1]}},
			[2]bool{fit.runsOn(j), fit.runsOn((j + 1) % len(fit.points))}, arcTol)
		if err != nil {
			return nil, fmt.Errorf("%s, %s: %w", q.Name, edgeName(e, j), err)
		}
		fit.edges = append(fit.edges, read)
	}
	return fit, fit.readMarks()
}

// runsOn reports whether the line runs smoothly through grade point k in every
// printed size.
func (fit *Fit) runsOn(k int) bool {
	const slight = 0.02 // radians, about a degree: what a drawing program rounds away
	n := len(fit.points)
	for _, o := range fit.piece.Nest {
		u, v := o.Edges[(k+n-1)%n].EndDir(), o.Edges[k].StartDir()
		if math.Abs(math.Atan2(u.Cross(v), u.Dot(v))) > slight {
			return false
		}
	}
	return true
}

func edgeName(e model.Edge, i int) string {
	if e.Name != "" {
		return e.Name
	}
	return fmt.Sprintf("edge %d", i+1)
}

func (fit *Fit) readPoints(follow []Follows) {
	fit.points = make([]point, len(fit.piece.Points))
	for k := range fit.points {
		at := make([]axes, len(fit.piece.Nest))
		for i, o := range fit.piece.Nest {
			at[i] = fit.frame.of(o.Edges[k].Start())
		}
		fit.points[k] = newPoint(fit.print, at, follow[k])
	}
	for j, e := range fit.piece.Edges {
		if e.Kind == model.Fold || e.Kind == model.Centre {
			fit.holdEdge(j, (j+1)%len(fit.points))
		}
	}
}

// holdEdge keeps the two ends of a fold or centre edge on its own line, unless
// the nest was laid so that the edge moves across itself in print.
func (fit *Fit) holdEdge(i, j int) {
	a, b := &fit.points[i], &fit.points[j]
	last := len(a.at) - 1
	dir := fit.frame.point(b.at[last]).Sub(fit.frame.point(a.at[last])).Unit()
	steps := float64(max(1, fit.print.places[last]-fit.print.places[0]))
	for _, p := range []*point{a, b} {
		moved := fit.frame.point(p.at[last]).Sub(fit.frame.point(p.at[0]))
		if drift := moved.Dot(dir.Perp()); drift > foldDrift*steps || drift < -foldDrift*steps {
			return
		}
	}
	a.slide, b.slide = &dir, &dir
}

// Edges is the piece's line at place t of the chart, edge by edge. exact is
// true at a printed size, where the printed paths themselves are returned.
func (fit *Fit) Edges(t float64, method model.Method) (edges []geom.Path, exact bool) {
	if i, ok := fit.print.at(t); ok {
		return fit.piece.Nest[i].Edges, true
	}
	edges = make([]geom.Path, len(fit.edges))
	n := len(fit.points)
	if i, ok := fit.print.around(t); ok {
		for j, e := range fit.edges {
			edges[j] = e.among(fit.frame, i,
				fit.points[j].shares(fit.print, i, t, method),
				fit.points[(j+1)%n].shares(fit.print, i, t, method))
		}
		return edges, false
	}
	from := fit.print.nearest(t)
	if fit.Frozen() {
		return fit.piece.Nest[from].Edges, false
	}
	grown := make([]axes, n)
	for k := range grown {
		grown[k] = fit.points[k].growth(fit.print, fit.frame, from, t, method)
	}
	for j, e := range fit.edges {
		edges[j] = e.beyond(fit.print, fit.frame, from, t, method, grown[j], grown[(j+1)%n])
	}
	return edges, false
}

// Frozen reports that the piece was printed in one size only, so that nothing
// says how it grows.
func (fit *Fit) Frozen() bool { return len(fit.print.places) < 2 }

// From is the name of the printed size that place t goes on from.
func (fit *Fit) From(t float64) string {
	return fit.piece.Nest[fit.print.nearest(t)].Size
}

// Movement is one direction of how a grade point moves, in mm.
type Movement struct {
	Follows  model.Measure
	Gaps     []float64 // between neighbouring printed sizes
	PerStep  float64   // mean printed gap per chart step
	ByChart  float64   // from the nearest printed size to place t
	BySteps  float64
	Residual float64
}

// Movements says how grade point k gets to place t, across and along.
func (fit *Fit) Movements(k int, t float64) [2]Movement {
	var out [2]Movement
	from := fit.print.nearest(t)
	p := fit.points[k]
	chart := p.place(fit.print, fit.frame, t, model.ByChart)
	steps := p.place(fit.print, fit.frame, t, model.BySteps)
	for a := range 2 {
		m := Movement{
			Follows: p.rates[a].measure, PerStep: p.rates[a].perStep, Residual: p.rates[a].residual,
			ByChart: chart[a] - p.at[from][a], BySteps: steps[a] - p.at[from][a],
		}
		for i := 0; i+1 < len(p.at); i++ {
			m.Gaps = append(m.Gaps, p.at[i+1][a]-p.at[i][a])
		}
		out[a] = m
	}
	return out
}
