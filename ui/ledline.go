package ui

import (
	"fyne.io/fyne/v2"

	"quarterstep/app/edit"
	"quarterstep/app/session"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/board"
	"quarterstep/ui/scene"
)

// ledLine is what the hand holds while it drags a line that belongs to another
// piece. The zero ledLine is none.
type ledLine struct {
	leader edit.Leader
	on     bool
	say    string // whose line it is, while it is dragged
	err    error  // why the leader cannot be moved there
}

// leaderOf finds who leads a place on the Table.
func (w *Window) leaderOf(at scene.Ref) ledLine {
	p := w.doc.Pattern()
	var out ledLine
	out.leader, out.on, out.err = edit.LeaderOf(p, w.doc.Result(), edit.Spot{Piece: at.Piece, Point: at.Point, Edge: at.Edge, Control: at.Control})
	if !out.on || out.err != nil {
		return out
	}
	for _, l := range p.Links {
		if l.ID == out.leader.Link {
			out.say = words.F("This line belongs to the *%s*: it moves with it.", leadName(p, l))
		}
	}
	return out
}

// dragLine drags a point, a handle or an edge: where its line follows another
// piece's, the leader's is moved instead.
func (w *Window) dragLine(at scene.Ref, by geom.Vec, ph board.Phase, own session.Edit, label string) {
	if ph == board.DragStart {
		w.trues.led = w.leaderOf(at)
	}
	led := w.trues.led
	if ph == board.DragEnd || ph == board.DragCancel {
		w.trues.led = ledLine{}
	}
	if led.err != nil {
		w.say(led.err.Error())
		return
	}
	if led.on {
		own, label = led.leader.Move(by), words.F("move %s", w.leaderName(led.leader))
	}
	w.drag(own, label, by, ph)
	if led.on && ph == board.DragEnd {
		w.said = led.say
	}
	w.showStatus()
}

// nudgeLine moves what is in hand, or what leads it, by an arrow key.
func (w *Window) nudgeLine(by geom.Vec, own session.Edit, label string) {
	led := w.leaderOf(w.hand)
	if led.err != nil {
		w.say(led.err.Error())
		return
	}
	if !led.on {
		w.do(label, own)
		return
	}
	w.do(words.F("move %s", w.leaderName(led.leader)), led.leader.Move(by))
	w.say(led.say)
}

func (w *Window) leaderName(l edit.Leader) string {
	return w.refName(scene.Ref{Piece: l.Piece, Point: l.Point, Edge: l.Edge, Control: l.Control})
}

// linkItems is what can be done about the links of the edge in hand.
func (w *Window) linkItems() []*fyne.MenuItem {
	if w.hand.Edge == "" {
		return nil
	}
	p := w.doc.Pattern()
	out := []*fyne.MenuItem{fyne.NewMenuItem(capital(words.F("Link %s to ...", w.refName(scene.Ref{Piece: w.hand.Piece, Edge: w.hand.Edge}))), w.startLink)}
	for _, l := range p.Links {
		if linkHas(l, scene.Ref{Piece: w.hand.Piece, Edge: w.hand.Edge}) {
			out = append(out, w.unlinkItem(p, l))
		}
	}
	return append(out, fyne.NewMenuItemSeparator())
}

func (w *Window) unlinkItem(p model.Pattern, l model.Link) *fyne.MenuItem {
	word := words.F("Unlink from the %s", leadName(p, l))
	if !stretchHas(l.Follow, w.hand) {
		word = words.F("Unlink the %s", followName(p, l))
	}
	return fyne.NewMenuItem(word, func() { w.do(words.F("unlink %s", followName(p, l)), edit.Unlink(l.ID)) })
}

func stretchHas(s model.Stretch, at scene.Ref) bool {
	return linkHas(model.Link{Lead: s, Follow: s}, scene.Ref{Piece: at.Piece, Edge: at.Edge})
}
