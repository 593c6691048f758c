package edit

import (
	"slices"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// lieOnLine is how near, in mm, a grade point lies to a straight line to be on
// it: far below any line on paper.
const lieOnLine = 1e-6

// KeepCurve has an edge keep, between its computed ends, the curve of the
// nearest printed size, that of the printed size named, or none: straight. What
// the hand did to the curve before goes, for it was made on another one.
func KeepCurve(piece, edge string, kind model.CurveKind, size string) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			if q.EdgeIndex(edge) < 0 {
				return q, words.Errorf("%s has no such edge", q.Name)
			}
			switch kind {
			case model.PrintedCurve:
				if _, ok := q.Printed(size); !ok {
					return q, words.Errorf("%s is not printed in size %s", q.Name, size)
				}
			case model.NearestCurve, model.StraightCurve:
				size = ""
			default:
				return q, words.Error("choose the curve of the nearest size, of a printed size, or a straight line")
			}
			q.Hand = withCurve(q.Hand, model.EdgeCurve{Edge: edge, Kind: kind, Size: size})
			return q, nil
		})
	}
}

func withCurve(h model.Hand, c model.EdgeCurve) model.Hand {
	h.Curves = put(h.Curves, c, func(o model.EdgeCurve) bool { return o.Edge == c.Edge }, false)
	h.Shapes = without(h.Shapes, func(s model.EdgeShape) bool { return s.Edge == c.Edge })
	return h
}

// TrendCurve lets an edge follow the printed trend again.
func TrendCurve(piece, edge string) func(model.Pattern) (model.Pattern, error) {
	return onHand(piece, func(h model.Hand) model.Hand {
		h.Curves = without(h.Curves, func(c model.EdgeCurve) bool { return c.Edge == edge })
		return h
	})
}

// Straighten makes the line straight from one grade point to another, the
// shorter way round as r has it graded: every edge between becomes straight,
// and the points between are brought onto the straight line, square to it. An
// edge that was shifted parallel, a locked point off the line, and a line that
// turns back are errors.
func Straighten(piece, pointA, pointB string, r grading.Result) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		i := p.PieceIndex(piece)
		if i < 0 {
			return p, words.Errorf("the pattern has no piece %q", piece)
		}
		q := p.Pieces[i]
		line, err := gradedEdges(q, r)
		if err != nil {
			return p, err
		}
		a, b := q.PointIndex(pointA), q.PointIndex(pointB)
		if a < 0 || b < 0 || a == b {
			return p, words.Errorf("choose two grade points of %s", q.Name)
		}
		if way(line, a, b) > way(line, b, a) {
			a, b = b, a
		}
		return straightened(p, q, line, a, b)
	}
}

// gradedEdges is the line of q in r.
func gradedEdges(q model.Piece, r grading.Result) ([]geom.Path, error) {
	for _, g := range r.Pieces {
		if g.ID == q.ID && len(g.Edges) == len(q.Edges) {
			return g.Edges, nil
		}
	}
	return nil, words.Errorf("%s is not graded yet", q.Name)
}

// way is how far it is from point a to point b, walking the outline, in mm
// from point to point.
func way(line []geom.Path, a, b int) float64 {
	var sum float64
	for k := a; k != b; k = (k + 1) % len(line) {
		sum += line[k].Start().Dist(line[k].End())
	}
	return sum
}

// straightened makes the line straight from point a on to point b.
func straightened(p model.Pattern, q model.Piece, line []geom.Path, a, b int) (model.Pattern, error) {
	n := len(line)
	from, chord := line[a].Start(), line[b].Start().Sub(line[a].Start())
	was, hand, several := 0.0, q.Hand, (a+1)%n != b
	for k := a; k != b; k = (k + 1) % n {
		shifted := slices.ContainsFunc(hand.Shifts, func(s model.EdgeShift) bool { return s.Edge == q.Edges[k].ID })
		if shifted && several {
			return p, words.Errorf("%s was moved as a whole; take that back before straightening over it", edgeName(q, k))
		}
		hand = withCurve(hand, model.EdgeCurve{Edge: q.Edges[k].ID, Kind: model.StraightCurve})
		share := line[k].End().Sub(from).Dot(chord) / chord.Dot(chord)
		if !(share > was) {
			return p, words.Errorf("the line turns back between %s and %s; straighten it in parts", pointName(q, a), pointName(q, b))
		}
		was = share
	}
	q.Hand = hand
	out := p.WithPiece(p.PieceIndex(q.ID), func(model.Piece) model.Piece { return q })
	for k := (a + 1) % n; k != b; k = (k + 1) % n {
		at := line[k].Start()
		v := from.Add(chord.Scale(at.Sub(from).Dot(chord) / chord.Dot(chord))).Sub(at)
		if v.Len() <= lieOnLine {
			continue
		}
		var err error
		if out, err = MovePoint(q.ID, q.Points[k].ID, v)(out); err != nil {
			return p, err
		}
	}
	return out, nil
}
