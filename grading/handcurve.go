package grading

import (
	"math"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// curveOf is the printed curve that edge j of q is to take, nil for a straight
// line.
func curveOf(q model.Piece, c model.SizeChart, place float64, e model.EdgeCurve, j int) geom.Path {
	switch e.Kind {
	case model.NearestCurve:
		return nearestPrinted(q, c, place).Edges[j]
	case model.PrintedCurve:
		if o, ok := q.Printed(e.Size); ok {
			return o.Edges[j]
		}
	}
	return nil
}

// nearestPrinted is the outline with the size nearest to a place; of two as
// near, the smaller.
func nearestPrinted(q model.Piece, c model.SizeChart, place float64) model.Outline {
	best, least := q.Nest[0], math.Inf(1)
	for _, o := range q.Nest {
		for _, size := range o.Sizes() {
			if p, ok := c.Place(size); ok && math.Abs(float64(p)-place) < least {
				best, least = o, math.Abs(float64(p)-place)
			}
		}
	}
	return best
}

// takeCurve lays a printed curve between the ends of the computed line: turned
// and scaled as a whole, for that is what keeps its character however far the
// ends have gone apart, and then its handles at the two ends turned to the
// directions of the computed line, which are square to the fold, and smooth at
// a match point, where the printed sizes are. Where the computed ends are the
// printed ones it is the printed curve itself.
func takeCurve(printed, computed geom.Path) geom.Path {
	start, end := computed.Start(), computed.End()
	chord, was := end.Sub(start), printed.End().Sub(printed.Start())
	if was.IsZero() {
		return computed
	}
	if start == printed.Start() && end == printed.End() {
		return printed
	}
	re, im := was.Dot(chord)/was.Dot(was), was.Cross(chord)/was.Dot(was)
	turn := geom.Affine{A: re, B: im, C: -im, D: re}
	ctl := printed.Controls()
	for k := range ctl {
		ctl[k] = start.Add(turn.ApplyVec(ctl[k].Sub(printed.Start())))
	}
	last := len(ctl) - 1
	ctl[last] = end
	if !printed.IsStraight(straightTol) {
		ctl[1] = start.Add(computed.StartDir().Scale(ctl[1].Dist(start)))
		ctl[last-1] = end.Add(computed.EndDir().Scale(-ctl[last-1].Dist(end)))
	}
	return geom.FromControls(ctl)
}
