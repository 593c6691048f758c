package panel

import (
	"fyne.io/fyne/v2"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// drawerWide is how wide the strip between the Table and the panels is by which these
// are put away, px at text scale 1.
const drawerWide = 16

// Drawer puts the side panels away and brings them back where the window is narrow
// for the size of its words, so that the Table can have their room. The zero Drawer
// has them out.
type Drawer struct {
	touch
	OnHint func(string)
	shut   bool
	onTurn func()
}

// NewDrawer makes a drawer that is open.
func NewDrawer() *Drawer {
	d := &Drawer{}
	d.press = func() { d.set(!d.shut) }
	d.onHint = func(h string) { call1(d.OnHint, h) }
	d.ExtendBaseWidget(d)
	return d
}

// Open brings the panels back.
func (d *Drawer) Open() { d.set(false) }

func (d *Drawer) set(shut bool) {
	if d.shut != shut {
		d.shut = shut
		call(d.onTurn)
		d.Refresh()
	}
}

// CreateRenderer is Fyne's.
func (d *Drawer) CreateRenderer() fyne.WidgetRenderer {
	back, g := newFill(railFill), newGround()
	m := newMark(theme.Right, theme.BarIcon, ink)
	r := &drawn{objects: []fyne.CanvasObject{back, g, m}}
	r.paint = func(p theme.Palette) {
		d.hint = words.T("Put the panels away, for a larger Table")
		name := theme.Right
		if d.shut {
			d.hint, name = words.T("Show the panels"), theme.Left
		}
		d.paintGround(g, p)
		m.set(name, ink)
	}
	r.min = func() fyne.Size { return fyne.NewSize(theme.Px(drawerWide), theme.Px(drawerWide)) }
	r.lay = func(size fyne.Size) {
		place(back, 0, 0, size.Width, size.Height)
		place(g, 0, 0, size.Width, size.Height)
		place(m, 0, 0, size.Width, size.Height)
	}
	return r.ready()
}
