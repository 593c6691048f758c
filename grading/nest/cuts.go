package nest

import (
	"math"

	"quarterstep/grading/spread"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// cutting is a piece printed in one size that is cut and spread.
type cutting struct {
	cuts    []model.Cut
	spread  *spread.Spread
	refused error // why the cuts cannot be made
}

// readCuts reads the cuts of a piece printed in one size; nil where it has none.
func readCuts(q model.Piece) *cutting {
	if len(q.Nest) != 1 || q.OneForAll || len(q.Cuts) == 0 {
		return nil
	}
	s, err := spread.Read(q)
	return &cutting{q.Cuts, s, err}
}

// grow is by how many mm each measure grows from the print to the size wanted.
// By steps, every step is as large as the one next to the print.
func (fit *Fit) grow(w aim) func(model.Measure) float64 {
	n := fit.print
	return func(m model.Measure) float64 {
		m = available(n.chart, m)
		t := w.at(m)
		from := n.edge(0, t)
		if w.method != model.BySteps {
			return n.valueAt(t, m) - n.valueAt(from, m)
		}
		next := math.Copysign(1, t-from)
		return math.Abs(t-from) * (n.valueAt(from+next, m) - n.valueAt(from, m))
	}
}

// Opens is by how many mm each cut line of the piece opens at the size wanted,
// below 0 where it is overlapped; nil where the piece is not cut, or cannot be.
func (fit *Fit) Opens(t model.Target) []float64 {
	if fit.cutting == nil || fit.cutting.refused != nil {
		return nil
	}
	grow := fit.grow(fit.aim(t))
	out := make([]float64, len(fit.cutting.cuts))
	for i, c := range fit.cutting.cuts {
		out[i] = c.Share * grow(c.Measure)
	}
	return out
}

// cutEdges is the piece's line once its cuts have opened; where they cannot,
// the printed line and the reason.
func (fit *Fit) cutEdges(w aim) ([]geom.Path, bool, error) {
	printed := fit.piece.Nest[0].Edges
	if fit.cutting.refused != nil {
		return printed, false, fit.cutting.refused
	}
	if _, ok := fit.print.at(w.place); ok && len(w.own) == 0 {
		return printed, true, nil
	}
	edges, err := fit.cutting.spread.Edges(fit.grow(w))
	if err != nil {
		return printed, false, err
	}
	return edges, false, nil
}

// cutMoves is how far a place of the printed paper moves when the cuts open.
func (fit *Fit) cutMoves(p geom.Point, w aim) geom.Vec {
	if fit.cutting.refused != nil {
		return geom.Vec{}
	}
	return fit.cutting.spread.At(p, fit.grow(w))
}

// cutMovements says how grade point k gets to where it is wanted by cuts, and
// which measure most of it is for.
func (fit *Fit) cutMovements(k int, w aim) [2]Movement {
	at := fit.piece.Nest[0].Edges[k].Start()
	byChart, bySteps := w, w
	byChart.method, bySteps.method = model.ByChart, model.BySteps
	oneStep := aim{place: fit.print.lines[0].hi + 1}
	chart, steps := fit.frame.dir(fit.cutMoves(at, byChart)), fit.frame.dir(fit.cutMoves(at, bySteps))
	step := fit.frame.dir(fit.cutMoves(at, oneStep))
	var out [2]Movement
	for a := range out {
		m := fit.cutMeasure(at, a)
		out[a] = Movement{
			Follows: m, Proposed: m, From: fit.From(w.at(m)),
			PerStep: step[a], ByChart: chart[a], BySteps: steps[a],
		}
	}
	return out
}

// cutMeasure is the measure whose cuts move a place most in direction a per
// step of the chart; steps where none does.
func (fit *Fit) cutMeasure(p geom.Point, a int) model.Measure {
	best, most := model.Steps, 0.0
	if fit.cutting.refused != nil {
		return best
	}
	all := fit.grow(aim{place: fit.print.lines[0].hi + 1})
	for _, c := range fit.cutting.cuts {
		only := func(m model.Measure) float64 {
			if m == c.Measure {
				return all(m)
			}
			return 0
		}
		if by := math.Abs(fit.frame.dir(fit.cutting.spread.At(p, only))[a]); by > most+1e-9 {
			best, most = available(fit.print.chart, c.Measure), by
		}
	}
	return best
}

// cutPath is a line on the piece once the cuts have opened: carried by its two
// ends, for a cut through it would break it.
func (fit *Fit) cutPath(p geom.Path, w aim) geom.Path {
	if len(p) == 0 {
		return p
	}
	return p.CarryEnds(fit.cutMoves(p.Start(), w), fit.cutMoves(p.End(), w), drawnWithin)
}
