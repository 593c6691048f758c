package check

import (
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
)

// takeBack is the action that takes back what the hand did to edges and grade
// points of q, by their indices; Show where it did nothing there.
func takeBack(q model.Piece, edges, points []int) Action {
	out := Action{Do: TakeBack, Label: words.T("Take the correction back"), Piece: q.ID}
	for _, j := range edges {
		if corrected(q.Hand, q.Edges[j].ID) {
			out.Edges = append(out.Edges, q.Edges[j].ID)
		}
	}
	for _, k := range points {
		if moved(q.Hand, q.Points[k].ID) {
			out.Points = append(out.Points, q.Points[k].ID)
		}
	}
	if len(out.Edges)+len(out.Points) == 0 {
		return Action{}
	}
	return out
}

// takeBackAlong is takeBack for the edges of a stretch and all their ends.
func takeBackAlong(q model.Piece, s model.Stretch) Action {
	var edges, points []int
	for _, id := range s.Edges {
		j := q.EdgeIndex(id)
		edges = append(edges, j)
		for _, k := range []int{j, (j + 1) % len(q.Points)} {
			if !slices.Contains(points, k) {
				points = append(points, k)
			}
		}
	}
	return takeBack(q, edges, points)
}

func corrected(h model.Hand, edge string) bool {
	return slices.ContainsFunc(h.Shapes, func(s model.EdgeShape) bool { return s.Edge == edge }) ||
		slices.ContainsFunc(h.Curves, func(c model.EdgeCurve) bool { return c.Edge == edge }) ||
		slices.ContainsFunc(h.Shifts, func(s model.EdgeShift) bool { return s.Edge == edge })
}

func moved(h model.Hand, point string) bool {
	return slices.Contains(h.Through, point) ||
		slices.ContainsFunc(h.Moves, func(m model.PointMove) bool { return m.Point == point })
}
