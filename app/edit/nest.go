package edit

import (
	"quarterstep/assets/words"
	"quarterstep/grading/match"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// AddPoint adds a grade point to a piece where the printed line of size is
// nearest to at (mm, the piece's own coordinates), and in the other sizes at
// the same share of the edge. Links go on holding.
func AddPoint(piece, size string, at geom.Point) func(model.Pattern) (model.Pattern, error) {
	return recut(piece, func(q model.Piece) (model.Piece, error) { return match.AddPoint(q, size, at) })
}

// RemovePoint joins the two edges that meet at a grade point, in every size. A
// link that held only one of them would be lost, so that is an error.
func RemovePoint(piece, point string) func(model.Pattern) (model.Pattern, error) {
	return recut(piece, func(q model.Piece) (model.Piece, error) { return match.RemovePoint(q, point) })
}

// MendPoint moves a grade point of one printed size along that size's line, to
// where it is nearest to at (mm, the piece's own coordinates); the other sizes
// stay.
func MendPoint(piece, point, size string, at geom.Point) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) { return match.MovePoint(q, point, size, at) })
	}
}

// recut changes how a piece is cut into edges and brings the links in line.
func recut(piece string, f func(model.Piece) (model.Piece, error)) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		i := p.PieceIndex(piece)
		if i < 0 {
			return p, words.Errorf("the pattern has no piece %q", piece)
		}
		before := p.Pieces[i]
		after, err := f(before)
		if err != nil {
			return p, err
		}
		kept, lost := match.Relink(p.Links, before, after)
		if len(lost) > 0 {
			return p, words.Errorf("a link of %s holds only one of these edges; it would be lost", before.Name)
		}
		p = p.WithPiece(i, func(model.Piece) model.Piece { return after })
		p.Links, p.Lengths = kept, match.Relength(p.Lengths, before, after)
		return p, nil
	}
}
