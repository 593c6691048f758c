package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"quarterstep/ui/theme"
)

// check is a box to tick with a word beside it.
type check struct {
	touch
	word   string
	size   float32
	on     bool
	onTurn func(on bool)
}

// checkText is where a check's word begins, px at text scale 1.
const checkText = 27

func newCheck(word string) *check {
	c := &check{word: word, size: theme.Body}
	c.press = func() {
		c.set(!c.on)
		if c.onTurn != nil {
			c.onTurn(c.on)
		}
	}
	c.ExtendBaseWidget(c)
	return c
}

func (c *check) set(on bool) {
	if c.on != on {
		c.on = on
		c.Refresh()
	}
}

func (c *check) setWord(word string) {
	if c.word != word {
		c.word = word
		c.Refresh()
	}
}

func (c *check) CreateRenderer() fyne.WidgetRenderer {
	g, box := newGround(), canvas.NewRectangle(nil)
	box.CornerRadius = 3
	tick := newMark(theme.Tick, 15, onAccent)
	label := newCut(c.word, c.size, ink)
	d := &drawn{objects: []fyne.CanvasObject{g, box, tick, label}}
	d.paint = func(p theme.Palette) {
		c.paintGround(g, p)
		box.FillColor, box.StrokeColor, box.StrokeWidth = p.Field, p.Edge, 1.4
		tick.Hidden = !c.on
		if c.on {
			box.FillColor, box.StrokeColor = p.Accent, p.Accent
		}
		t := tone(ink)
		if c.off {
			t = inkFaint
		}
		label.set(c.word, t, false)
	}
	d.min = func() fyne.Size {
		return fyne.NewSize(theme.Px(checkText)+label.measure(c.word).Width+2, theme.Px(27))
	}
	d.lay = func(size fyne.Size) {
		place(g, 0, 0, size.Width, size.Height)
		side, text := theme.Px(17), theme.Px(checkText)
		y := (size.Height - side) / 2
		place(box, 2, y, side, side)
		place(tick, 2, y, side, side)
		middle(label, text, max(size.Width-text-1, 0), size.Height)
	}
	return d.ready()
}
