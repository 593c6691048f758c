package panel

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// ChecksView is what to look at, numbered as on the Table, then every check that
// found nothing.
type ChecksView struct {
	Findings []FindingView
	Chosen   int // the finding in hand, -1 for none
	Fine     []FineView
	Limits   []LimitView
	Empty    string // "Nothing to check yet."
	Waits    string // said above what the last checks found, while others are under way
}

// FindingView is one thing to look at: what, by how much, what would help. Do is
// the edit that is offered, as its button says it; empty where there is only to
// look.
type FindingView struct{ What, HowMuch, Help, Do string }

// FineView is a check that found nothing, with how things stand.
type FineView struct{ Title, Say string }

// Text is the finding as sentences.
func (f FindingView) Text() string {
	var out []string
	for _, s := range []string{f.What, f.HowMuch, f.Help} {
		if s = strings.TrimSpace(s); s != "" {
			out = append(out, sentence(s))
		}
	}
	return strings.Join(out, " ")
}

// Checks is the side panel of things to look at.
type Checks struct {
	widget.BaseWidget
	OnShow  func(i int)
	OnDo    func(i int)
	OnCopy  func(text string)
	OnLimit func(i int, text string) error
	OnUsual func(i int)
	OnGrown func() // the panel grew or shrank by itself

	view   ChecksView
	rows   []*finding
	fine   []*fineRow
	empty  *saying
	waits  *saying
	copy   *link
	limits *limitList
	box    *fyne.Container
}

// NewChecks makes the panel's content.
func NewChecks() *Checks {
	p := &Checks{empty: newWrapped("", theme.Body, inkSoft, sideContent), waits: newWrapped("", theme.Caption, inkSoft, sideContent)}
	p.copy = newLink(words.T("Copy checks as text"), func() { call1(p.OnCopy, p.Text()) })
	p.limits = newLimitList()
	p.limits.onText = func(i int, text string) error {
		if p.OnLimit == nil {
			return nil
		}
		return p.OnLimit(i, text)
	}
	p.limits.onUsual = func(i int) { call1(p.OnUsual, i) }
	p.limits.onGrown = func() {
		relay(p.box)
		call(p.OnGrown)
	}
	p.box = below(0, p.empty)
	p.ExtendBaseWidget(p)
	p.SetView(ChecksView{Empty: words.T("Nothing to check yet."), Chosen: -1})
	return p
}

// Text is everything the panel says, one check a line.
func (p *Checks) Text() string {
	var b strings.Builder
	for i, f := range p.view.Findings {
		fmt.Fprintln(&b, words.F("Look at this, %d: %s", i+1, f.Text()))
	}
	for _, f := range p.view.Fine {
		fmt.Fprintln(&b, words.F("Fine: %s: %s", f.Title, f.Say))
	}
	if b.Len() == 0 {
		return p.view.Empty + "\n"
	}
	if p.view.Waits != "" {
		return p.view.Waits + "\n" + b.String()
	}
	return b.String()
}

// SetView shows a view.
func (p *Checks) SetView(v ChecksView) {
	if slices.Equal(p.view.Findings, v.Findings) && slices.Equal(p.view.Fine, v.Fine) && slices.Equal(p.view.Limits, v.Limits) &&
		p.view.Chosen == v.Chosen && p.view.Empty == v.Empty && p.view.Waits == v.Waits {
		return
	}
	p.view = v
	for len(p.rows) < len(v.Findings) {
		i := len(p.rows)
		p.rows = append(p.rows, newFinding(i, func() { call1(p.OnShow, i) }, func() { call1(p.OnDo, i) }))
	}
	for len(p.fine) < len(v.Fine) {
		p.fine = append(p.fine, newFineRow())
	}
	p.empty.setText(v.Empty)
	p.waits.setText(v.Waits)
	var objects []fyne.CanvasObject
	if v.Waits != "" {
		objects = append(objects, p.waits)
	}
	if len(v.Findings)+len(v.Fine) == 0 {
		objects = append(objects, p.empty)
	}
	add := func(o fyne.CanvasObject) {
		if len(objects) > 0 {
			objects = append(objects, rule())
		}
		objects = append(objects, o)
	}
	for i, f := range v.Findings {
		p.rows[i].set(f, i == v.Chosen)
		add(p.rows[i])
	}
	for i, f := range v.Fine {
		p.fine[i].set(f)
		add(p.fine[i])
	}
	p.limits.set(v.Limits)
	if len(v.Limits) > 0 {
		add(inset(4, 0, 0, 0, beside(8, noneGrows, p.copy, p.limits.open)))
		objects = append(objects, p.limits.box)
	} else {
		objects = append(objects, beside(0, noneGrows, p.copy))
	}
	p.box.Objects = objects
	relay(p.box)
}

// CreateRenderer is Fyne's.
func (p *Checks) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.box) }
