package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	base "fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// Push is a stock button that answers Enter as it does Space, and hands all
// other keys on to the window.
type Push struct {
	widget.Button
	focused bool
}

// NewPush makes a button that reads word.
func NewPush(word string, press func()) *Push {
	b := &Push{}
	b.Text, b.OnTapped = word, press
	b.ExtendBaseWidget(b)
	return b
}

// drawing is one of our icons for a stock button, which gives it its own colour.
func drawing(name theme.Name) fyne.Resource {
	p := theme.Now()
	return base.NewThemedResource(theme.Icon(name, p.Ink, p.Raised))
}

// FocusGained shows the keyboard's place, and brings it into sight.
func (b *Push) FocusGained() {
	b.focused = true
	b.Button.FocusGained()
	reveal(b)
}

// FocusLost hides it.
func (b *Push) FocusLost() {
	b.focused = false
	b.Button.FocusLost()
}

// TypedRune hands letters on to the window.
func (b *Push) TypedRune(r rune) { passRune(b, r) }

// TypedKey presses it on Space and Enter.
func (b *Push) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		b.Tapped(nil)
	default:
		passKey(b, e)
	}
}

// Listed is a stock list to choose from that opens on Enter too, and hands all
// other keys on to the window.
type Listed struct {
	widget.Select
	onFocus func(bool)
}

// NewListed makes a list; chosen is told the word.
func NewListed(words []string, chosen func(string)) *Listed {
	l := &Listed{}
	l.Options, l.OnChanged = words, chosen
	l.ExtendBaseWidget(l)
	return l
}

// FocusGained shows the keyboard's place, and brings it into sight.
func (l *Listed) FocusGained() {
	l.Select.FocusGained()
	call1(l.onFocus, true)
	reveal(l)
}

// FocusLost hides it.
func (l *Listed) FocusLost() {
	l.Select.FocusLost()
	call1(l.onFocus, false)
}

// TypedRune hands letters on to the window.
func (l *Listed) TypedRune(r rune) { passRune(l, r) }

// TypedKey opens the list on Enter as on Space and the upright arrows; those
// sideways choose without opening it.
func (l *Listed) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyUp, fyne.KeyDown, fyne.KeyLeft, fyne.KeyRight:
		l.Select.TypedKey(e)
	case fyne.KeyReturn, fyne.KeyEnter:
		l.Select.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	default:
		passKey(l, e)
	}
}

// Line is a line to type in under a question: Enter and Escape go on to the
// window, which answers the question or puts it away.
type Line struct {
	widget.Entry
	onRow func(by int) // Up and Down, where rows above it are gone through
}

// NewLine makes an empty line.
func NewLine() *Line {
	l := &Line{}
	l.ExtendBaseWidget(l)
	return l
}

// TypedKey hands on what is not typing.
func (l *Line) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeyEscape:
		passKey(l, e)
	case fyne.KeyUp, fyne.KeyDown:
		by := 1
		if e.Name == fyne.KeyUp {
			by = -1
		}
		call1(l.onRow, by)
	default:
		l.Entry.TypedKey(e)
	}
}

// markTo marks the first n letters, so that typing replaces them.
func (l *Line) markTo(n int) {
	shift := &fyne.KeyEvent{Name: desktop.KeyShiftLeft}
	l.KeyDown(shift)
	for range n {
		l.Entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	}
	l.KeyUp(shift)
}

// canvasOf is the canvas o is on, nil for none.
func canvasOf(o fyne.CanvasObject) fyne.Canvas {
	return fyne.CurrentApp().Driver().CanvasForObject(o)
}

// passRune hands a letter on to the window; Space presses what has the keyboard.
func passRune(o fyne.CanvasObject, r rune) {
	if c := canvasOf(o); c != nil && c.OnTypedRune() != nil && r != ' ' {
		c.OnTypedRune()(r)
	}
}

// passKey hands a key on to the window.
func passKey(o fyne.CanvasObject, e *fyne.KeyEvent) {
	if c := canvasOf(o); c != nil && c.OnTypedKey() != nil {
		c.OnTypedKey()(e)
	}
}

// passShortcut hands a shortcut on to the window.
func passShortcut(o fyne.CanvasObject, s fyne.Shortcut) {
	if c, ok := canvasOf(o).(fyne.Shortcutable); ok {
		c.TypedShortcut(s)
	}
}

// scrolling is a widget whose content scrolls.
type scrolling interface{ scrolled() *container.Scroll }

// revealRim is how much of what surrounds the keyboard's place is shown too, px.
const revealRim = 12

// reveal scrolls the column that o is in until o is in sight. Under a dialog
// nothing scrolls.
func reveal(o fyne.CanvasObject) {
	c := canvasOf(o)
	if c == nil || c.Overlays().Top() != nil {
		return
	}
	d := fyne.CurrentApp().Driver()
	at := d.AbsolutePositionForObject(o)
	eachScroll(c.Content(), func(s *container.Scroll) {
		from := d.AbsolutePositionForObject(s)
		if at.X < from.X || at.X >= from.X+s.Size().Width || !s.Visible() {
			return
		}
		top := at.Y - from.Y - revealRim
		foot := at.Y + o.Size().Height + revealRim - from.Y - s.Size().Height
		switch {
		case top < 0:
			s.ScrollToOffset(s.Offset.AddXY(0, top))
		case foot > 0:
			s.ScrollToOffset(s.Offset.AddXY(0, min(foot, top)))
		}
	})
}

// eachScroll does f with every scrolled column of the window.
func eachScroll(o fyne.CanvasObject, f func(*container.Scroll)) {
	switch o := o.(type) {
	case *fyne.Container:
		for _, in := range o.Objects {
			eachScroll(in, f)
		}
	case *container.Scroll:
		f(o)
	case scrolling:
		f(o.scrolled())
	}
}

// CreateRenderer is Fyne's. The stock button shows the keyboard by its colour
// alone, and hardly that where it is filled; here it has an outline as well.
func (b *Push) CreateRenderer() fyne.WidgetRenderer {
	ring := canvas.NewRectangle(nil)
	ring.CornerRadius = theme.ControlRadius
	return &ringed{WidgetRenderer: b.Button.CreateRenderer(), push: b, ring: ring}
}

// ringed is a stock button's renderer with the outline of the keyboard.
type ringed struct {
	fyne.WidgetRenderer
	push *Push
	ring *canvas.Rectangle
}

// Layout implements fyne.WidgetRenderer.
func (r *ringed) Layout(size fyne.Size) {
	r.WidgetRenderer.Layout(size)
	place(r.ring, 0, 0, size.Width, size.Height)
}

// Refresh implements fyne.WidgetRenderer.
func (r *ringed) Refresh() {
	p := theme.Now()
	r.ring.FillColor, r.ring.StrokeColor = theme.Faded(p.Ink, 0), p.Ink
	r.ring.StrokeWidth = 0
	if r.push.focused {
		r.ring.StrokeWidth = 2
	}
	r.ring.Refresh()
	r.WidgetRenderer.Refresh()
}

// Objects implements fyne.WidgetRenderer.
func (r *ringed) Objects() []fyne.CanvasObject {
	return append(r.WidgetRenderer.Objects(), r.ring)
}
