package app

import (
	"quarterstep/model"
	"quarterstep/model/geom"
)

// gapOnTable is how far apart pieces are laid, and rowOnTable how wide a row of
// them may grow, mm.
const (
	gapOnTable = 120.0
	rowOnTable = 2200.0
)

// spread lays pieces out on the Table in rows where they were drawn on top of
// each other; pieces drawn apart stay where they are.
func spread(pieces []model.Piece) []model.Piece {
	boxes := make([]geom.Box, len(pieces))
	apart := true
	for i, q := range pieces {
		boxes[i] = nestBox(q)
		for k := range i {
			apart = apart && !boxes[i].Intersects(boxes[k])
		}
	}
	if apart {
		return pieces
	}
	out := append([]model.Piece{}, pieces...)
	var x, y, deep float64
	for i, b := range boxes {
		if x > 0 && x+b.Width() > rowOnTable {
			x, y, deep = 0, y+deep+gapOnTable, 0
		}
		out[i].At = geom.Pt(x, y).Sub(b.Min)
		x += b.Width() + gapOnTable
		deep = max(deep, b.Height())
	}
	return out
}

// nestBox is the box of all printed sizes of q, in its own coordinates.
func nestBox(q model.Piece) geom.Box {
	var b geom.Box
	for _, o := range q.Nest {
		for _, e := range o.Edges {
			b = b.Union(e.Bounds())
		}
	}
	return b
}
