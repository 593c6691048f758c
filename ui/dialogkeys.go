package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/panel"
)

// asked is what the keys do in the dialog that is open. The toolkit's dialogs
// answer none of their own.
type asked struct {
	yes, no func() // Enter and Escape
	scroll  *container.Scroll
	list    *widget.List // in the place of scroll
}

// dialogKey answers a key while a dialog is open.
func (w *Window) dialogKey(e *fyne.KeyEvent) {
	a := w.asked
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		if a.yes != nil {
			a.yes()
		}
	case fyne.KeyEscape:
		if a.no != nil {
			a.no()
		}
	default:
		a.turn(e.Name)
	}
}

// turn scrolls what the dialog says.
func (a asked) turn(key fyne.KeyName) {
	const line = 40
	var page, end float32
	switch {
	case a.list != nil:
		const far = 1e6
		page, end = a.list.Size().Height-line, far
	case a.scroll != nil:
		page, end = a.scroll.Size().Height-line, a.scroll.Content.MinSize().Height
	default:
		return
	}
	by := map[fyne.KeyName]float32{
		fyne.KeyDown: line, fyne.KeyUp: -line, fyne.KeyPageDown: page, fyne.KeyPageUp: -page,
		fyne.KeyHome: -end, fyne.KeyEnd: end,
	}[key]
	switch {
	case by == 0:
	case a.list != nil && key == fyne.KeyEnd:
		a.list.ScrollToBottom()
	case a.list != nil:
		a.list.ScrollToOffset(max(a.list.GetScrollOffset()+by, 0))
	default:
		a.scroll.ScrollToOffset(a.scroll.Offset.AddXY(0, by))
	}
}

// hasDialog says that a dialog is open, and what keys do in it.
func (w *Window) hasDialog(a asked) { w.dialogOpen, w.asked = true, a }

// hasNoDialog says that it is closed.
func (w *Window) hasNoDialog() { w.dialogOpen, w.asked = false, asked{} }

// tell shows something to read in a dialog of at least that size, with one
// button to close it. What scrolls in it is scrolled by the keys too.
func (w *Window) tell(title string, content fyne.CanvasObject, scroll *container.Scroll, size fyne.Size) {
	d := dialog.NewCustomWithoutButtons(title, content, w.win)
	closed := panel.NewPush(words.T("Close"), d.Hide)
	d.SetButtons([]fyne.CanvasObject{closed})
	d.SetOnClosed(w.hasNoDialog)
	w.hasDialog(asked{yes: d.Hide, no: d.Hide, scroll: scroll})
	d.Resize(size)
	d.Show()
	w.win.Canvas().Focus(closed)
}

// form asks for something to be filled in; yes is the button that does it. The
// keyboard begins at first.
func (w *Window) form(title, yes string, items []*widget.FormItem, first fyne.Focusable, then func()) {
	d := dialog.NewCustomWithoutButtons(title, widget.NewForm(items...), w.win)
	leave := func() {
		d.Hide()
		w.hasNoDialog()
	}
	do := func() {
		leave()
		then()
	}
	best := panel.NewPush(yes, do)
	best.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{panel.NewPush(words.T("Leave it"), leave), best})
	w.hasDialog(asked{yes: do, no: leave})
	d.Resize(fyne.NewSize(420, 0))
	d.Show()
	w.win.Canvas().Focus(first)
}
