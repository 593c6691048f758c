package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// State is how far a piece or a step is; each has its own shape.
type State int

// The states, from the first look to the last.
const (
	NotStarted State = iota
	UnderWay
	Done
	LookAt
)

func (s State) icon() theme.Name {
	return [...]theme.Name{theme.Ring, theme.Half, theme.Full, theme.Look}[s]
}

// mark is one small drawing that follows the theme. The amber mark keeps its
// own two colours whatever its tone. It grows with the size of words.
type mark struct {
	widget.BaseWidget
	name theme.Name
	tone tone
	side float32 // px at text scale 1
}

func newMark(name theme.Name, side float32, t tone) *mark {
	m := &mark{name: name, side: side, tone: t}
	m.ExtendBaseWidget(m)
	return m
}

func (m *mark) set(name theme.Name, t tone) {
	p := theme.Now()
	if m.name == name && m.tone(p) == t(p) {
		return
	}
	m.name, m.tone = name, t
	m.Refresh()
}

func (m *mark) resource(p theme.Palette) fyne.Resource {
	if m.name == theme.Look {
		return theme.LookIcon(p)
	}
	return theme.Icon(m.name, m.tone(p), p.Raised)
}

func (m *mark) CreateRenderer() fyne.WidgetRenderer {
	img := &canvas.Image{FillMode: canvas.ImageFillContain}
	d := &drawn{objects: []fyne.CanvasObject{img}}
	d.paint = func(p theme.Palette) { img.Resource = m.resource(p) }
	d.min = func() fyne.Size { return fyne.NewSquareSize(theme.Px(m.side)) }
	d.lay = func(size fyne.Size) {
		side := min(theme.Px(m.side), size.Width, size.Height)
		place(img, (size.Width-side)/2, (size.Height-side)/2, side, side)
	}
	return d.ready()
}
