package panel

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// ChecksView is what to look at, most pressing first.
type ChecksView struct {
	Findings []FindingView
	Empty    string // "Nothing to check yet."
}

// FindingView is one thing to look at: what, by how much, what would help.
type FindingView struct{ What, HowMuch, Help string }

// Text is the finding as sentences.
func (f FindingView) Text() string {
	return strings.Join(strings.Fields(strings.Join([]string{f.What, f.HowMuch, f.Help}, " ")), " ")
}

// Checks is the side panel of things to look at.
type Checks struct {
	widget.BaseWidget
	OnShow func(i int)
	OnCopy func(text string)

	view  ChecksView
	rows  []*finding
	empty *words
	copy  *link
	box   *fyne.Container
}

// NewChecks makes the panel's content.
func NewChecks() *Checks {
	p := &Checks{empty: newWrapped("", theme.Body, inkSoft, sideContent)}
	p.copy = newLink("Copy as text", func() { call1(p.OnCopy, p.Text()) })
	p.box = below(6, p.empty)
	p.ExtendBaseWidget(p)
	p.SetView(ChecksView{Empty: "Nothing to check yet."})
	return p
}

// Text is everything the panel says, one finding a line.
func (p *Checks) Text() string {
	if len(p.view.Findings) == 0 {
		return p.view.Empty + "\n"
	}
	var b strings.Builder
	for _, f := range p.view.Findings {
		b.WriteString(f.Text() + "\n")
	}
	return b.String()
}

// SetView shows a view.
func (p *Checks) SetView(v ChecksView) {
	p.view = v
	for len(p.rows) < len(v.Findings) {
		i := len(p.rows)
		p.rows = append(p.rows, newFinding(func() { call1(p.OnShow, i) }))
	}
	p.empty.setText(v.Empty)
	p.empty.Hidden = len(v.Findings) > 0
	p.box.Objects = []fyne.CanvasObject{p.empty}
	for i, f := range v.Findings {
		p.rows[i].set(f)
		p.box.Objects = append(p.box.Objects, p.rows[i])
	}
	p.box.Objects = append(p.box.Objects, beside(0, noneGrows, p.copy))
	relay(p.box)
	p.Refresh()
}

// CreateRenderer is Fyne's.
func (p *Checks) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.box) }

// finding is one amber row with a button that shows the place.
type finding struct {
	widget.BaseWidget
	view FindingView
	show *link
}

func newFinding(show func()) *finding {
	f := &finding{show: newLink("Show", show)}
	f.ExtendBaseWidget(f)
	return f
}

func (f *finding) set(v FindingView) {
	if f.view != v {
		f.view = v
		f.Refresh()
	}
}

func (f *finding) CreateRenderer() fyne.WidgetRenderer {
	g := newBox(amberFill, nil, 0, theme.ControlRadius)
	m := newMark(theme.Look, 17, ink)
	const room = sideContent - 36 - 64
	what := newWrapped("", theme.Body, amberInk, room)
	what.bold = true
	text := newWrapped("", theme.Caption, ink, room)
	d := &drawn{objects: []fyne.CanvasObject{g, m, what, text, f.show}}
	d.paint = func(theme.Palette) {
		what.setText(f.view.What)
		text.setText(FindingView{HowMuch: f.view.HowMuch, Help: f.view.Help}.Text())
	}
	d.min = func() fyne.Size {
		return fyne.NewSize(theme.Px(sideContent), what.MinSize().Height+text.MinSize().Height+18)
	}
	d.lay = func(size fyne.Size) {
		place(g, 0, 0, size.Width, size.Height)
		place(m, 10, 8, 17, 17)
		h := what.MinSize().Height
		place(what, 36, 8, what.MinSize().Width, h)
		place(text, 36, 8+h+2, text.MinSize().Width, text.MinSize().Height)
		s := f.show.MinSize()
		place(f.show, size.Width-s.Width-4, (size.Height-s.Height)/2, s.Width, s.Height)
	}
	return d.ready()
}
