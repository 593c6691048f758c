package edit

import (
	"fmt"
	"slices"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// onPiece changes the piece with that ID.
func onPiece(p model.Pattern, piece string, f func(model.Piece) (model.Piece, error)) (model.Pattern, error) {
	i := p.PieceIndex(piece)
	if i < 0 {
		return p, fmt.Errorf("the pattern has no piece %q", piece)
	}
	q, err := f(p.Pieces[i])
	if err != nil {
		return p, err
	}
	return p.WithPiece(i, func(model.Piece) model.Piece { return q }), nil
}

// MovePoint shifts a grade point of the computed line by v, on top of what the
// hand did before. A locked point is an error in plain words.
func MovePoint(piece, point string, v geom.Vec) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			k := q.PointIndex(point)
			if k < 0 {
				return q, fmt.Errorf("%s has no such grade point", q.Name)
			}
			if q.Points[k].Locked {
				return q, fmt.Errorf("%s of %s is locked", pointName(q, k), q.Name)
			}
			q.Hand.Moves = addMove(q.Hand.Moves, point, v)
			return q, nil
		})
	}
}

func pointName(q model.Piece, k int) string {
	if n := q.Points[k].Name; n != "" {
		return n
	}
	return fmt.Sprintf("point %d", k+1)
}

func addMove(moves []model.PointMove, point string, v geom.Vec) []model.PointMove {
	out := slices.Clone(moves)
	i := slices.IndexFunc(out, func(m model.PointMove) bool { return m.Point == point })
	if i < 0 {
		out = append(out, model.PointMove{Point: point})
		i = len(out) - 1
	}
	out[i].By = out[i].By.Add(v)
	if out[i].By.IsZero() {
		out = slices.Delete(out, i, i+1)
	}
	return out
}

// MoveControl shifts inner control point number control (1 up) of an edge's
// computed path by v. At a joint of two cubics the handles on both sides go
// along, so that the line stays smooth there.
func MoveControl(piece, edge string, control int, v geom.Vec) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			if q.EdgeIndex(edge) < 0 || control < 1 {
				return q, fmt.Errorf("%s has no such curve handle", q.Name)
			}
			shapes := slices.Clone(q.Hand.Shapes)
			i := slices.IndexFunc(shapes, func(s model.EdgeShape) bool { return s.Edge == edge })
			if i < 0 {
				shapes = append(shapes, model.EdgeShape{Edge: edge})
				i = len(shapes) - 1
			}
			by := slices.Clone(shapes[i].By)
			shift := func(k int) {
				for len(by) < k {
					by = append(by, geom.Vec{})
				}
				by[k-1] = by[k-1].Add(v)
			}
			shift(control)
			if control%3 == 0 {
				shift(control - 1)
				shift(control + 1)
			}
			shapes[i].By = by
			q.Hand.Shapes = shapes
			return q, nil
		})
	}
}

// MoveEdge shifts both ends of an edge by v, and with them the whole edge.
func MoveEdge(piece, edge string, v geom.Vec) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		i := p.PieceIndex(piece)
		if i < 0 {
			return p, fmt.Errorf("the pattern has no piece %q", piece)
		}
		q := p.Pieces[i]
		j := q.EdgeIndex(edge)
		if j < 0 {
			return p, fmt.Errorf("%s has no such edge", q.Name)
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

// TakeBackPoint removes the hand's move of one grade point.
func TakeBackPoint(piece, point string) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			q.Hand.Moves = slices.DeleteFunc(slices.Clone(q.Hand.Moves), func(m model.PointMove) bool { return m.Point == point })
			return q, nil
		})
	}
}

// TakeBackEdge removes the hand's shaping of one edge.
func TakeBackEdge(piece, edge string) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			q.Hand.Shapes = slices.DeleteFunc(slices.Clone(q.Hand.Shapes), func(s model.EdgeShape) bool { return s.Edge == edge })
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
				return q, fmt.Errorf("%s has no such grade point", q.Name)
			}
			q.Points = slices.Clone(q.Points)
			q.Points[k] = f(q.Points[k])
			return q, nil
		})
	}
}
