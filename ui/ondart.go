package ui

import (
	"fyne.io/fyne/v2"

	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/grading/dart"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

// dartStep is what is under way with darts.
type dartStep struct {
	closed map[string]string // by piece: the dart shown folded shut
	// from and to are the grade points of a dart that is being made.
	from, to scene.Ref
}

func (w *Window) connectDarts() {
	w.dart.OnClose = w.closeDart
	w.dart.OnTrue = w.trueDart
	w.dart.OnKeep = w.keepDart
	w.dart.OnRemove = w.removeDart
	w.folds["Dart"].OnFold = func(bool) { w.relaySide() }
}

// dartInHand is the piece and dart in hand as indices, or the one the piece in
// hand is shown closed at; false where there is none.
func (w *Window) dartInHand() (i, k int, ok bool) {
	p := w.doc.Pattern()
	if i = p.PieceIndex(w.hand.Piece); i < 0 {
		return 0, 0, false
	}
	q := p.Pieces[i]
	if k = dartOf(q, w.hand); k < 0 {
		k = dartOf(q, scene.Ref{Dart: w.darts.closed[q.ID]})
	}
	return i, k, k >= 0
}

// showDart shows the Dart panel while a dart is in hand; one clicked itself
// opens it.
func (w *Window) showDart(p model.Pattern, r grading.Result) {
	fold := w.folds["Dart"]
	i, k, ok := w.dartInHand()
	if !ok || w.step == stepPrint || i >= len(r.Pieces) || k >= len(r.Pieces[i].Darts) {
		fold.Hide()
		return
	}
	q := p.Pieces[i]
	v := dartView(p, q, r.Pieces[i], k, w.darts.closed[q.ID] == q.Darts[k].ID)
	w.dart.SetView(v)
	fold.SetState(dartName(q.Darts[k]), v.Note != "")
	if w.hand.Dart != "" && !fold.Visible() {
		fold.SetOpen(true)
	}
	fold.Show()
}

// closeDart shows the piece in hand with its dart folded shut, or open again.
func (w *Window) closeDart(on bool) {
	i, k, ok := w.dartInHand()
	if !ok {
		return
	}
	q := w.doc.Pattern().Pieces[i]
	delete(w.darts.closed, q.ID)
	if on {
		if err := w.canClose(q, i, k); err != nil {
			w.refresh()
			w.say(sentence(err.Error()))
			return
		}
		if w.darts.closed == nil {
			w.darts.closed = map[string]string{}
		}
		w.darts.closed[q.ID] = q.Darts[k].ID
	}
	w.refresh()
}

// canClose says why the dart of piece i cannot be shown closed.
func (w *Window) canClose(q model.Piece, i, k int) error {
	r := w.doc.Result().Pieces[i]
	at, err := dart.Read(q, q.Darts[k], r.Darts[k].Apex)
	if err == nil {
		_, err = at.Close(r.Edges)
	}
	return err
}

// trueDart trues the seam across the dart in hand, or lets it be as graded.
func (w *Window) trueDart(on bool) {
	w.onDart(on, edit.TrueDart, func(name string) string {
		if on {
			return words.F("true the seam across the %s", name)
		}
		return words.F("leave the %s as graded", name)
	})
}

// keepDart keeps the dart in hand as wide as printed, or lets it grow.
func (w *Window) keepDart(on bool) {
	w.onDart(on, edit.KeepTakeUp, func(name string) string {
		if on {
			return words.F("keep the width of the %s", name)
		}
		return words.F("let the %s grow", name)
	})
}

// onDart makes one edit of the dart in hand; label names it for a dart.
func (w *Window) onDart(on bool, e func(piece, dart string, on bool) func(model.Pattern) (model.Pattern, error), label func(dart string) string) {
	i, k, ok := w.dartInHand()
	if !ok {
		return
	}
	q := w.doc.Pattern().Pieces[i]
	if err := w.doc.Do(label(dartName(q.Darts[k])), e(q.ID, q.Darts[k].ID, on)); err != nil {
		w.refresh()
		w.say(sentence(err.Error()))
	}
}

// removeDart lets go of the dart in hand.
func (w *Window) removeDart() {
	if i, k, ok := w.dartInHand(); ok {
		q := w.doc.Pattern().Pieces[i]
		w.do(words.F("take the %s away", dartName(q.Darts[k])), edit.RemoveDart(q.ID, q.Darts[k].ID))
	}
}

// dartItems is what can be done to the dart in hand; none where there is none.
func (w *Window) dartItems() []*fyne.MenuItem {
	i, k, ok := w.dartInHand()
	if !ok {
		return nil
	}
	q := w.doc.Pattern().Pieces[i]
	d := q.Darts[k]
	item := func(word string, on bool, do func(bool)) *fyne.MenuItem {
		m := fyne.NewMenuItem(word, func() { do(!on) })
		m.Checked = on
		return m
	}
	grows := fyne.NewMenuItem(words.T("Let it grow"), func() { w.keepDart(false) })
	grows.Checked = !d.TakeUpKept
	return []*fyne.MenuItem{
		item(words.F("Close the %s", dartName(d)), w.darts.closed[q.ID] == d.ID, w.closeDart),
		item(words.T("True the seam across it"), d.Trued, w.trueDart),
		item(words.T("Keep its width as printed"), d.TakeUpKept, func(bool) { w.keepDart(true) }),
		grows,
		fyne.NewMenuItem(words.T("Take the dart away"), w.removeDart),
		fyne.NewMenuItemSeparator(),
	}
}

// newDart begins a dart at the grade point in hand.
func (w *Window) newDart() {
	if q, _, k, ok := w.inHandOf(); ok {
		w.darts.from, w.darts.to = scene.Ref{Piece: q.ID, Point: q.Points[k].ID}, scene.Ref{}
		w.showStatus()
	}
}

// dropDart lets go of a dart that is being made.
func (w *Window) dropDart() { w.darts.from, w.darts.to = scene.Ref{}, scene.Ref{} }

// askingDart is what the status bar asks for while a dart is made, "" when none
// is.
func (w *Window) askingDart() string {
	switch {
	case w.darts.from.Point == "":
		return ""
	case w.darts.to.Point == "":
		return words.F("Click the grade point where the dart from *%s* has its other leg. Esc lets go.", w.refName(w.darts.from))
	}
	return words.T("Click where the dart is to point to, inside the piece. Esc lets go.")
}

// dartTo goes on making a dart with a click on the Table; it is false where none
// is being made.
func (w *Window) dartTo(at scene.Ref) bool {
	from, to := w.darts.from, w.darts.to
	switch {
	case from.Point == "":
		return false
	case to.Point == "":
		if at.Piece != from.Piece || at.Point == "" || at.Point == from.Point {
			w.dropDart()
			return false
		}
		w.darts.to = scene.Ref{Piece: at.Piece, Point: at.Point}
		w.showStatus()
		return true
	}
	w.dropDart()
	apex, err := w.onPiece(from.Piece, w.pointer)
	if err == nil {
		err = w.doc.Do(words.F("make a dart at %s", words.Small(w.refName(from))), edit.MakeDart(from.Piece, from.Point, to.Point, apex, w.doc.Result()))
	}
	if err != nil {
		w.say(sentence(err.Error()))
	}
	return true
}

// onPiece is a place of the Table in a piece's own coordinates.
func (w *Window) onPiece(piece string, at geom.Point) (geom.Point, error) {
	inv, err := w.sceneOf(w.doc.Pattern(), w.doc.Result()).Place(piece).Inverse()
	return inv.Apply(at), err
}

// asHeld is a movement on the Table as it is for what is in hand: with a dart
// closed, one part of the piece lies turned; laid at a seam, all of it.
func (w *Window) asHeld(by geom.Vec) geom.Vec {
	inv, err := w.sceneOf(w.doc.Pattern(), w.doc.Result()).PlaceOf(w.hand).Inverse()
	if err != nil {
		return by
	}
	return inv.ApplyVec(by)
}
