package edit

import (
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
)

// ShiftEdge moves a whole edge parallel to itself by out mm, out of the piece
// or, below 0, into it, on top of what it was shifted before. Stages are kept as
// by MovePoint. An edge with a locked end is an error.
func ShiftEdge(piece, edge string, out float64) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			j := q.EdgeIndex(edge)
			if j < 0 {
				return q, words.Errorf("%s has no such edge", q.Name)
			}
			for _, k := range []int{j, (j + 1) % len(q.Points)} {
				if q.Points[k].Locked {
					return q, words.Errorf("%s of %s is locked", pointName(q, k), q.Name)
				}
			}
			at := stageAt(p, q)
			shift := model.EdgeShift{Edge: edge, Out: out * at.times, Stage: at.stage}
			same := func(s model.EdgeShift) bool { return s.Edge == edge && s.Stage == at.stage }
			if i := slices.IndexFunc(q.Hand.Shifts, same); i >= 0 {
				shift.Out += q.Hand.Shifts[i].Out
			}
			q.Hand.Shifts = put(q.Hand.Shifts, shift, same, shift.Out == 0)
			return q, nil
		})
	}
}

// SmoothThrough makes the line run smoothly through a grade point; at the end of
// a fold or centre line, square to it.
func SmoothThrough(piece, point string) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			if q.PointIndex(point) < 0 {
				return q, words.Errorf("%s has no such grade point", q.Name)
			}
			q.Hand.Through = put(q.Hand.Through, point, func(id string) bool { return id == point }, false)
			return q, nil
		})
	}
}
