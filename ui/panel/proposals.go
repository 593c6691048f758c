package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// ProposalsView is the links that were found and wait to be accepted.
type ProposalsView struct {
	Title string // "6 links found"
	Found []ProposalView
	All   string // "Accept all 6"
	Find  string // "Find links"; empty when there is nothing to look for
	None  string // what is said when nothing was found
}

// ProposalView is one link found: "Front facing follows the front neckline",
// "within 0.1 mm in print". Look says that it is a guess.
type ProposalView struct {
	What, How string
	Look      bool
	Chosen    bool // shown on the Table
}

// Proposals is the list of links found, above the Links; Search, below them,
// is the button that looks for more.
type Proposals struct {
	widget.BaseWidget
	OnPick   func(i int)
	OnAccept func(i int)
	OnLeave  func(i int)
	OnAll    func()
	OnFind   func()

	title *saying
	none  *saying
	all   *Push
	find  *Push
	rows  []*proposalRow
	box   *fyne.Container
	below *fyne.Container
}

// NewProposals makes the list's content.
func NewProposals() *Proposals {
	p := &Proposals{
		title: newBold("", theme.Body, ink),
		none:  newWrapped("", theme.Caption, inkSoft, sideContent),
		box:   below(6),
		below: below(6),
	}
	p.all = NewPush("", func() { call(p.OnAll) })
	p.all.Importance = widget.HighImportance
	p.find = NewPush("", func() { call(p.OnFind) })
	p.ExtendBaseWidget(p)
	return p
}

// SetView shows a view.
func (p *Proposals) SetView(v ProposalsView) {
	for len(p.rows) < len(v.Found) {
		i := len(p.rows)
		p.rows = append(p.rows, newProposalRow(
			func() { call1(p.OnPick, i) }, func() { call1(p.OnAccept, i) }, func() { call1(p.OnLeave, i) }))
	}
	var objects []fyne.CanvasObject
	if len(v.Found) > 0 {
		p.title.setText(v.Title)
		objects = append(objects, p.title)
		for i, f := range v.Found {
			p.rows[i].set(f)
			objects = append(objects, p.rows[i])
		}
		setWord(p.all, v.All)
		objects = append(objects, p.all)
	}
	p.box.Objects = objects
	p.Hidden = len(objects) == 0
	relay(p.box)
	p.setSearch(v)
}

// Search is what looks for links.
func (p *Proposals) Search() fyne.CanvasObject { return p.below }

func (p *Proposals) setSearch(v ProposalsView) {
	var objects []fyne.CanvasObject
	if v.None != "" {
		p.none.setText(v.None)
		objects = append(objects, p.none)
	}
	if v.Find != "" {
		setWord(p.find, v.Find)
		objects = append(objects, p.find)
	}
	p.below.Objects = objects
	p.below.Hidden = len(objects) == 0
	relay(p.below)
}

func setWord(b *Push, word string) {
	if b.Text != word {
		b.SetText(word)
	}
}

// CreateRenderer is Fyne's.
func (p *Proposals) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.box) }

// proposalRow is a link found in two lines with what can be done with it;
// pressing it shows its two sides on the Table.
type proposalRow struct {
	touch
	view   ProposalView
	accept *link
	leave  *link
}

func newProposalRow(pick, accept, leave func()) *proposalRow {
	r := &proposalRow{accept: newLink(words.T("Accept"), accept), leave: newLink(words.T("Leave out"), leave)}
	r.press = pick
	r.ExtendBaseWidget(r)
	return r
}

func (r *proposalRow) set(v ProposalView) {
	if r.view != v {
		r.view = v
		r.Refresh()
	}
}

func (r *proposalRow) CreateRenderer() fyne.WidgetRenderer {
	g := newGround()
	m := newMark(theme.Link, 15, inkSoft)
	const room = sideContent - 24
	what, how := newWrapped("", theme.Body, ink, room), newWrapped("", theme.Caption, inkSoft, room)
	d := &drawn{objects: []fyne.CanvasObject{g, m, what, how, r.accept, r.leave}}
	d.paint = func(p theme.Palette) {
		r.paintGround(g, p)
		if r.view.Chosen {
			g.FillColor = p.AccentTint
		}
		name, t := theme.Link, tone(inkSoft)
		if r.view.Look {
			name, t = theme.Look, amberInk
		}
		m.set(name, inkSoft)
		what.setText(r.view.What)
		how.set(r.view.How, t, false)
	}
	d.min = func() fyne.Size {
		return fyne.NewSize(theme.Px(sideContent), what.MinSize().Height+how.MinSize().Height+r.accept.MinSize().Height+10)
	}
	d.lay = func(size fyne.Size) {
		place(g, -6, 0, size.Width+12, size.Height)
		side, left := theme.Px(15), theme.Px(24)
		place(m, 0, 5, side, side)
		y := what.MinSize().Height + 4
		place(what, left, 4, size.Width-left, y-4)
		place(how, left, y, size.Width-left, how.MinSize().Height)
		y += how.MinSize().Height
		a, b := r.accept.MinSize(), r.leave.MinSize()
		place(r.accept, left-6, y, a.Width, a.Height)
		place(r.leave, left-6+a.Width+10, y, b.Width, b.Height)
	}
	return d.ready()
}
