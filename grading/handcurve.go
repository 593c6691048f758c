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

// takeCurve lays a printed curve between the ends of the computed line: turned,
// scaled and slanted as a whole, so that it leaves the ends as the computed line
// does, which is square to the fold, and smooth at a match point, where the
// printed sizes are. Moved as a whole it keeps its character however far the
// ends have gone apart, for no such move makes or undoes a bend. Where the
// computed ends are the printed ones it is the printed curve itself.
func takeCurve(printed, computed geom.Path) geom.Path {
	start, end := computed.Start(), computed.End()
	if printed.End() == printed.Start() {
		return computed
	}
	if start == printed.Start() && end == printed.End() {
		return printed
	}
	m := wholeMove(frameOf(printed), frameOf(computed))
	ctl := printed.Controls()
	for k := range ctl {
		ctl[k] = start.Add(m.ApplyVec(ctl[k].Sub(printed.Start())))
	}
	ctl[len(ctl)-1] = end
	return geom.FromControls(ctl)
}

// frame is what a curve is laid by: its chord, and the directions in which it
// leaves its start and its end, towards each other.
type frame struct{ chord, first, last geom.Vec }

func frameOf(p geom.Path) frame {
	return frame{p.End().Sub(p.Start()), p.StartDir(), p.EndDir().Scale(-1)}
}

// What a curve's directions must be like to lay it by them.
const (
	leastTurn  = 0.34 // sine of the angle between the two: 20 degrees
	leastSlant = 0.09 // sine of the angle between one of them and the chord: 5 degrees
	mostUneven = 3.0  // how much more than the chord a side may be scaled
)

// wholeMove takes one frame to another. Where the two directions meet at an
// angle, they and the chord make a triangle, and one triangle is moved onto the
// other. Else the chord and the direction farther from it are moved; and a curve
// that hardly leaves its chord is turned and scaled with it.
func wholeMove(from, to frame) geom.Affine {
	grown := to.chord.Len() / from.chord.Len()
	if m, ok := ontoTriangle(from, to, grown); ok {
		return m
	}
	slant := func(f frame, dir geom.Vec) float64 { return f.chord.Unit().Cross(dir) }
	a, b := from.first, to.first
	if math.Abs(slant(from, from.last)) > math.Abs(slant(from, a)) {
		a, b = from.last, to.last
	}
	if math.Abs(slant(from, a)) >= leastSlant && slant(from, a)*slant(to, b) > 0 {
		return pairs(from.chord, to.chord, a, b.Scale(grown))
	}
	return pairs(from.chord, to.chord, from.chord.Perp(), to.chord.Perp())
}

// ontoTriangle moves the triangle of a chord and the two directions onto
// another; false where there is none, or one side would be scaled much more than
// the chord, which is by grown.
func ontoTriangle(from, to frame, grown float64) (geom.Affine, bool) {
	was, is := from.first.Cross(from.last), to.first.Cross(to.last)
	if math.Abs(was) < leastTurn || was*is <= 0 {
		return geom.Affine{}, false
	}
	// The apex lies at the crossing of the two directions.
	first := to.chord.Cross(to.last) / is * was / from.chord.Cross(from.last)
	last := to.chord.Cross(to.first) / is * was / from.chord.Cross(from.first)
	for _, side := range [2]float64{first / grown, last / grown} {
		if !(side >= 1/mostUneven && side <= mostUneven) {
			return geom.Affine{}, false
		}
	}
	return pairs(from.first, to.first.Scale(first), from.last, to.last.Scale(last)), true
}

// pairs is the linear map that takes u to v and r to s; u and r are not
// parallel.
func pairs(u, v, r, s geom.Vec) geom.Affine {
	den := u.Cross(r)
	x := v.Scale(r.Y / den).Sub(s.Scale(u.Y / den)) // where (1, 0) goes
	y := s.Scale(u.X / den).Sub(v.Scale(r.X / den)) // where (0, 1) goes
	return geom.Affine{A: x.X, B: x.Y, C: y.X, D: y.Y}
}
