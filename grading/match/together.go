package match

import (
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// apartBy is how far apart, as a share of their extent, the middles of two
// sizes lie when they are not printed one inside the other.
const apartBy = 0.4

// together lays the sizes of a piece that are drawn beside each other into each
// other, at the upper end of the centre line or, without one, at the first
// grade point. A nest is left as it is.
func (n *nest) together(q model.Piece) model.Piece {
	apart := -1
	for i := 1; i < len(n.rings); i++ {
		a, b := n.rings[i-1], n.rings[i]
		if a.centre.Dist(b.centre) > apartBy*min(a.extent, b.extent) {
			apart = i
		}
	}
	if apart < 0 {
		return q
	}
	hold := holdAt(q)
	to := q.Nest[0].Edges[hold].Start()
	n.doubt(apart, q.Nest[apart].Edges[hold].Start(), words.T("The sizes of this piece are drawn apart. They were laid into each other here; check that they should meet at this place."))
	moves := make([]geom.Vec, len(q.Nest))
	for i, o := range q.Nest {
		moves[i] = to.Sub(o.Edges[hold].Start())
	}
	return moved(q, moves)
}

// holdAt is the grade point at which sizes are laid together.
func holdAt(q model.Piece) int {
	for k, e := range q.Edges {
		if e.Kind != model.Centre && e.Kind != model.Fold {
			continue
		}
		edge := q.Nest[0].Edges[k]
		if _, along := q.AcrossAlong(edge.End().Sub(edge.Start())); along < 0 {
			return (k + 1) % len(q.Edges)
		}
		return k
	}
	return 0
}
