package edit

import (
	"fmt"
	"slices"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/grading/seam"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/glossary"
)

// notchTol bounds the place of a notch, mm.
const notchTol = 1e-3

// AddNotch marks a notch on an edge of a piece at a share of its length, 0 to 1
// from the edge's start, in every printed size, and its mate on every edge it
// is sewn to. Notches of a back piece or edge, and their mates, are double, as
// is usual in the trade.
func AddNotch(piece, edge string, share float64) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		i := p.PieceIndex(piece)
		if i < 0 || p.Pieces[i].EdgeIndex(edge) < 0 {
			return p, words.Error("there is no such edge to notch")
		}
		q := p.Pieces[i]
		n := model.Notch{ID: freeNotchID(q), Edge: edge}
		for _, o := range q.Nest {
			long, err := o.Edges[q.EdgeIndex(edge)].Length(notchTol)
			if err != nil {
				return p, words.Errorf("notching %s: %w", q.Name, err)
			}
			n.Spots = append(n.Spots, model.Spot{Size: o.Size, S: min(max(share, 0), 1) * long})
		}
		mates, err := matesOf(p, i, n)
		if err != nil {
			return p, words.Errorf("notching %s: %w", q.Name, err)
		}
		double := backOf(q, edge)
		for _, m := range mates {
			double = double || backOf(p.Pieces[m.piece], m.notch.Edge)
		}
		n.Double = double
		p = withNotch(p, i, n)
		for _, m := range mates {
			m.notch.Double = double
			p = withNotch(p, m.piece, m.notch)
		}
		return p, p.Validate()
	}
}

// mate is a notch on another piece.
type mate struct {
	piece int
	notch model.Notch
}

// matesOf is where a notch of piece i is met, in every size that is printed on
// both sides.
func matesOf(p model.Pattern, i int, n model.Notch) ([]mate, error) {
	q := p.Pieces[i]
	var out []mate
	for _, l := range p.Links {
		if l.Kind != model.Sewn {
			continue
		}
		pr, err := seam.Read(p, l)
		if err != nil {
			continue // a seam that cannot be walked has no mates
		}
		var m mate
		for _, at := range n.Spots {
			got, ok, err := mateIn(p, pr, q.ID, q.EdgeIndex(n.Edge), at)
			if err != nil {
				return nil, err
			}
			if !ok {
				continue
			}
			k := p.PieceIndex(got.Piece)
			id := p.Pieces[k].Edges[got.Edge].ID
			if m.notch.Edge == "" {
				m = mate{k, model.Notch{ID: freeNotchID(p.Pieces[k]), Edge: id}}
			}
			if m.piece == k && m.notch.Edge == id {
				m.notch.Spots = append(m.notch.Spots, model.Spot{Size: at.Size, S: got.S})
			}
		}
		if len(m.notch.Spots) > 0 && m.piece != i {
			out = append(out, m)
		}
	}
	return out, nil
}

// mateIn is the mate of a spot in its printed size; false where the seam does
// not have it.
func mateIn(p model.Pattern, pr *seam.Print, piece string, edge int, at model.Spot) (seam.Mate, bool, error) {
	sheets := make([]seam.Sheet, len(p.Pieces))
	for k, q := range p.Pieces {
		if s, ok := seam.Printed(q, at.Size); ok {
			sheets[k] = s
		}
	}
	for _, k := range append(pr.Leaders(), pr.Follower()) {
		if sheets[k].Tape == nil {
			return seam.Mate{}, false, nil
		}
	}
	m, err := pr.Mate(sheets, piece, edge, at.S)
	if err == seam.ErrNoMate {
		return m, false, nil
	}
	return m, err == nil, err
}

// backOf reports that an edge belongs to the back of the garment, by its name
// or its piece's.
func backOf(q model.Piece, edge string) bool {
	name := q.Name
	if j := q.EdgeIndex(edge); j >= 0 {
		name += " " + q.Edges[j].Name
	}
	return slices.Contains(strings.Fields(glossary.English(name)), "back")
}

func withNotch(p model.Pattern, i int, n model.Notch) model.Pattern {
	return p.WithPiece(i, func(q model.Piece) model.Piece {
		q.Notches = append(slices.Clone(q.Notches), n)
		return q
	})
}

func freeNotchID(q model.Piece) string {
	for n := len(q.Notches) + 1; ; n++ {
		id := fmt.Sprintf("notch-%d", n)
		if !slices.ContainsFunc(q.Notches, func(m model.Notch) bool { return m.ID == id }) {
			return id
		}
	}
}

// RemoveNotch takes a notch off a piece, and the notches that meet it off what
// the piece is sewn to.
func RemoveNotch(piece, notch string) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		i := p.PieceIndex(piece)
		if i < 0 {
			return p, words.Error("there is no such notch")
		}
		k := slices.IndexFunc(p.Pieces[i].Notches, func(n model.Notch) bool { return n.ID == notch })
		if k < 0 {
			return p, words.Errorf("%s has no such notch", p.Pieces[i].Name)
		}
		out := withoutNotch(p, i, notch)
		for _, l := range p.Links {
			if l.Kind != model.Sewn {
				continue
			}
			pr, err := seam.Read(p, l)
			if err != nil {
				continue // a seam that cannot be walked has no mates
			}
			if m, n, ok := pr.NotchMate(i, k); ok {
				out = withoutNotch(out, m, p.Pieces[m].Notches[n].ID)
			}
		}
		return out, out.Validate()
	}
}

func withoutNotch(p model.Pattern, i int, id string) model.Pattern {
	return p.WithPiece(i, func(q model.Piece) model.Piece {
		q.Notches = slices.DeleteFunc(slices.Clone(q.Notches), func(n model.Notch) bool { return n.ID == id })
		if len(q.Notches) == 0 {
			q.Notches = nil
		}
		return q
	})
}

// EdgeShare is how far along an edge, 0 to 1, the place nearest to at lies.
func EdgeShare(edge geom.Path, at geom.Point) (float64, error) {
	m, err := geom.Measure(edge, notchTol)
	if err != nil {
		return 0, words.Errorf("finding a place on an edge: %w", err)
	}
	s, _, err := edge.NearestS(at, notchTol)
	if err != nil || m.Length() == 0 {
		return 0, err
	}
	return s / m.Length(), nil
}

// PlaceOnEdge is the place at a share of an edge's length, 0 to 1.
func PlaceOnEdge(edge geom.Path, share float64) (geom.Point, error) {
	m, err := geom.Measure(edge, notchTol)
	if err != nil {
		return geom.Point{}, words.Errorf("finding a place on an edge: %w", err)
	}
	i, t := m.Locate(share * m.Length())
	return edge[i].At(t), nil
}
