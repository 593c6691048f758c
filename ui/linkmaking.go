package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/grading/propose"
	"quarterstep/model"
	"quarterstep/ui/panel"
	"quarterstep/ui/scene"
)

// linkMaking is a link in the making: the edges of its two sides as they were
// picked. The zero linkMaking is none.
type linkMaking struct {
	lead, follow []scene.Ref
	kind         int // of linkKinds
}

// linkKinds is what a link can promise, in the order of the panel.
var linkKinds = []model.LinkKind{model.Sewn, model.SameLine}

func (m linkMaking) underWay() bool { return len(m.lead) > 0 }

// startLink begins a link from the edge in hand.
func (w *Window) startLink() {
	if w.hand.Edge == "" {
		w.say(words.T("Take an edge in hand first."))
		return
	}
	w.trues.make = linkMaking{lead: []scene.Ref{{Piece: w.hand.Piece, Edge: w.hand.Edge}}}
	w.unfold("Links")
	w.refresh()
}

// letLinkGo ends a link in the making without making it; false where there was
// none.
func (w *Window) letLinkGo() bool {
	was := w.trues.make.underWay()
	w.trues.make = linkMaking{}
	return was
}

// linkTo takes an edge that was clicked into the link in the making; false
// where there is none, or at is no edge. With Shift it adds to the side picked
// last, else it is the other side.
func (w *Window) linkTo(at scene.Ref, shift bool) bool {
	m := &w.trues.make
	if !m.underWay() || at.Edge == "" || at.Cut != "" {
		return false
	}
	at = scene.Ref{Piece: at.Piece, Edge: at.Edge}
	side := &m.follow
	if shift && len(m.follow) == 0 {
		side = &m.lead
	}
	if !shift {
		*side = nil
	}
	for _, e := range append(m.lead, m.follow...) {
		if e == at {
			w.say(words.T("That edge is picked already."))
			return true
		}
	}
	if side == &m.follow && len(m.follow) > 0 && m.follow[0].Piece != at.Piece {
		w.say(words.T("The side that follows is of one piece. The side that leads may be of several."))
		return true
	}
	*side = append(*side, at)
	w.refresh()
	return true
}

// turnLink has the other side lead.
func (w *Window) turnLink() {
	m := &w.trues.make
	for _, e := range m.lead {
		if e.Piece != m.lead[0].Piece {
			w.say(words.T("The side that follows is of one piece. The side that leads may be of several."))
			return
		}
	}
	m.lead, m.follow = m.follow, m.lead
	w.refresh()
}

// makeLink makes the link in the making, as one step.
func (w *Window) makeLink() {
	m := w.trues.make
	if len(m.lead) == 0 || len(m.follow) == 0 {
		return
	}
	p := w.doc.Pattern()
	kind := linkKinds[m.kind]
	leads, follow := propose.Walked(p, kind, stretchesOf(m.lead), stretchesOf(m.follow)[0])
	label := words.F("link %s to %s", sideWords(p, m.follow), sideWords(p, m.lead))
	if err := w.doc.Do(label, edit.Link(kind, leads, follow)); err != nil {
		w.say(err.Error())
		return
	}
	w.trues.make = linkMaking{}
	if links := w.doc.Pattern().Links; len(links) > 0 {
		w.takeLink(links[len(links)-1])
	}
	w.refresh()
}

// stretchesOf is picked edges as stretches, one for each run on one piece.
func stretchesOf(edges []scene.Ref) []model.Stretch {
	var out []model.Stretch
	for _, e := range edges {
		if n := len(out); n > 0 && out[n-1].Piece == e.Piece {
			out[n-1].Edges = append(out[n-1].Edges, e.Edge)
			continue
		}
		out = append(out, model.Stretch{Piece: e.Piece, Edges: []string{e.Edge}})
	}
	return out
}

// sideWords names picked edges: "front shoulder and back shoulder".
func sideWords(p model.Pattern, edges []scene.Ref) string {
	var names []string
	for _, s := range stretchesOf(edges) {
		if i := p.PieceIndex(s.Piece); i >= 0 {
			names = append(names, sideName(p.Pieces[i], s))
		}
	}
	return listed(names)
}

// makeView is the link in the making, or the button that begins one.
func (w *Window) makeView(p model.Pattern) panel.MakeLinkView {
	m := w.trues.make
	if !m.underWay() {
		i, j, _ := w.inHand(p)
		if i < 0 || j < 0 || w.hand.Edge == "" {
			return panel.MakeLinkView{}
		}
		return panel.MakeLinkView{Can: true, Start: capital(words.F("Link %s to ...", sideWords(p, []scene.Ref{w.hand})))}
	}
	v := panel.MakeLinkView{UnderWay: true, Lead: capital(sideWords(p, m.lead)), Kind: m.kind}
	if len(m.follow) == 0 {
		v.Ask = words.T("Click the edge it is linked to. With Shift, add another edge to this side.")
		return v
	}
	v.Follow = capital(sideWords(p, m.follow))
	v.Ask = words.T("With Shift, add another edge to this side.")
	v.Kinds = []panel.ChoiceView{
		{Name: words.T("Sewn together"), How: words.T("with the ease of the print")},
		{Name: words.T("Follows"), How: words.T("the second takes the first's line")},
	}
	return v
}

// keepMaking lets go of a link in the making whose edges are gone.
func (w *Window) keepMaking(p model.Pattern) {
	m := w.trues.make
	for _, e := range append(m.lead, m.follow...) {
		if i := p.PieceIndex(e.Piece); i < 0 || p.Pieces[i].EdgeIndex(e.Edge) < 0 {
			w.trues.make = linkMaking{}
			return
		}
	}
}

// shiftHeld reports whether Shift is held now.
func shiftHeld() bool { return keyHeld(fyne.KeyModifierShift) }

// keyHeld reports whether a modifier key is held down.
func keyHeld(mod fyne.KeyModifier) bool {
	d, ok := fyne.CurrentApp().Driver().(desktop.Driver)
	return ok && d.CurrentKeyModifiers()&mod != 0
}
