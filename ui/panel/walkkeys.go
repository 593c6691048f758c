package panel

import "fyne.io/fyne/v2"

// FocusGained shows that the keyboard is here.
func (w *Walk) FocusGained() {
	w.keys = true
	w.Refresh()
}

// FocusLost undoes it.
func (w *Walk) FocusLost() {
	w.keys, w.over = false, -1
	w.Refresh()
}

// TypedRune hands letters on to the window.
func (w *Walk) TypedRune(r rune) { passRune(w, r) }

// TypedKey goes from part to part of the seam by the arrows; the Table shows it.
func (w *Walk) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyLeft:
		w.toPart(-1)
	case fyne.KeyRight:
		w.toPart(1)
	default:
		passKey(w, e)
	}
}

func (w *Walk) toPart(by int) {
	n := len(w.view.Parts)
	if n == 0 || w.view.Empty != "" {
		return
	}
	at := w.over + by
	if w.over < 0 && by < 0 {
		at = n - 1
	}
	at = (at + n) % n
	call1(w.OnPart, at)
	w.over = at
	w.Refresh()
}
