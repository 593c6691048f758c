package panel

import (
	"math"
	"reflect"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// StripView is the size chart laid out as a line. Places count from 0 at the
// chart's first size; places between two sizes are allowed.
type StripView struct {
	Charts []string
	Chart  int // -1 for none
	Sizes  []SizeView
	Target float64
	Shown  bool   // the target has been chosen
	Handle string // "Maren · 48"
	Note   string // "4 steps, or 4 1/2 by bust"
	Pins   []PinView
	Empty  string // what to do when there is no chart
}

// SizeView is one size of the chart.
type SizeView struct {
	Name    string
	Printed bool
	Tracing bool  // its line is to be traced
	Traced  State // how far it is
}

// PinView marks where one body measure has its place on the chart.
type PinView struct {
	Name   string
	Place  float64 // may lie beyond the chart's ends
	Beyond string  // by how much: "3 cm"; empty on the chart
}

// Strip is the Size strip below the Table. Its handle is dragged along the
// sizes; it stops at each size, or at each half while Shift is held or half
// sizes are ticked.
type Strip struct {
	widget.BaseWidget
	OnChart func(i int)
	OnScrub func(place float64) // the handle comes to another place, button held
	OnPick  func(place float64) // the handle is let go there
	OnHint  func(string)

	// Modifiers tells which keys are held; the desktop's unless set.
	Modifiers func() fyne.KeyModifier

	view   StripView
	charts *pick
	halves *check
	line   *stripLine
	low    bool   // the window is low: the room for pins is left out while there are none
	onTurn func() // it is higher or lower
}

// NewStrip makes an empty Size strip.
func NewStrip() *Strip {
	s := &Strip{charts: newPick(150), halves: newCheck(words.T("Halves"))}
	s.halves.size = theme.Caption
	s.halves.hint = words.T("Let the handle stop at half sizes too, as holding Shift does")
	s.halves.onHint = func(h string) { call1(s.OnHint, h) }
	s.charts.setNone(words.T("No chart yet"))
	s.charts.onPick = func(i int) { call1(s.OnChart, i) }
	s.line = newStripLine(s)
	s.Modifiers = heldKeys
	s.ExtendBaseWidget(s)
	return s
}

func heldKeys() fyne.KeyModifier {
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		return d.CurrentKeyModifiers()
	}
	return 0
}

// SetView shows a view. While the handle is held its place stays the hand's.
func (s *Strip) SetView(v StripView) {
	if s.line.held {
		v.Target = s.view.Target
	} else if reflect.DeepEqual(v, s.view) {
		return
	}
	high := s.high()
	s.view = v
	s.charts.set(v.Charts, v.Chart)
	s.line.Refresh()
	if s.high() != high {
		call(s.onTurn)
	}
}

// Heights of the strip, px at text scale 1: as drawn, and without room for pins.
const (
	stripHigh = 100
	stripLow  = 82
)

func (s *Strip) high() float32 {
	if s.low && len(s.view.Pins) == 0 {
		return theme.Px(stripLow)
	}
	return theme.Px(stripHigh)
}

func (s *Strip) setLow(low bool) { s.low = low }

// Step moves the target by a number of sizes, as the keys comma and full stop
// do, and picks it there.
func (s *Strip) Step(by float64) {
	if len(s.view.Sizes) == 0 {
		return
	}
	halves := by != math.Trunc(by)
	to := s.snap(next(s.view.Target, by, halves), halves)
	if to != s.view.Target {
		s.view.Target = to
		call1(s.OnPick, to)
		s.line.Refresh()
	}
}

// next is the stop so many sizes on; from between two stops the first is the
// nearer end in that direction.
func next(from, by float64, halves bool) float64 {
	unit := 1.0
	if halves {
		unit = 0.5
	}
	stops, places := by/unit, from/unit
	if by > 0 {
		return (math.Floor(places) + stops) * unit
	}
	return (math.Ceil(places) + stops) * unit
}

// Cancel lets go of the handle where it was taken up, as Escape does. It tells
// whether the handle was held.
func (s *Strip) Cancel() bool { return s.line.cancel() }

// snap is the nearest place the handle may stop at.
func (s *Strip) snap(at float64, halves bool) float64 {
	if halves {
		at = math.Round(at*2) / 2
	} else {
		at = math.Round(at)
	}
	return min(max(at, 0), float64(len(s.view.Sizes)-1))
}

// CreateRenderer is Fyne's.
func (s *Strip) CreateRenderer() fyne.WidgetRenderer {
	back, top := newFill(windowFill), newFill(separatorInk)
	title := newBold(words.T("Size strip"), theme.Body, ink)
	d := &drawn{objects: []fyne.CanvasObject{back, top, title, s.halves, s.charts, s.line}}
	d.paint = func(theme.Palette) {}
	d.min = func() fyne.Size { return fyne.NewSize(500, s.high()) }
	d.lay = func(size fyne.Size) {
		place(back, 0, 0, size.Width, size.Height)
		place(top, 0, 0, size.Width, 1)
		place(title, 12, 8, title.MinSize().Width, title.MinSize().Height)
		w := s.halves.MinSize().Width
		place(s.halves, 12+max(150-w, title.MinSize().Width+4), 3, w, s.halves.MinSize().Height)
		place(s.charts, 12, theme.Px(34), 150, s.charts.MinSize().Height)
		place(s.line, 166, 0, max(size.Width-166, 0), size.Height)
	}
	return d.ready()
}

// stripLine is the line of sizes itself, the part that is dragged.
type stripLine struct {
	touch
	strip *Strip
	held  bool
	from  float64
}

func newStripLine(s *Strip) *stripLine {
	l := &stripLine{strip: s}
	l.hint = words.T("Drag to another size; keys , and . go one size down or up")
	l.onHint = func(h string) { call1(s.OnHint, h) }
	l.ExtendBaseWidget(l)
	return l
}

// Cursor says that the strip goes sideways.
func (l *stripLine) Cursor() desktop.Cursor { return desktop.HResizeCursor }

// Tapped picks the size nearest to the pointer.
func (l *stripLine) Tapped(e *fyne.PointEvent) {
	if e == nil || len(l.strip.view.Sizes) == 0 {
		return
	}
	l.scrub(e.Position.X)
	call1(l.strip.OnPick, l.strip.view.Target)
}

// Dragged takes the handle along.
func (l *stripLine) Dragged(e *fyne.DragEvent) {
	if len(l.strip.view.Sizes) == 0 {
		return
	}
	if !l.held {
		l.held, l.from = true, l.strip.view.Target
	}
	l.scrub(e.Position.X)
}

// DragEnd lets the handle go.
func (l *stripLine) DragEnd() {
	if !l.held {
		return
	}
	l.held = false
	call1(l.strip.OnPick, l.strip.view.Target)
}

func (l *stripLine) cancel() bool {
	if !l.held {
		return false
	}
	l.held = false
	l.strip.view.Target = l.from
	call1(l.strip.OnScrub, l.from)
	l.Refresh()
	return true
}

// TypedKey moves one size with the arrows; Escape lets go.
func (l *stripLine) TypedKey(e *fyne.KeyEvent) {
	by := 1.0
	if l.halves() {
		by = 0.5
	}
	switch e.Name {
	case fyne.KeyLeft:
		l.strip.Step(-by)
	case fyne.KeyRight:
		l.strip.Step(by)
	case fyne.KeyEscape:
		if !l.cancel() {
			l.touch.TypedKey(e)
		}
	default:
		l.touch.TypedKey(e)
	}
}

func (l *stripLine) halves() bool {
	return l.strip.halves.on || l.strip.Modifiers()&fyne.KeyModifierShift != 0
}

func (l *stripLine) scrub(x float32) {
	to := l.strip.snap(l.placeAt(x), l.halves())
	if to == l.strip.view.Target && l.strip.view.Shown {
		return
	}
	l.strip.view.Target = to
	call1(l.strip.OnScrub, to)
	l.Refresh()
}
