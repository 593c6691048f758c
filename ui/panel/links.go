package panel

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// LinksView is which edges keep together: one link opened, the others a row
// each.
type LinksView struct {
	Links  []LinkView
	Open   int // the link opened, -1 for none
	Detail LinkDetail
	Make   MakeLinkView
	Empty  string // "None yet. Pick two edges, then Link."
}

// LinkView is one link: "Sleeve cap fits the armhole", "4 mm more ease than
// wanted". Look asks her to look at it.
type LinkView struct {
	What, How string
	Look      bool
}

// LinkDetail is the link that is open. What is empty does not show.
type LinkDetail struct {
	Gauge     *GaugeView // of its ease
	Low, High string     // the ease wanted, from and to
	Unit      string     // of both
	Says      []string   // "The printed sizes carry 22 to 24 mm."
	Why       string     // why it cannot be kept, or what to look at
	Remedies  []string   // "Lower the cap 4 mm"; the first is the best
	Gives     []string   // what may give way
	Give      int
	GiveSay   string // "cap 4 mm lower"
	Fixed     bool   // the ease was set, so it can be put back to that of the print
}

// Links is the side panel of the links.
type Links struct {
	widget.BaseWidget
	OnPick   func(i int)
	OnLow    func(text string) error
	OnHigh   func(text string) error
	OnPrint  func() // the ease of the print again
	OnRemedy func(i int)
	OnGive   func(i int)
	OnUnlink func()
	OnStart  func() // link the edge in hand to another
	OnKind   func(i int)
	OnTurn   func() // the other side leads
	OnMake   func()
	OnLetGo  func()
	OnGrown  func() // the panel grew or shrank by itself

	view  LinksView
	empty *saying
	rows  []*linkRow
	more  *link // shows the rows that are folded away, or folds them again
	all   bool  // none is folded away
	open  *linkPart
	make  *makePart
	box   *fyne.Container
}

// NewLinks makes the panel's content.
func NewLinks() *Links {
	p := &Links{empty: newWrapped("", theme.Body, inkSoft, sideContent)}
	p.open, p.make = newLinkPart(p), newMakePart(p)
	p.more = newLink("", func() {
		p.all = !p.all
		p.SetView(p.view)
		call(p.OnGrown)
	})
	p.box = below(6)
	p.ExtendBaseWidget(p)
	p.SetView(LinksView{Empty: words.T("None yet. Pick two edges, then Link."), Open: -1})
	return p
}

// SetView shows a view. What stays as it was is not drawn again, so that it can
// follow a drag.
func (p *Links) SetView(v LinksView) {
	high := p.box.MinSize().Height
	p.view = v
	p.empty.setText(v.Empty)
	for len(p.rows) < len(v.Links) {
		i := len(p.rows)
		p.rows = append(p.rows, newLinkRow(func() { call1(p.OnPick, i) }))
	}
	p.make.set(v.Make)
	var objects []fyne.CanvasObject
	if len(v.Links) == 0 && !v.Make.UnderWay {
		objects = append(objects, p.empty)
	}
	if v.Open >= 0 && v.Open < len(v.Links) {
		p.open.set(v.Links[v.Open], v.Detail)
		objects = append(objects, p.open.box)
	}
	away := foldedLinks(v, p.all)
	for i, l := range v.Links {
		if i != v.Open && !away[i] {
			p.rows[i].set(l)
			objects = append(objects, p.rows[i])
		}
	}
	switch {
	case len(away) > 0:
		p.more.setWord(words.N(len(away), "and %d more", "and %d more", len(away)))
		objects = append(objects, p.more)
	case len(foldedLinks(v, false)) > 0:
		p.more.setWord(words.T("Show fewer"))
		objects = append(objects, p.more)
	}
	objects = append(objects, p.make.box)
	if slices.Equal(objects, p.box.Objects) && p.box.MinSize().Height == high {
		return
	}
	p.box.Objects = objects
	relay(p.box)
}

// linksShown is how many links stand in a row of their own before the rest is
// folded away, so that the panel below stays in sight.
const linksShown = 3

// foldedLinks are the places of the links that are folded away: those past the
// first few that nothing is to be looked at on. One alone is not worth it.
func foldedLinks(v LinksView, all bool) map[int]bool {
	if all {
		return nil
	}
	away, shown := map[int]bool{}, 0
	for i, l := range v.Links {
		switch {
		case i == v.Open:
		case l.Look || shown < linksShown:
			shown++
		default:
			away[i] = true
		}
	}
	if len(away) < 2 {
		return nil
	}
	return away
}

func (p *Links) grown() {
	relay(p.box)
	call(p.OnGrown)
}

// CreateRenderer is Fyne's.
func (p *Links) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.box) }

// linkRow is a link in two lines; pressing it opens it.
type linkRow struct {
	touch
	view LinkView
}

func newLinkRow(press func()) *linkRow {
	r := &linkRow{}
	r.press = press
	r.ExtendBaseWidget(r)
	return r
}

func (r *linkRow) set(v LinkView) {
	if r.view != v {
		r.view = v
		r.Refresh()
	}
}

func (r *linkRow) CreateRenderer() fyne.WidgetRenderer {
	g := newGround()
	m := newMark(theme.Full, 15, inkSoft)
	const room = sideContent - 24
	what, how := newWrapped("", theme.Body, ink, room), newWrapped("", theme.Caption, inkSoft, room)
	line := newFill(separatorInk)
	d := &drawn{objects: []fyne.CanvasObject{line, g, m, what, how}}
	d.paint = func(p theme.Palette) {
		r.paintGround(g, p)
		name, t := theme.Full, tone(inkSoft)
		if r.view.Look {
			name, t = theme.Look, amberInk
		}
		m.set(name, inkSoft)
		what.setText(r.view.What)
		how.set(r.view.How, t, false)
	}
	d.min = func() fyne.Size {
		return fyne.NewSize(theme.Px(sideContent), what.MinSize().Height+how.MinSize().Height+9)
	}
	d.lay = func(size fyne.Size) {
		place(line, 0, 0, size.Width, 1)
		place(g, -6, 4, size.Width+12, size.Height-4)
		left := theme.Px(24)
		place(m, 0, 7, theme.Px(15), size.Height-7)
		h := what.MinSize().Height
		place(what, left, 7, size.Width-left, h)
		place(how, left, h+8, size.Width-left, how.MinSize().Height)
	}
	return d.ready()
}
