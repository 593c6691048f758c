package panel

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
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
	places []*joinPlace
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
			p := newJoinPlace(word, func() { call1(b.OnPlace, i) })
			p.onHint = func(h string) { call1(b.OnHint, h) }
			b.places = append(b.places, p)
		}
	}
	b.view = v
	b.Refresh()
}

// CreateRenderer is Fyne's.
func (b *JoinBar) CreateRenderer() fyne.WidgetRenderer {
	back := newBox(raisedFill, edge, 1.2, theme.PanelRadius)
	title, say := newWords(words.T("Laid together at"), theme.Body, inkSoft), newWords("", theme.Body, ink)
	m := newMark(theme.Look, 16, ink)
	d := &drawn{}
	d.paint = func(theme.Palette) {
		say.set(b.view.Say, pickTone(b.view.Look, amberInk, ink), b.view.Look)
		m.Hidden = !b.view.Look
		d.objects = []fyne.CanvasObject{back, title, say, m}
		for i, p := range b.places {
			p.set(i == b.view.Place)
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
		if !title.Hidden {
			step(title, title.MinSize().Width)
		}
		for _, p := range b.places {
			step(p, p.MinSize().Width)
		}
		if b.view.Say != "" {
			x += gap
			if b.view.Look {
				step(m, m.MinSize().Width)
			}
			step(say, say.MinSize().Width)
		}
		return x - gap + inset
	}
	d.min = func() fyne.Size {
		return fyne.NewSize(across(0, false), max(controlHeight, theme.Px(controlHeight))+10)
	}
	d.lay = func(size fyne.Size) {
		title.Hidden = false
		title.Hidden = across(size.Height, false) > size.Width+1
		place(back, 0, 0, min(size.Width, across(size.Height, false)), size.Height)
		across(size.Height, true)
	}
	return d.ready()
}

// joinPlace is one of the places to lay pieces together at.
type joinPlace struct {
	touch
	word   string
	chosen bool
}

func newJoinPlace(word string, press func()) *joinPlace {
	p := &joinPlace{word: word}
	p.hint, p.press = words.T("Lay the pieces together here"), press
	p.ExtendBaseWidget(p)
	return p
}

func (p *joinPlace) set(chosen bool) {
	if p.chosen != chosen {
		p.chosen = chosen
		p.Refresh()
	}
}

func (p *joinPlace) CreateRenderer() fyne.WidgetRenderer {
	g := newGround()
	label := newWords(p.word, theme.Body, ink)
	label.align = fyne.TextAlignCenter
	d := &drawn{objects: []fyne.CanvasObject{g, label}}
	d.paint = func(colours theme.Palette) {
		p.paintGround(g, colours)
		t := tone(ink)
		if p.chosen {
			g.FillColor, t = colours.AccentTint, accentInk
		}
		label.set(p.word, t, p.chosen)
	}
	d.min = func() fyne.Size {
		return fyne.NewSize(boldWidth(p.word)+18, max(controlHeight, theme.Px(controlHeight)))
	}
	d.lay = func(size fyne.Size) {
		place(g, 0, 0, size.Width, size.Height)
		middle(label, 0, size.Width, size.Height)
	}
	return d.ready()
}
