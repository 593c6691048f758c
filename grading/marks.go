package grading

import (
	"quarterstep/grading/nest"
	"quarterstep/model"
	"quarterstep/model/geom"
)

const arcTol = 1e-3

// apexes is the tip of every dart of q at its target, before its length.
func apexes(q model.Piece, fit *nest.Fit, t model.Target) []geom.Point {
	out := make([]geom.Point, len(q.Darts))
	for i := range out {
		out[i], _, _ = fit.Apex(i, t)
	}
	return out
}

// mark places lines, notches and darts on the piece's new line, with what was
// put into its length.
func mark(r *Piece, q model.Piece, fit *nest.Fit, t model.Target, long *lengthened, darts laidDarts) error {
	for i, path := range fit.Lines(t) {
		l := q.Lines[i]
		r.Lines = append(r.Lines, Line{ID: l.ID, Name: l.Name, Kind: l.Kind, Path: long.path(l.Kind, path)})
	}
	inward := 1.0
	if r.Outline().Area() < 0 {
		inward = -1
	}
	for i, m := range q.Notches {
		edge, share := fit.NotchShare(i, t)
		on, err := geom.Measure(r.Edges[edge], arcTol)
		if err != nil {
			return err
		}
		if share, err = long.notch(edge, share); err != nil {
			return err
		}
		s := share * on.Length()
		r.Notches = append(r.Notches, Notch{
			ID: m.ID, Edge: edge, Double: m.Double,
			At: on.At(s), In: on.Tangent(s).Perp().Scale(inward),
		})
	}
	tips := apexes(q, fit, t)
	for i, p := range tips {
		tips[i] = long.line.At(p)
	}
	r.Darts = darts.darts(q, r, tips)
	return nil
}

// increments says how each grade point of q got to its place on r.
func increments(q model.Piece, fit *nest.Fit, t model.Target, r *Piece) []Increment {
	out := make([]Increment, len(q.Points))
	for k, g := range q.Points {
		move := fit.Movements(k, t)
		across, along := q.AcrossAlong(r.Edges[k].Start().Sub(r.Base[k].Start()))
		out[k] = Increment{
			Point: g.ID, Name: g.Name, From: move[0].From,
			Across: share(move[0], t.Method, across), Along: share(move[1], t.Method, along),
		}
	}
	return out
}

func share(m nest.Movement, method model.Method, hand float64) Share {
	s := Share{
		Follows: m.Follows, From: m.From, Gaps: m.Gaps, Step: m.PerStep,
		ByChart: m.ByChart, BySteps: m.BySteps, Hand: hand, Residual: m.Residual,
		Proposed: m.Proposed, Fits: m.Fits,
	}
	s.Total = s.ByChart + hand
	if method == model.BySteps {
		s.Total = s.BySteps + hand
	}
	return s
}
