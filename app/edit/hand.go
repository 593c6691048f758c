package edit

import (
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// onPiece changes the piece with that ID.
func onPiece(p model.Pattern, piece string, f func(model.Piece) (model.Piece, error)) (model.Pattern, error) {
	i := p.PieceIndex(piece)
	if i < 0 {
		return p, words.Errorf("the pattern has no piece %q", piece)
	}
	q, err := f(p.Pieces[i])
	if err != nil {
		return p, err
	}
	return p.WithPiece(i, func(model.Piece) model.Piece { return q }), nil
}

// MovePoint shifts a grade point of the line as graded by v, on top of what the
// hand did before. Where the pattern keeps stages, the move belongs to the size
// it is made at (see Stages). A locked point is an error in plain words.
func MovePoint(piece, point string, v geom.Vec) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			k := q.PointIndex(point)
			if k < 0 {
				return q, words.Errorf("%s has no such grade point", q.Name)
			}
			if q.Points[k].Locked {
				return q, words.Errorf("%s of %s is locked", pointName(q, k), q.Name)
			}
			at := stageAt(p, q)
			q.Hand.Moves = addMove(q.Hand.Moves, model.PointMove{Point: point, By: v.Scale(at.times), Stage: at.stage})
			return q, nil
		})
	}
}

func pointName(q model.Piece, k int) string {
	if n := q.Points[k].Name; n != "" {
		return n
	}
	return words.F("point %d", k+1)
}

func edgeName(q model.Piece, j int) string {
	if n := q.Edges[j].Name; n != "" {
		return n
	}
	return words.F("edge %d", j+1)
}

// addMove adds a move to that of the same point, stage and style.
func addMove(moves []model.PointMove, add model.PointMove) []model.PointMove {
	same := func(m model.PointMove) bool {
		return m.Point == add.Point && m.Stage == add.Stage && m.Style == add.Style
	}
	if i := slices.IndexFunc(moves, same); i >= 0 {
		add.By = add.By.Add(moves[i].By)
	}
	return put(moves, add, same, add.By.IsZero())
}

// put is list with add in the place of the one that is the same, or at the end;
// where nothing is left to correct, without it.
func put[T any](list []T, add T, same func(T) bool, nothing bool) []T {
	if nothing {
		return without(list, same)
	}
	out := slices.Clone(list)
	if i := slices.IndexFunc(out, same); i >= 0 {
		out[i] = add
		return out
	}
	return append(out, add)
}

// without is list less those that are gone; nil when nothing is left, as a
// piece without corrections has.
func without[T any](list []T, gone func(T) bool) []T {
	var out []T
	for _, v := range list {
		if !gone(v) {
			out = append(out, v)
		}
	}
	return out
}

// MoveControl shifts inner control point number control (1 up) of an edge's
// computed path by v. At a joint of two cubics the handles on both sides go
// along, so that the line stays smooth there. Stages are kept as by MovePoint.
func MoveControl(piece, edge string, control int, v geom.Vec) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			if q.EdgeIndex(edge) < 0 || control < 1 {
				return q, words.Errorf("%s has no such curve handle", q.Name)
			}
			at := stageAt(p, q)
			shape := model.EdgeShape{Edge: edge, Stage: at.stage}
			same := func(s model.EdgeShape) bool { return s.Edge == edge && s.Stage == at.stage }
			if i := slices.IndexFunc(q.Hand.Shapes, same); i >= 0 {
				shape.By = slices.Clone(q.Hand.Shapes[i].By)
			}
			shift := func(k int) {
				for len(shape.By) < k {
					shape.By = append(shape.By, geom.Vec{})
				}
				shape.By[k-1] = shape.By[k-1].Add(v.Scale(at.times))
			}
			shift(control)
			if control%3 == 0 {
				shift(control - 1)
				shift(control + 1)
			}
			q.Hand.Shapes = put(q.Hand.Shapes, shape, same, false)
			return q, nil
		})
	}
}

// MoveEdge shifts both ends of an edge by v, and with them the whole edge.
func MoveEdge(piece, edge string, v geom.Vec) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		i := p.PieceIndex(piece)
		if i < 0 {
			return p, words.Errorf("the pattern has no piece %q", piece)
		}
		q := p.Pieces[i]
		j := q.EdgeIndex(edge)
		if j < 0 {
			return p, words.Errorf("%s has no such edge", q.Name)
		}
		moved, err := MovePoint(piece, q.Points[j].ID, v)(p)
		if err == nil {
			moved, err = MovePoint(piece, q.Points[(j+1)%len(q.Points)].ID, v)(moved)
		}
		if err != nil {
			return p, err
		}
		return moved, nil
	}
}

// TakeBackPoint removes all that the hand did to one grade point.
func TakeBackPoint(piece, point string) func(model.Pattern) (model.Pattern, error) {
	return onHand(piece, func(h model.Hand) model.Hand {
		h.Moves = without(h.Moves, func(m model.PointMove) bool { return m.Point == point })
		h.Through = without(h.Through, func(id string) bool { return id == point })
		return h
	})
}

// TakeBackEdge removes all that the hand did to one edge between its ends.
func TakeBackEdge(piece, edge string) func(model.Pattern) (model.Pattern, error) {
	return onHand(piece, func(h model.Hand) model.Hand {
		h.Curves = without(h.Curves, func(c model.EdgeCurve) bool { return c.Edge == edge })
		h.Shapes = without(h.Shapes, func(s model.EdgeShape) bool { return s.Edge == edge })
		h.Shifts = without(h.Shifts, func(s model.EdgeShift) bool { return s.Edge == edge })
		return h
	})
}

// onHand changes the corrections of the piece with that ID; f replaces slices.
func onHand(piece string, f func(model.Hand) model.Hand) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			q.Hand = f(q.Hand)
			return q, nil
		})
	}
}

// LockPoint locks a grade point against the hand, or frees it.
func LockPoint(piece, point string, locked bool) func(model.Pattern) (model.Pattern, error) {
	return onPoint(piece, point, func(g model.GradePoint) model.GradePoint {
		g.Locked = locked
		return g
	})
}

// onPoint changes the grade point with that ID.
func onPoint(piece, point string, f func(model.GradePoint) model.GradePoint) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			k := q.PointIndex(point)
			if k < 0 {
				return q, words.Errorf("%s has no such grade point", q.Name)
			}
			q.Points = slices.Clone(q.Points)
			q.Points[k] = f(q.Points[k])
			return q, nil
		})
	}
}
