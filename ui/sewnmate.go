package ui

import (
	"quarterstep/app/edit"
	"quarterstep/app/session"
	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/ui/panel"
	"quarterstep/ui/scene"
)

// add moves the edge of the figures by mm in the direction it moves.
func (f figures) add(q model.Piece, mm float64) session.Edit {
	v := f.move(q, mm)
	return func(p model.Pattern) (model.Pattern, error) {
		p, err := edit.MovePoint(q.ID, q.Points[f.ends[0]].ID, v)(p)
		if err != nil {
			return p, err
		}
		return edit.MovePoint(q.ID, q.Points[f.ends[1]].ID, v)(p)
	}
}

// sewnMate is the piece with the edge that the edge at is sewn to, as side seams are,
// and that edge's figures; false where there is none, or where it does not grow the
// same way.
func sewnMate(p model.Pattern, r grading.Result, at scene.Ref) (model.Piece, figures, bool) {
	own := p.PieceIndex(at.Piece)
	if own < 0 || at.Edge == "" {
		return model.Piece{}, figures{}, false
	}
	for _, l := range p.Links {
		if l.Kind != model.Sewn || len(l.And) > 0 {
			continue
		}
		mate := mateOf(p, l, at)
		i := p.PieceIndex(mate.Piece)
		if i < 0 || i == own || r.Pieces[i].Frozen {
			continue
		}
		j := p.Pieces[i].EdgeIndex(mate.Edge)
		f, g := figuresOf(p, r, own, p.Pieces[own].EdgeIndex(at.Edge)), figuresOf(p, r, i, j)
		if f.along == g.along {
			return p.Pieces[i], g, true
		}
	}
	return model.Piece{}, figures{}, false
}

// mateOf is the edge on the other side of the seam that goes with the edge at: the
// one of the same name, or the only one where there is one on each side; nothing
// where the seam does not have the edge, or leaves it open.
func mateOf(p model.Pattern, l model.Link, at scene.Ref) scene.Ref {
	own, other := l.Lead, l.Follow
	if !scene.Holds(own, at) {
		own, other = other, own
	}
	i, k := p.PieceIndex(at.Piece), p.PieceIndex(other.Piece)
	if !scene.Holds(own, at) || i < 0 || k < 0 {
		return scene.Ref{}
	}
	name := func(q model.Piece, edge string) string { return q.Edges[q.EdgeIndex(edge)].Name }
	for _, e := range other.Edges {
		same := name(p.Pieces[k], e) == name(p.Pieces[i], at.Edge) && name(p.Pieces[k], e) != ""
		if same || len(own.Edges) == 1 && len(other.Edges) == 1 {
			return scene.Ref{Piece: other.Piece, Edge: e}
		}
	}
	return scene.Ref{}
}

// withMate is the view with what is added to the edge sewn to the one in hand.
func (w *Window) withMate(v panel.IncrementsView) panel.IncrementsView {
	if q, _, ok := sewnMate(w.doc.Pattern(), w.doc.Result(), w.hand); ok && v.Empty == "" && !v.Fixed {
		v.With, v.WithOn = words.F("Add the same to %s", q.Name), !w.alone
	}
	return v
}
