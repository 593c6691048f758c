package grading

import (
	"quarterstep/model"
	"quarterstep/model/geom"
)

// straightTol is how far, in mm, an edge may bow and still be redrawn straight
// when one of its ends is moved by hand.
const straightTol = 0.01

// laid is a piece's line with the sewist's corrections on it.
type laid struct {
	edges   []geom.Path
	handles [][]geom.Point // see Piece.Handles
	unlaid  string         // see Piece.Unlaid
}

// layHand lays the corrections of piece q on the edges computed for a place of
// chart c, in the order of model.Hand's fields. Without corrections the edges
// are the very same. Locked points, and points and edges that are gone, stay.
func layHand(q model.Piece, c model.SizeChart, place float64, edges []geom.Path) laid {
	if q.Hand.IsZero() {
		return laid{edges: edges}
	}
	share := func(stage string) float64 { return StageShare(q, c, stage, place) }
	like := make([]geom.Path, len(edges))
	for j := range like {
		like[j] = q.Nest[len(q.Nest)-1].Edges[j]
	}
	out := layCurves(q, c, place, edges, like)
	out = layMoves(q, out, like, share)
	for _, s := range q.Hand.Shapes {
		if j := q.EdgeIndex(s.Edge); j >= 0 {
			out[j] = reshape(out[j], s.By, share(s.Stage))
		}
	}
	l := layShifts(q, out, share)
	for _, id := range q.Hand.Through {
		if k := q.PointIndex(id); k >= 0 {
			smoothThrough(q, l.edges, k)
		}
	}
	return l
}

// layCurves gives edges the curves chosen for them, and sets in like the line
// that each of them goes along as when its ends are moved.
func layCurves(q model.Piece, c model.SizeChart, place float64, edges, like []geom.Path) []geom.Path {
	out := append([]geom.Path(nil), edges...)
	for _, e := range q.Hand.Curves {
		j := q.EdgeIndex(e.Edge)
		if j < 0 {
			continue
		}
		if like[j] = curveOf(q, c, place, e, j); like[j] != nil {
			out[j] = takeCurve(like[j], edges[j])
		} else {
			out[j] = geom.Path{geom.Line(edges[j].Start(), edges[j].End())}
		}
	}
	return out
}

// layMoves moves grade points, and the edges with them.
func layMoves(q model.Piece, edges, like []geom.Path, share func(string) float64) []geom.Path {
	n := len(edges)
	moved := make([]geom.Vec, n)
	for _, m := range q.Hand.Moves {
		if k := q.PointIndex(m.Point); k >= 0 && !q.Points[k].Locked {
			moved[k] = moved[k].Add(m.By.Scale(share(m.Stage)))
		}
	}
	for j, e := range edges {
		edges[j] = e.CarryEndsAs(like[j], moved[j], moved[(j+1)%n], straightTol)
	}
	return edges
}

// reshape shifts the inner control points of p by a share of by.
func reshape(p geom.Path, by []geom.Vec, share float64) geom.Path {
	ctl := p.Controls()
	for k, v := range by {
		if k+1 >= len(ctl)-1 {
			break
		}
		ctl[k+1] = ctl[k+1].Add(v.Scale(share))
	}
	return geom.FromControls(ctl)
}
