package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// PagesView is how the pieces go on paper.
type PagesView struct {
	Columns int // pages across
	Pages   []PageView
	Page    int    // the page looked at, -1 for none
	Count   string // "16 pages"
	Summary string // "6 across, 3 down. C5 and C6 left out."

	Papers  []string
	Paper   int
	Wide    bool
	Overlap string
	Margin  string
	Unit    string // of overlap and margin

	Shown []ToggleView // what goes on paper: "New line, 48", "Printed nest"
	Sizes []ToggleView // the sizes printed

	Square string // "Measure the 5 cm square before you cut."
	Note   string // something to look at; may be empty

	Save   string // "Save PDF, 16 pages"
	Second string // the second button, "Test page"; may be empty
	Busy   bool   // the PDF is being made
}

// PageView is one sheet; a Blank one is left out.
type PageView struct {
	Name  string
	Blank bool
}

// Pages is the side panel of printing.
type Pages struct {
	widget.BaseWidget
	OnPage    func(i int)
	OnPaper   func(i int)
	OnWide    func(wide bool)
	OnOverlap func(text string) error
	OnMargin  func(text string) error
	OnShown   func(i int, on bool)
	OnSize    func(i int, on bool)
	OnSave    func()
	OnSecond  func()

	pages          *pageMap
	count, summary *words
	papers         *pick
	turn           *twoWay
	overlap        *field
	margin         *field
	hint           *note
	shown          *checkGrid
	sizes          *checkGrid
	sizesTitle     *words
	square, look   *note
	save, second   *widget.Button
	box            *fyne.Container
}

const mapWidth = 206

// NewPages makes the panel's content.
func NewPages() *Pages {
	p := &Pages{
		pages:      newPageMap(mapWidth),
		count:      newBold("", theme.Body, ink),
		summary:    newWrapped("", theme.Caption, inkSoft, sideContent-mapWidth-12),
		papers:     newPick(150),
		turn:       newTwoWay("Tall", "Wide", ""),
		hint:       newNote(sideContent),
		sizesTitle: newWords("Sizes to print", theme.Caption, inkSoft),
		square:     newNote(sideContent),
		look:       newNote(sideContent),
	}
	p.pages.onPage = func(i int) { call1(p.OnPage, i) }
	p.papers.onPick = func(i int) { call1(p.OnPaper, i) }
	p.turn.onTurn = func(wide bool) { call1(p.OnWide, wide) }
	p.overlap = newField("mm", func(text string) error { return askText(p.OnOverlap, text) })
	p.margin = newField("mm", func(text string) error { return askText(p.OnMargin, text) })
	hint := func(why string) {
		p.hint.set(why, true)
		relay(p.box)
	}
	p.overlap.onHint, p.margin.onHint = hint, hint
	p.shown = newCheckGrid(2, func(i int, on bool) { call2(p.OnShown, i, on) })
	p.sizes = newCheckGrid(4, func(i int, on bool) { call2(p.OnSize, i, on) })
	p.save = widget.NewButton("Save PDF", func() { call(p.OnSave) })
	p.save.Importance = widget.HighImportance
	p.second = widget.NewButton("", func() { call(p.OnSecond) })
	p.lay()
	p.ExtendBaseWidget(p)
	p.SetView(PagesView{Page: -1})
	return p
}

func (p *Pages) lay() {
	caption := func(text string, f *field) fyne.CanvasObject {
		return below(2, newWords(text, theme.Caption, inkSoft), f)
	}
	fields := fyneGrid(2, caption("Overlap to glue", p.overlap), caption("Printer's own margin", p.margin))
	p.box = below(8,
		container.NewBorder(nil, nil, p.pages, nil, inset(0, 0, 8, 0, below(2, p.count, p.summary))),
		rule(),
		beside(8, 0, p.papers, p.turn),
		fields,
		p.hint,
		rule(),
		p.shown.box,
		p.sizesTitle,
		p.sizes.box,
		rule(),
		p.square,
		p.look,
		beside(8, 0, sized(0, controlHeight, p.save), p.second),
	)
}

func fyneGrid(columns int, objects ...fyne.CanvasObject) *fyne.Container {
	return &fyne.Container{Layout: layout.NewGridLayoutWithColumns(columns), Objects: objects}
}

// SetView shows a view.
func (p *Pages) SetView(v PagesView) {
	p.pages.set(v.Columns, v.Pages, v.Page)
	p.count.setText(v.Count)
	p.summary.setText(v.Summary)
	p.papers.set(v.Papers, v.Paper)
	p.turn.set(v.Wide)
	p.overlap.set(v.Overlap)
	p.margin.set(v.Margin)
	p.overlap.setUnit(v.Unit)
	p.margin.setUnit(v.Unit)
	p.shown.set(v.Shown)
	p.sizes.set(v.Sizes)
	p.sizesTitle.Hidden = len(v.Sizes) == 0
	p.square.set(v.Square, false)
	p.look.set(v.Note, true)
	setButton(p.save, v.Save, v.Busy || len(v.Pages) == 0)
	setButton(p.second, v.Second, v.Busy)
	p.second.Hidden = v.Second == ""
	relay(p.box)
}

func setButton(b *widget.Button, text string, off bool) {
	if b.Text != text {
		b.SetText(text)
	}
	if off != b.Disabled() {
		if off {
			b.Disable()
		} else {
			b.Enable()
		}
	}
}

// CreateRenderer is Fyne's.
func (p *Pages) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.box) }

// checkGrid is a number of checks in columns.
type checkGrid struct {
	box    *fyne.Container
	checks []*check
	onTurn func(i int, on bool)
}

func newCheckGrid(columns int, onTurn func(int, bool)) *checkGrid {
	return &checkGrid{box: fyneGrid(columns), onTurn: onTurn}
}

func (g *checkGrid) set(views []ToggleView) {
	for len(g.checks) < len(views) {
		i := len(g.checks)
		c := newCheck("")
		c.onTurn = func(on bool) { g.onTurn(i, on) }
		g.checks = append(g.checks, c)
		g.box.Add(c)
	}
	for i, c := range g.checks {
		c.Hidden = i >= len(views)
		if !c.Hidden {
			c.setWord(views[i].Word)
			c.set(views[i].On)
		}
	}
	g.box.Hidden = len(views) == 0
}
