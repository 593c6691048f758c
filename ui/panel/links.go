package panel

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// LinksView is which edges keep together.
type LinksView struct {
	Links []LinkView
	Empty string // "None yet."
}

// LinkView is one link: "Front neck facing follows the front neckline", "both
// edges 5 5/16 in". Look asks her to look at it.
type LinkView struct {
	What, How string
	Look      bool
}

// Links is the side panel that lists the links.
type Links struct {
	widget.BaseWidget
	view LinksView
}

// NewLinks makes the panel's content.
func NewLinks() *Links {
	p := &Links{view: LinksView{Empty: "None yet."}}
	p.ExtendBaseWidget(p)
	return p
}

// SetView shows a view.
func (p *Links) SetView(v LinksView) {
	if p.view.Empty != v.Empty || !slices.Equal(p.view.Links, v.Links) {
		p.view = LinksView{Links: slices.Clone(v.Links), Empty: v.Empty}
		p.Refresh()
	}
}

// CreateRenderer is Fyne's.
func (p *Links) CreateRenderer() fyne.WidgetRenderer {
	const room = sideContent - 26
	empty := newWrapped("", theme.Body, inkSoft, sideContent)
	var marks []*mark
	var what, how []*words
	d := &drawn{}
	d.paint = func(theme.Palette) {
		empty.setText(p.view.Empty)
		d.objects = []fyne.CanvasObject{empty}
		empty.Hidden = len(p.view.Links) > 0
		for i, l := range p.view.Links {
			if i == len(marks) {
				marks = append(marks, newMark(theme.Link, 16, inkSoft))
				what = append(what, newWrapped("", theme.Body, ink, room))
				how = append(how, newWrapped("", theme.Caption, inkSoft, room))
			}
			name, t := theme.Link, tone(inkSoft)
			if l.Look {
				name, t = theme.Look, amberInk
			}
			marks[i].set(name, inkSoft)
			what[i].setText(l.What)
			how[i].set(l.How, t, l.Look)
			d.objects = append(d.objects, marks[i], what[i], how[i])
		}
	}
	d.min = func() fyne.Size {
		h := empty.MinSize().Height
		if n := len(p.view.Links); n > 0 {
			h = 0
			for i := range n {
				h += what[i].MinSize().Height + how[i].MinSize().Height + 8
			}
		}
		return fyne.NewSize(theme.Px(sideContent), h)
	}
	d.lay = func(size fyne.Size) {
		place(empty, 0, 0, size.Width, size.Height)
		y := float32(0)
		for i := range p.view.Links {
			a, b := what[i].MinSize().Height, how[i].MinSize().Height
			place(marks[i], 0, y+1, 16, 16)
			place(what[i], 26, y, size.Width-26, a)
			place(how[i], 26, y+a, size.Width-26, b)
			y += a + b + 8
		}
	}
	return d.ready()
}
