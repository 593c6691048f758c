package panel

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// JoinView is where the pieces of a seam are laid together.
type JoinView struct {
	Places []string // "back underarm"
	Place  int
	Say    string // "The neckline runs on flat, 0.4°"
	Look   bool
}

// JoinBar is the strip over the head of the Table that says how the pieces are
// laid together.
type JoinBar struct {
	widget.BaseWidget
	OnPlace func(i int)
	OnHint  func(string)

	view   JoinView
	places []*toolButton
}

// NewJoinBar makes an empty strip.
func NewJoinBar() *JoinBar {
	b := &JoinBar{}
	b.ExtendBaseWidget(b)
	return b
}

// SetView shows a view.
func (b *JoinBar) SetView(v JoinView) {
	if slices.Equal(b.view.Places, v.Places) && b.view.Place == v.Place && b.view.Say == v.Say && b.view.Look == v.Look {
		return
	}
	if !slices.Equal(b.view.Places, v.Places) {
		b.places = nil
		for i, word := range v.Places {
			p := newToolButton(theme.Link, word, "Lay the pieces together here", func() { call1(b.OnPlace, i) })
			p.onHint = func(h string) { call1(b.OnHint, h) }
			b.places = append(b.places, p)
		}
	}
	b.view = v
	b.Refresh()
	b.Resize(b.MinSize())
}

// CreateRenderer is Fyne's.
func (b *JoinBar) CreateRenderer() fyne.WidgetRenderer {
	back := newBox(raisedFill, edge, 1.2, theme.PanelRadius)
	title, say := newWords("Laid together at", theme.Body, inkSoft), newWords("", theme.Body, ink)
	m := newMark(theme.Look, 16, ink)
	d := &drawn{}
	d.paint = func(theme.Palette) {
		say.set(b.view.Say, pickTone(b.view.Look, amberInk, ink), b.view.Look)
		m.Hidden = !b.view.Look
		d.objects = []fyne.CanvasObject{back, title, say, m}
		for i, p := range b.places {
			p.setChosen(i == b.view.Place)
			d.objects = append(d.objects, p)
		}
	}
	const inset, gap = 14, 8
	// across places or measures everything from left to right.
	across := func(height float32, put bool) float32 {
		x := float32(inset)
		step := func(o fyne.CanvasObject, w float32) {
			if put {
				middle(o, x, w, height)
			}
			x += w + gap
		}
		step(title, title.MinSize().Width)
		for _, p := range b.places {
			step(p, p.MinSize().Width)
		}
		if b.view.Say != "" {
			x += gap
			if b.view.Look {
				step(m, 16)
			}
			step(say, say.MinSize().Width)
		}
		return x - gap + inset
	}
	d.min = func() fyne.Size {
		return fyne.NewSize(across(0, false), max(controlHeight, theme.Px(controlHeight))+10)
	}
	d.lay = func(size fyne.Size) {
		place(back, 0, 0, size.Width, size.Height)
		across(size.Height, true)
	}
	return d.ready()
}
