package board

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

func (b *Board) takeFocus() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(b); c != nil {
		c.Focus(b)
	}
}

// FocusGained implements fyne.Focusable.
func (b *Board) FocusGained() { b.parts.focus.Show() }

// FocusLost implements fyne.Focusable.
func (b *Board) FocusLost() {
	b.space = false
	b.parts.focus.Hide()
}

// AcceptsTab implements fyne.Tabbable: Tab goes from handle to handle, and on to
// the next part of the window where there is none.
func (b *Board) AcceptsTab() bool {
	return len(b.handles()) > 0 || b.tool == Trace && len(b.crossSpots()) > 0
}

// TypedRune implements fyne.Focusable.
func (b *Board) TypedRune(r rune) {
	tools := map[rune]Tool{'m': Move, 's': Slide, 'r': Measure, 'p': AddPoint}
	switch {
	case r == '+' || r == '=':
		b.ZoomBy(1.25)
	case r == '-':
		b.ZoomBy(1 / 1.25)
	case r == '0':
		b.Fit()
	case r == '9':
		b.TrueSize()
	case r == ' ':
	default:
		t, ok := tools[r]
		if ok && len(b.in.Sheets) == 0 {
			b.SetTool(t)
			if b.OnTool != nil {
				b.OnTool(t)
			}
			return
		}
		if b.OnRune != nil {
			b.OnRune(r)
		}
	}
}

// TypedKey implements fyne.Focusable.
func (b *Board) TypedKey(e *fyne.KeyEvent) {
	shift := b.modifier()&fyne.KeyModifierShift != 0
	switch e.Name {
	case fyne.KeyUp, fyne.KeyDown, fyne.KeyLeft, fyne.KeyRight:
		step := Normal
		if shift {
			step = Large
		}
		switch {
		case b.parts.ruler.keyed:
			b.parts.ruler.slideBy(e.Name, step)
		case b.tool == Slide:
			b.slideBy(e.Name)
		case b.crossing():
			b.cross(crossSteps(e.Name, shift))
		default:
			b.nudge(e.Name, step)
		}
	case fyne.KeyTab:
		b.parts.ruler.letGo()
		if b.crossNext(shift) {
			return
		}
		b.nextHandle(shift)
		b.measureTo()
	case fyne.KeyReturn, fyne.KeyEnter:
		if !b.crossEnter() && !b.enter() {
			b.passOn(e)
		}
	case fyne.KeyEscape:
		if !b.escape() {
			b.parts.cross.drop()
			b.selected(scene.Ref{})
			b.passOn(e)
		}
	default:
		b.passOn(e)
	}
}

// TypedShortcut implements fyne.Shortcutable: Ctrl with an arrow is a fine step.
func (b *Board) TypedShortcut(s fyne.Shortcut) {
	if c, ok := s.(*desktop.CustomShortcut); ok && c.Modifier == fyne.KeyModifierControl|fyne.KeyModifierShift && b.parts.ruler.turnBy(c.KeyName, true) {
		return
	}
	if c, ok := s.(*desktop.CustomShortcut); ok && c.Modifier == fyne.KeyModifierControl {
		if _, arrow := arrows[c.KeyName]; arrow {
			if !b.parts.ruler.turnBy(c.KeyName, false) {
				b.nudge(c.KeyName, Fine)
			}
			return
		}
	}
	if b.OnShortcut != nil {
		b.OnShortcut(s)
	}
}

// KeyDown implements desktop.Keyable: Space held slides the paper.
func (b *Board) KeyDown(e *fyne.KeyEvent) {
	if e.Name == fyne.KeySpace {
		b.space = true
	}
}

// KeyUp implements desktop.Keyable.
func (b *Board) KeyUp(e *fyne.KeyEvent) {
	if e.Name == fyne.KeySpace {
		b.space = false
	}
}

var arrows = map[fyne.KeyName]geom.Vec{
	fyne.KeyUp: {Y: -1}, fyne.KeyDown: {Y: 1}, fyne.KeyLeft: {X: -1}, fyne.KeyRight: {X: 1},
}

// nudges are the steps of the arrow keys in mm: normal, large, fine.
var nudges = map[model.Unit][3]float64{
	model.Inches:      {25.4 / 16, 25.4 / 4, 25.4 / 64},
	model.Centimetres: {1, 5, 0.2},
}

// nudge moves what is selected by one step. During a drag it does nothing: the
// hand and the keys would pull against each other.
func (b *Board) nudge(key fyne.KeyName, step Step) {
	if b.gesture.dragging() || b.OnNudge == nil {
		return
	}
	unit := b.unit
	if unit != model.Inches {
		unit = model.Centimetres
	}
	b.OnNudge(arrows[key].Scale(nudges[unit][step]), step)
}

// nextHandle selects the next or previous handle of the piece in hand.
func (b *Board) nextHandle(back bool) {
	hs := b.handles()
	if len(hs) == 0 {
		return
	}
	at := -1
	for i, h := range hs {
		if same(h.Ref, b.in.Select) {
			at = i
		}
	}
	switch {
	case at < 0 && back:
		at = len(hs) - 1
	case at < 0:
		at = 0
	case back:
		at = (at + len(hs) - 1) % len(hs)
	default:
		at = (at + 1) % len(hs)
	}
	b.selected(hs[at].Ref)
}

// same reports whether a handle's ref is what is selected. The edge in hand
// stays selected beside a grade point.
func same(h, selected scene.Ref) bool {
	if h.Point != "" {
		return h.Piece == selected.Piece && h.Point == selected.Point
	}
	return h == selected
}

func (b *Board) passOn(e *fyne.KeyEvent) {
	if b.OnKey != nil {
		b.OnKey(e)
	}
}

// escape lets go of what is under way, the drag or else the measure; false for
// neither.
func (b *Board) escape() bool {
	switch {
	case b.gesture.kind != idle:
		b.cancel()
	case b.parts.ruler.letGo():
	case b.parts.measure.taken:
		b.parts.measure.clear()
	default:
		return false
	}
	return true
}
