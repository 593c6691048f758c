package grading

import (
	"quarterstep/grading/link"
	"quarterstep/grading/nest"
	"quarterstep/grading/seam"
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

// stages is what each step of grading left of one piece.
type stages struct {
	fit   *nest.Fit
	long  lengthened
	darts laidDarts
	gave  *link.Piece // nil where it did not give way for a seam
	spots []seam.Spot // of its notches
}

// spot finds where the notches of q are on its edges by its own grading, with
// what was put into its length.
func (s *stages) spot(q model.Piece, edges []geom.Path, t model.Target) error {
	s.spots = make([]seam.Spot, len(q.Notches))
	for i := range q.Notches {
		edge, share := s.fit.NotchShare(i, t)
		whole, err := edges[edge].Length(arcTol)
		if err != nil {
			return err
		}
		if share, err = s.long.notch(edge, share); err != nil {
			return err
		}
		s.spots[i] = seam.Spot{S: share * whole, Marked: true}
	}
	return nil
}

// mark places lines, notches and darts on the piece's new line.
func (s *stages) mark(r *Piece, q model.Piece, t model.Target) error {
	for i, path := range s.fit.Lines(t) {
		l := q.Lines[i]
		path = s.long.path(l.Kind, path)
		if s.gave != nil {
			path = s.gave.Mark(path)
		}
		r.Lines = append(r.Lines, Line{ID: l.ID, Name: l.Name, Kind: l.Kind, Path: path})
	}
	inward := 1.0
	if r.Outline().Area() < 0 {
		inward = -1
	}
	for i, m := range q.Notches {
		edge := q.EdgeIndex(m.Edge)
		on, err := geom.Measure(r.Edges[edge], arcTol)
		if err != nil {
			return err
		}
		at := s.spots[i].S
		r.Notches = append(r.Notches, Notch{
			ID: m.ID, Edge: edge, Double: m.Double, S: at,
			At: on.At(at), In: on.Tangent(at).Perp().Scale(inward),
		})
	}
	tips := apexes(q, s.fit, t)
	for i, p := range tips {
		tips[i] = s.long.line.At(p)
	}
	r.Darts = s.darts.darts(q, r, tips)
	return nil
}

// increments says how each grade point of q got to its place on r.
func increments(q model.Piece, fit *nest.Fit, t model.Target, r *Piece, long *lengthened) []Increment {
	out := make([]Increment, len(q.Points))
	for k, g := range q.Points {
		move := fit.Movements(k, t)
		across, along := q.AcrossAlong(r.Edges[k].Start().Sub(r.Base[k].Start()))
		out[k] = Increment{
			Point: g.ID, Name: g.Name, From: move[0].From,
			Across: share(move[0], t.Method, across), Along: share(move[1], t.Method, along),
		}
		out[k].Across.Length, out[k].Along.Length = q.AcrossAlong(long.base[k].Start().Sub(long.plain[k].Start()))
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
