package ui

import (
	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/ui/scene"
)

// straightenEdge makes the edge in hand straight.
func (w *Window) straightenEdge() {
	if q, j, _, ok := w.inHandOf(); ok {
		from, to := q.Points[j].ID, q.Points[(j+1)%len(q.Points)].ID
		w.do(words.F("straighten %s", words.Small(edgeName(q, j))), edit.Straighten(q.ID, from, to, w.doc.Result()))
	}
}

// straightenFrom asks for the other end of a line to be made straight from the
// grade point in hand.
func (w *Window) straightenFrom() {
	q, _, k, ok := w.inHandOf()
	if !ok {
		w.say(words.T("Take a grade point in hand first."))
		return
	}
	w.straight = scene.Ref{Piece: q.ID, Point: q.Points[k].ID}
	w.showStatus()
}

// asking is what the status bar asks for while a second grade point is awaited,
// "" when none is.
func (w *Window) asking() string {
	if w.adding {
		return words.T("Click on a piece where the lengthen line is to lie. Esc lets go.")
	}
	if w.straight.Point == "" {
		return ""
	}
	return words.F("Click the grade point that the line is to run straight to from *%s*. Esc lets go.", w.refName(w.straight))
}

// straightenTo makes the line straight to the grade point clicked, where one was
// asked for; clicking anything else lets go. It is false where none was.
func (w *Window) straightenTo(at scene.Ref) bool {
	from := w.straight
	w.straight = scene.Ref{}
	if from.Point == "" || at.Point == "" || at.Piece != from.Piece || at.Point == from.Point {
		return false
	}
	w.do(words.F("straighten from %s to %s", w.refName(from), w.refName(at)),
		edit.Straighten(from.Piece, from.Point, at.Point, w.doc.Result()))
	return true
}
