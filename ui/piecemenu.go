package ui

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/ui/panel"
	"quarterstep/ui/scene"
)

// pieceMenu is what can be done to the piece in hand; greyed where there is
// none.
func (w *Window) pieceMenu() *fyne.MenuItem {
	item := fyne.NewMenuItem(words.T("Piece in hand"), nil)
	p := w.doc.Pattern()
	i := p.PieceIndex(w.hand.Piece)
	if i < 0 {
		item.Disabled = true
		return item
	}
	item.Label = p.Pieces[i].Name
	item.ChildMenu = fyne.NewMenu("", w.pieceItems(p.Pieces[i])...)
	return item
}

// pieceItems is what can be done to piece q.
func (w *Window) pieceItems(q model.Piece) []*fyne.MenuItem {
	share := fyne.NewMenuItem(words.T("Sizes that share a line ..."), w.askShared)
	share.Disabled = q.OneForAll
	all := fyne.NewMenuItem(words.T("Same in all sizes"), func() { w.sameInAll(q) })
	all.Checked, all.Disabled = q.OneForAll, len(q.Nest) > 1
	back := fyne.NewMenuItem(words.T("Take back all corrections"), func() { w.do(words.T("take back all corrections"), edit.TakeBackAll(q.ID)) })
	back.Disabled = q.Hand.IsZero()
	items := []*fyne.MenuItem{
		fyne.NewMenuItem(words.T("Rename ..."), w.rename),
		fyne.NewMenuItem(words.T("Cut how many ..."), w.askCopies),
		fyne.NewMenuItemSeparator(),
		w.layMenu(q), share, all,
	}
	if printedOnce(q) {
		items = append(items, fyne.NewMenuItem(words.T("How it grows"), func() { w.unfold(foldGrows); w.relaySide() }))
	}
	return append(items, fyne.NewMenuItemSeparator(), back,
		fyne.NewMenuItem(words.T("Increment sheet ..."), func() { w.saveSheets([]string{q.ID}, q.Name) }))
}

// layMenu is the lines and points the printed sizes of q can be laid on.
func (w *Window) layMenu(q model.Piece) *fyne.MenuItem {
	item := fyne.NewMenuItem(words.T("Lay the sizes on"), nil)
	item.Disabled = len(q.Nest) < 2
	lay := func(word string, on edit.StackOn) *fyne.MenuItem {
		return fyne.NewMenuItem(capital(word), func() { w.do(words.F("lay the sizes on the %s", word), edit.Stack(q.ID, on)) })
	}
	point := fyne.NewMenuItem(words.T("The grade point in hand"), nil)
	if k := q.PointIndex(w.hand.Point); k >= 0 && w.hand.Piece == q.ID {
		point = lay(words.Small(pointName(q, k)), edit.OnPoint(q.Points[k].ID))
	} else {
		point.Disabled = true
	}
	item.ChildMenu = fyne.NewMenu("", lay(words.T("centre line"), edit.OnCentre), lay(words.T("hem"), edit.OnHem), point)
	return item
}

// sameInAll says that a piece is the same in all sizes, or that it is not.
func (w *Window) sameInAll(q model.Piece) {
	label := words.T("the same in all sizes")
	if q.OneForAll {
		label = words.T("not the same in all sizes")
	}
	w.do(label, edit.OneForAll(q.ID, !q.OneForAll))
}

// shelfMenu takes piece i in hand, unless it is already, and shows what can be
// done to it.
func (w *Window) shelfMenu(i int, place fyne.Position) {
	p := w.doc.Pattern()
	if w.dialogOpen || i >= len(p.Pieces) {
		return
	}
	if id := p.Pieces[i].ID; w.hand.Piece != id {
		w.hand = scene.Ref{Piece: id}
		w.refresh()
	}
	// Set off from the pointer, so that a second click does not choose the first
	// entry.
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", w.pieceItems(p.Pieces[i])...), w.win.Canvas(), place.AddXY(8, 8))
}

// askCopies asks how many of the piece in hand to cut.
func (w *Window) askCopies() {
	p := w.doc.Pattern()
	i := p.PieceIndex(w.hand.Piece)
	if i < 0 || w.dialogOpen {
		return
	}
	q := p.Pieces[i]
	n, lining := panel.NewLine(), panel.NewLine()
	n.SetText(strconv.Itoa(q.Copies()))
	lining.SetText(strconv.Itoa(q.Lining))
	w.form(words.F("Cut how many of %s", q.Name), words.T("Cut so many"), []*widget.FormItem{widget.NewFormItem(words.C("how many to cut", "Cut"), n), widget.NewFormItem(words.T("In lining"), lining)}, n, func() {
		w.setCopies(q.ID, n.Text, lining.Text)
	})
}

// setCopies takes how many of a piece to cut in cloth and in lining, as typed.
func (w *Window) setCopies(piece, cloth, lining string) {
	n, err := strconv.Atoi(strings.TrimSpace(cloth))
	k, errLining := strconv.Atoi(strings.TrimSpace(lining))
	if err != nil || errLining != nil {
		w.say(words.T("Type how many to cut as a number, like 2."))
		return
	}
	label := words.F("cut %d", n)
	if k > 0 {
		label = words.F("cut %d and lining %d", n, k)
	}
	w.do(label, func(p model.Pattern) (model.Pattern, error) {
		p, err := edit.Cut(piece, n)(p)
		if err != nil {
			return p, err
		}
		return edit.CutLining(piece, k)(p)
	})
}
