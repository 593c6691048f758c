package panel

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// pick is a Select that speaks in places of its list, with the outline every
// field has. Two entries may read the same only if it does not matter which is
// meant.
type pick struct {
	widget.BaseWidget
	list    *Listed
	focused bool
	least   float32
	onPick  func(i int)
}

func newPick(leastWidth float32) *pick {
	p := &pick{least: leastWidth}
	p.list = NewListed(nil, func(string) {
		if i := p.list.SelectedIndex(); i >= 0 && p.onPick != nil {
			p.onPick(i)
		}
	})
	p.list.PlaceHolder = " "
	p.list.onFocus = func(on bool) {
		p.focused = on
		p.Refresh()
	}
	p.ExtendBaseWidget(p)
	return p
}

// setNone is what it shows while nothing is chosen.
func (p *pick) setNone(word string) { p.list.PlaceHolder = word }

// set shows the list and the chosen place, -1 for none, without reporting it.
func (p *pick) set(options []string, chosen int) {
	word := ""
	if chosen >= 0 && chosen < len(options) {
		word = options[chosen]
	}
	if slices.Equal(p.list.Options, options) && p.list.Selected == word {
		return
	}
	p.list.Options = slices.Clone(options)
	p.list.Selected = word
	p.list.Refresh()
}

func (p *pick) CreateRenderer() fyne.WidgetRenderer {
	outline := canvas.NewRectangle(nil)
	outline.CornerRadius = theme.ControlRadius
	d := &drawn{objects: []fyne.CanvasObject{p.list, outline}}
	d.paint = func(c theme.Palette) {
		outline.FillColor = theme.Faded(c.Field, 0)
		outline.StrokeColor, outline.StrokeWidth = c.Edge, 1.2
		if p.focused {
			outline.StrokeColor, outline.StrokeWidth = c.Accent, 2
		}
	}
	d.min = func() fyne.Size { return fyne.NewSize(p.least, max(controlHeight, theme.Px(controlHeight))) }
	d.lay = func(size fyne.Size) {
		sharp(p.list, size)
		place(outline, 0, 0, size.Width, size.Height)
	}
	return d.ready()
}
