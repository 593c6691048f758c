package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// note is a sentence with a mark before it, on amber when it asks to be looked
// at. Without a sentence it is hidden.
type note struct {
	widget.BaseWidget
	icon  theme.Name
	text  string
	amber bool
	task  bool // what stands out is something to try, not something amiss
	width float32
}

func newNote(width float32) *note {
	n := &note{icon: theme.Measure, width: width}
	n.ExtendBaseWidget(n)
	n.Hidden = true
	return n
}

func (n *note) set(text string, amber bool) {
	if n.text == text && n.amber == amber {
		return
	}
	n.text, n.amber = text, amber
	n.Hidden = text == ""
	n.Refresh()
}

func (n *note) CreateRenderer() fyne.WidgetRenderer {
	g := newBox(clear, nil, 0, theme.ControlRadius)
	m := newMark(n.icon, 16, inkSoft)
	text := newWrapped("", theme.Caption, inkSoft, n.width-44)
	d := &drawn{objects: []fyne.CanvasObject{g, m, text}}
	d.paint = func(theme.Palette) {
		g.fill = clear
		icon, t := n.icon, tone(inkSoft)
		switch {
		case n.amber && n.task:
			g.fill, t = accentTint, accentInk
		case n.amber:
			g.fill, icon, t = amberFill, theme.Look, amberInk
		}
		m.set(icon, t)
		text.set(n.text, t, false)
	}
	d.min = func() fyne.Size {
		if n.amber {
			return fyne.NewSize(theme.Px(n.width), text.MinSize().Height+14)
		}
		return fyne.NewSize(theme.Px(n.width), text.MinSize().Height+6)
	}
	d.lay = func(size fyne.Size) {
		place(g, 0, 0, size.Width, size.Height)
		left, top := float32(0), float32(3)
		if n.amber {
			left, top = 10, 7
		}
		side := theme.Px(16)
		place(m, left, top, side, side)
		place(text, left+side+10, top, size.Width-left-side-18, size.Height-2*top)
	}
	return d.ready()
}
