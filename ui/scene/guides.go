package scene

import (
	"quarterstep/model"
	"quarterstep/model/geom"
)

// guides draws the sizes on the way to the size wanted, for the piece in hand:
// thin lines of the accent, each with its number on the edge where the printed
// sizes have theirs, one further on than the other.
func (l *Layer) guides(in Input, q model.Piece, m geom.Affine) {
	if q.ID != in.Select.Piece {
		return
	}
	numbered, _ := widestEdge(q, 20*float64(len(in.Guides))/in.Scale)
	for i, g := range in.Guides {
		for _, e := range g.Edges {
			l.Lines = append(l.Lines, Line{
				Path: e.Transform(m), Width: 1, Dash: []float64{7, 3}, Ink: InkAccent, Alpha: 0.75,
			})
		}
		if numbered < 0 {
			continue
		}
		share := guideNumberAt + float64(i)*18/(reach(g.Edges[numbered])*in.Scale)
		at, _ := along(g.Edges[numbered].Transform(m), min(share, 0.9))
		l.Texts = append(l.Texts, Text{Words: g.Size, At: at, Size: 12, Ink: InkAccent, Halo: in.ground()})
	}
}

// guideNumberAt is where along its edge the first guide has its number, clear of
// the printed sizes' numbers.
const guideNumberAt = 0.12
