package panel

import (
	"fyne.io/fyne/v2"

	"quarterstep/ui/theme"
)

// nameButton shows the pattern and opens its menu.
type nameButton struct {
	touch
	pattern, wearer string
}

func newNameButton(press func()) *nameButton {
	b := &nameButton{}
	b.press = press
	b.ExtendBaseWidget(b)
	return b
}

func (b *nameButton) set(pattern, wearer string) {
	if b.pattern != pattern || b.wearer != wearer {
		b.pattern, b.wearer = pattern, wearer
		b.Refresh()
	}
}

func (b *nameButton) CreateRenderer() fyne.WidgetRenderer {
	g := newGround()
	app := newMark(theme.App, 32, ink)
	name := newCut("", theme.Body, ink)
	name.bold = true
	wearer := newCut("", theme.Caption, inkSoft)
	arrow := newMark(theme.Opened, 15, ink)
	d := &drawn{objects: []fyne.CanvasObject{g, app, name, wearer, arrow}}
	d.paint = func(p theme.Palette) {
		b.paintGround(g, p)
		name.setText(b.pattern)
		wearer.setText(b.wearer)
	}
	d.min = func() fyne.Size { return fyne.NewSize(120, theme.Px(50)) }
	d.lay = func(size fyne.Size) {
		place(g, 4, 4, size.Width-4, size.Height-6)
		mid := size.Height/2 + 1
		icon, arrowSide := theme.Px(32), theme.Px(15)
		text := 13 + icon + 9
		place(app, 13, mid-icon/2, icon, icon)
		room := max(size.Width-text-arrowSide-17, 0)
		h := name.MinSize().Height
		place(name, text, mid-h, room, h)
		place(wearer, text, mid-0.5, room, wearer.MinSize().Height)
		place(arrow, size.Width-8-arrowSide, mid-arrowSide/2, arrowSide, arrowSide)
	}
	return d.ready()
}
