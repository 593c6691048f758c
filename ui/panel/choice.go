package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"quarterstep/ui/theme"
)

// ChoiceView is one of several ways to choose from: "By chart", "4 1/2 steps ×
// 3/8", "1 11/16 in".
type ChoiceView struct{ Name, How, Figure string }

// choice is a row with a ring, its name, how it is worked out, and its figure
// at the right. The chosen one stands on a tint that reaches a little beyond it.
type choice struct {
	touch
	view   ChoiceView
	chosen bool
}

// choiceText is where a choice's name begins, px at text scale 1.
const choiceText = 25

func newChoice(press func()) *choice {
	c := &choice{}
	c.press = press
	c.ExtendBaseWidget(c)
	return c
}

func (c *choice) set(v ChoiceView, chosen bool) {
	if c.view != v || c.chosen != chosen {
		c.view, c.chosen = v, chosen
		c.Refresh()
	}
}

func (c *choice) CreateRenderer() fyne.WidgetRenderer {
	g := newGround()
	ring, dot := canvas.NewCircle(nil), canvas.NewCircle(nil)
	name := newWords("", theme.Body, ink)
	how := newCut("", theme.Caption, inkSoft)
	figure := newWords("", theme.Body, ink)
	figure.align = fyne.TextAlignTrailing
	d := &drawn{objects: []fyne.CanvasObject{g, ring, dot, name, how, figure}}
	d.paint = func(p theme.Palette) {
		c.paintGround(g, p)
		t := tone(ink)
		ring.FillColor, ring.StrokeColor, ring.StrokeWidth = p.Field, p.Edge, 1.4
		dot.FillColor = theme.Faded(p.Accent, 0)
		if c.chosen {
			t = accentInk
			g.FillColor = p.AccentTint
			ring.StrokeColor, dot.FillColor = p.Accent, p.Accent
		}
		name.set(c.view.Name, t, c.chosen)
		how.set(c.view.How, inkSoft, false)
		figure.set(c.view.Figure, t, c.chosen)
	}
	d.min = func() fyne.Size {
		return fyne.NewSize(theme.Px(choiceText)+name.MinSize().Width+figure.MinSize().Width+16, theme.Px(controlHeight))
	}
	d.lay = func(size fyne.Size) {
		place(g, -8, 0, size.Width+16, size.Height)
		side, text := theme.Px(16), theme.Px(choiceText)
		place(ring, 0, (size.Height-side)/2, side, side)
		place(dot, side/4, (size.Height-side/2)/2, side/2, side/2)
		middle(name, text, name.MinSize().Width, size.Height)
		right := figure.MinSize().Width
		middle(figure, size.Width-right, right, size.Height)
		x := max(theme.Px(96), text+name.MinSize().Width+8)
		middle(how, x, max(size.Width-right-8-x, 0), size.Height)
	}
	return d.ready()
}
