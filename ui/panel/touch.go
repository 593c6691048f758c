package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// touch is what everything that can be pressed shares: the pointer over it, the
// keyboard on it, Space and Enter, and being switched off.
type touch struct {
	widget.BaseWidget
	self    fyne.Widget
	hint    string
	press   func()
	onHint  func(string)
	hovered bool
	focused bool
	off     bool
}

// ExtendBaseWidget keeps the whole widget, by which its canvas is found.
func (t *touch) ExtendBaseWidget(w fyne.Widget) {
	t.self = w
	t.BaseWidget.ExtendBaseWidget(w)
}

// Tapped presses it.
func (t *touch) Tapped(*fyne.PointEvent) {
	if !t.off && t.press != nil {
		t.press()
	}
}

// MouseIn shows that it can be pressed and gives its hint.
func (t *touch) MouseIn(*desktop.MouseEvent) {
	t.hovered = true
	t.tell(t.hint)
	t.Refresh()
}

// MouseMoved is part of being hoverable; nothing changes while inside.
func (t *touch) MouseMoved(*desktop.MouseEvent) {}

// MouseOut undoes MouseIn.
func (t *touch) MouseOut() {
	t.hovered = false
	t.tell("")
	t.Refresh()
}

func (t *touch) tell(hint string) {
	if t.onHint != nil && t.hint != "" {
		t.onHint(hint)
	}
}

// Cursor is the pointing hand over what can be pressed.
func (t *touch) Cursor() desktop.Cursor {
	if t.off {
		return desktop.DefaultCursor
	}
	return desktop.PointerCursor
}

// FocusGained shows the keyboard's outline.
func (t *touch) FocusGained() {
	t.focused = true
	t.Refresh()
	reveal(t.self)
}

// FocusLost hides it.
func (t *touch) FocusLost() {
	t.focused = false
	t.Refresh()
}

// TypedRune hands letters on to the window, whose keys they are.
func (t *touch) TypedRune(r rune) {
	passRune(t.self, r)
}

// TypedKey presses it on Space and Enter and hands other keys on to the window.
func (t *touch) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		if p, ok := t.self.(fyne.Tappable); ok {
			p.Tapped(nil)
		}
	default:
		passKey(t.self, e)
	}
}

func (t *touch) setOff(off bool) {
	if t.off != off {
		t.off = off
		t.Refresh()
	}
}

// newGround is the rectangle behind something that can be pressed.
func newGround() *canvas.Rectangle {
	r := canvas.NewRectangle(nil)
	r.CornerRadius = theme.ControlRadius
	return r
}

// paintGround gives a ground no fill, a faint one under the pointer, and the
// outline of the keyboard's focus.
func (t *touch) paintGround(r *canvas.Rectangle, p theme.Palette) {
	r.FillColor = theme.Faded(p.Ink, 0)
	if t.hovered && !t.off {
		r.FillColor = theme.Faded(p.Ink, 0.07)
	}
	t.paintFocus(r, p)
}

func (t *touch) paintFocus(r *canvas.Rectangle, p theme.Palette) {
	r.StrokeColor = p.Accent
	r.StrokeWidth = 0
	if t.focused {
		r.StrokeWidth = 2
	}
}
