package grading

import (
	"quarterstep/model"
	"quarterstep/model/geom"
)

// straightTol is how far, in mm, an edge may bow and still be redrawn straight
// when one of its ends is moved by hand.
const straightTol = 0.01

// layHand lays the sewist's corrections of piece q on its computed edges and
// returns the corrected edges. Locked points and points that are gone stay.
func layHand(q model.Piece, edges []geom.Path) []geom.Path {
	if q.Hand.IsZero() {
		return edges
	}
	n := len(edges)
	moved := make([]geom.Vec, n)
	for _, m := range q.Hand.Moves {
		if k := q.PointIndex(m.Point); k >= 0 && !q.Points[k].Locked {
			moved[k] = moved[k].Add(m.By)
		}
	}
	out := make([]geom.Path, n)
	for j, e := range edges {
		out[j] = e.CarryEnds(moved[j], moved[(j+1)%n], straightTol)
	}
	for _, s := range q.Hand.Shapes {
		if j := q.EdgeIndex(s.Edge); j >= 0 {
			out[j] = reshape(out[j], s.By)
		}
	}
	return out
}

// reshape shifts the inner control points of p.
func reshape(p geom.Path, by []geom.Vec) geom.Path {
	ctl := p.Controls()
	for k, v := range by {
		if k+1 >= len(ctl)-1 {
			break
		}
		ctl[k+1] = ctl[k+1].Add(v)
	}
	return geom.FromControls(ctl)
}
