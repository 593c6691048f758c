package panel

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"

	"quarterstep/ui/theme"
)

// CardView is one piece on the Shelf.
type CardView struct {
	Name  string
	State State
	How   string // how far it is: "6 of 7 edges"
	Links string // what it is linked with: "Facing, Sleeve"; may be empty
	// Thumb draws the piece into w x h device points; Key changes whenever the
	// drawing would.
	Thumb func(w, h int, p theme.Palette) image.Image
	Key   string
}

const (
	cardHeight = 98
	thumbW     = 66
	thumbH     = 82
)

// card shows one piece: its thumbnail, its name and two lines on how it stands.
type card struct {
	touch
	view   CardView
	chosen bool
	narrow bool
	menu   func(place fyne.Position)
}

func newCard(press func()) *card {
	c := &card{}
	c.press = press
	c.ExtendBaseWidget(c)
	return c
}

// TappedSecondary asks for the piece's menu.
func (c *card) TappedSecondary(e *fyne.PointEvent) { call1(c.menu, e.AbsolutePosition) }

// TypedKey opens the piece's menu by its key.
func (c *card) TypedKey(e *fyne.KeyEvent) {
	if e.Name == desktop.KeyMenu || e.Name == fyne.KeyF10 && shiftHeld() {
		at := fyne.CurrentApp().Driver().AbsolutePositionForObject(c)
		call1(c.menu, at.AddXY(c.Size().Width/2, c.Size().Height/2))
		return
	}
	c.touch.TypedKey(e)
}

func (c *card) set(v CardView, chosen bool) {
	same := c.view.Name == v.Name && c.view.State == v.State && c.view.How == v.How &&
		c.view.Links == v.Links && c.view.Key == v.Key && c.chosen == chosen
	c.view, c.chosen = v, chosen
	if !same {
		c.Refresh()
	}
}

func (c *card) draw(w, h int) image.Image {
	if c.view.Thumb == nil || w <= 0 || h <= 0 {
		return image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	}
	return c.view.Thumb(w, h, theme.Now())
}

func (c *card) CreateRenderer() fyne.WidgetRenderer {
	g := newGround()
	g.CornerRadius = theme.PanelRadius
	tile := newBox(tileFill, gridMajor, 1, theme.ThumbRadius)
	thumb := canvas.NewRaster(c.draw)
	name := newWrapped("", theme.Body, ink, ShelfWidth-16-thumbW-26)
	name.bold = true
	state, how := newMark(theme.Ring, 14, inkSoft), newCut("", theme.Caption, inkSoft)
	linked, links := newMark(theme.Link, 14, inkSoft), newWrapped("", theme.Caption, inkSoft, ShelfWidth-16-thumbW-40)
	d := &drawn{objects: []fyne.CanvasObject{g, tile, thumb, name, state, how, linked, links}}
	d.paint = func(p theme.Palette) {
		c.paintGround(g, p)
		if c.chosen {
			g.FillColor, g.StrokeColor, g.StrokeWidth = p.Raised, p.Accent, 2
		}
		if c.focused {
			g.FillColor, g.StrokeWidth = p.AccentTint, 3
		}
		name.setText(c.view.Name)
		name.Hidden, how.Hidden = c.narrow, c.narrow
		state.set(c.view.State.icon(), inkSoft)
		how.setText(c.view.How)
		most := 3 - len(name.lines()) // below a name of one line there is room for two
		if links.most != most || links.text != c.view.Links {
			links.most, links.text = most, c.view.Links
			links.Refresh()
		}
		linked.Hidden = c.narrow || c.view.Links == ""
		links.Hidden = linked.Hidden
	}
	d.min = func() fyne.Size {
		if c.narrow {
			return fyne.NewSize(ShelfNarrow-16, 84)
		}
		return fyne.NewSize(120, max(cardHeight, theme.Px(cardHeight)))
	}
	d.lay = func(size fyne.Size) {
		place(g, 0, 0, size.Width, size.Height)
		if c.narrow {
			w := size.Width - 10
			place(tile, 5, 5, w, size.Height-10)
			place(thumb, 7, 7, w-4, size.Height-14)
			side := theme.Px(14)
			place(state, size.Width-4-side, size.Height-5-side, side, side)
			return
		}
		w, h, side, text := theme.Px(thumbW), theme.Px(thumbH), theme.Px(14), theme.Px(19)
		y := (size.Height - h) / 2
		place(tile, 8, y, w, h)
		place(thumb, 11, y+3, w-6, h-6)
		x, room := 8+w+9, max(size.Width-8-w-12, 0)
		place(name, x, y-1, room, name.MinSize().Height)
		y += name.MinSize().Height + 3
		line := how.MinSize().Height
		place(state, x, y+(line-side)/2, side, side)
		place(how, x+text, y, room-text, line)
		y += line + 4
		place(linked, x, y+(line-side)/2, side, side)
		place(links, x+text, y, room-text, links.MinSize().Height)
	}
	return d.ready()
}
