package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
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
	NoTurn  bool // this paper has no tall and wide
	Overlap string
	Margin  string
	Unit    string // of overlap and margin
	Beam    *BeamView

	Shown       []ToggleView // what goes on paper: "New line, 48", "Printed nest"
	Pieces      []ToggleView // the pieces printed
	PiecesState string       // "all 7"
	Sizes       []ToggleView // the sizes printed
	SizesState  string       // "48 only"

	Scale ScaleView
	Note  string // something to look at; may be empty
	Moved bool   // pieces were moved by hand

	Printers []string // what the pages can go to; empty for none
	Printer  int
	Changed  ToggleView // "Only the 3 pages that changed"; without a word it is hidden
	Print    string     // "Print 16 pages"
	Save     string     // "Save PDF"
	Sending  string     // how far the printing is; empty for none under way
	Busy     bool       // nothing can be printed now
}

// BeamView is how a page for a projector looks.
type BeamView struct {
	Dark bool   // white on black
	Line string // width of every line
	Unit string
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
	OnDark    func(dark bool)
	OnLine    func(text string) error
	OnShown   func(i int, on bool)
	OnPiece   func(i int, on bool)
	OnSize    func(i int, on bool)

	OnTestPage      func()
	OnAcross        func(text string) error
	OnDown          func(text string) error
	OnInsist        func()
	OnForget        func()
	OnPrinter       func(i int)
	OnChanged       func(on bool)
	OnPrint, OnSave func()
	OnCancel        func()
	OnOther         func() // other ways out: a menu
	OnAnew          func() // lay the pieces out anew
	OnGrown         func()

	pages          *pageMap
	count, summary *saying
	papers         *pick
	turn           *twoWay
	overlap        *field
	margin         *field
	beam           *fyne.Container
	dark           *twoWay
	line           *field
	hint           *note
	shown          *checkGrid
	pieces, sizes  *unfold
	whichPieces    *checkGrid
	whichSizes     *checkGrid
	scale          *scaleCheck
	look           *note
	printers       *pick
	printerRow     fyne.CanvasObject
	changed        *check
	sending        *saying
	cancel, anew   *link
	print, save    *Push
	box            *fyne.Container
}

const mapWidth = 206

// NewPages makes the panel's content.
func NewPages() *Pages {
	p := &Pages{
		pages:    newPageMap(mapWidth),
		count:    newBold("", theme.Body, ink),
		summary:  newWrapped("", theme.Caption, inkSoft, sideContent-mapWidth-12),
		papers:   newPick(150),
		turn:     newTwoWay(words.T("Tall"), words.T("Wide"), ""),
		dark:     newTwoWay(words.T("Black on white"), words.T("White on black"), ""),
		hint:     newNote(sideContent),
		look:     newNote(sideContent),
		printers: newPick(150),
		changed:  newCheck(""),
		sending:  newWrapped("", theme.Caption, inkSoft, sideContent-70),
	}
	grown := func() {
		relay(p.box)
		call(p.OnGrown)
	}
	p.pages.onPage = func(i int) { call1(p.OnPage, i) }
	p.papers.onPick = func(i int) { call1(p.OnPaper, i) }
	p.printers.onPick = func(i int) { call1(p.OnPrinter, i) }
	p.turn.onTurn = func(wide bool) { call1(p.OnWide, wide) }
	p.dark.onTurn = func(dark bool) { call1(p.OnDark, dark) }
	p.changed.onTurn = func(on bool) { call1(p.OnChanged, on) }
	p.overlap = newField("mm", func(text string) error { return askText(p.OnOverlap, text) })
	p.margin = newField("mm", func(text string) error { return askText(p.OnMargin, text) })
	p.line = newField("mm", func(text string) error { return askText(p.OnLine, text) })
	hint := func(why string) {
		p.hint.set(why, true)
		grown()
	}
	p.overlap.onHint, p.margin.onHint, p.line.onHint = hint, hint, hint
	p.shown = newCheckGrid(2, func(i int, on bool) { call2(p.OnShown, i, on) })
	p.whichPieces = newCheckGrid(2, func(i int, on bool) { call2(p.OnPiece, i, on) })
	p.whichSizes = newCheckGrid(4, func(i int, on bool) { call2(p.OnSize, i, on) })
	p.pieces = newUnfold(words.T("Pieces"), below(0, p.whichPieces.box), grown)
	p.sizes = newUnfold(words.T("Sizes"), below(0, p.whichSizes.box), grown)
	p.scale = newScaleCheck(
		func() { call(p.OnTestPage) },
		func(text string) error { return askText(p.OnAcross, text) },
		func(text string) error { return askText(p.OnDown, text) },
		func() { call(p.OnInsist) }, func() { call(p.OnForget) },
	)
	p.cancel = newLink(words.T("Cancel"), func() { call(p.OnCancel) })
	p.anew = newLink(words.T("Lay out anew"), func() { call(p.OnAnew) })
	p.print = NewPush(words.T("Print"), func() { call(p.OnPrint) })
	p.print.Importance = widget.HighImportance
	p.print.Icon = drawing(theme.Printer)
	p.save = NewPush(words.T("Save PDF"), func() { call(p.OnSave) })
	p.lay()
	p.ExtendBaseWidget(p)
	p.SetView(PagesView{Page: -1})
	return p
}

func (p *Pages) lay() {
	caption := func(text string, o fyne.CanvasObject) fyne.CanvasObject {
		return below(2, newWords(text, theme.Caption, inkSoft), o)
	}
	p.beam = fyneGrid(2, caption(words.T("For the projector"), p.dark), caption(words.T("Lines as wide as"), p.line))
	p.printerRow = caption(words.T("Printer"), p.printers)
	p.box = below(
		8,
		container.NewBorder(nil, nil, p.pages, nil, inset(0, 0, 8, 0, below(2, p.count, p.summary))),
		rule(),
		beside(8, 0, p.papers, p.turn),
		fyneGrid(2, caption(words.T("Overlap to glue"), p.overlap), caption(words.T("Printer's own margin"), p.margin)),
		p.beam,
		p.hint,
		rule(),
		p.shown.box,
		p.pieces.box,
		p.sizes.box,
		rule(),
		p.printerRow,
		p.scale.box,
		rule(),
		p.look,
		p.changed,
		beside(8, 0, p.sending, p.cancel),
		beside(8, 0, sized(0, controlHeight, p.print), p.save),
		beside(8, noneGrows, newLink(words.T("Other ways out ..."), func() { call(p.OnOther) }), p.anew),
	)
}

func fyneGrid(columns int, objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(evenly{columns}, objects...)
}

// SetView shows a view.
func (p *Pages) SetView(v PagesView) {
	p.pages.set(v.Columns, v.Pages, v.Page)
	p.count.setText(v.Count)
	p.summary.setWrap(sideContent - 12 - p.pages.wide()/theme.Px(1))
	p.summary.setText(v.Summary)
	p.papers.set(v.Papers, v.Paper)
	p.turn.set(v.Wide)
	p.turn.Hidden = v.NoTurn
	p.overlap.set(v.Overlap)
	p.margin.set(v.Margin)
	p.overlap.setUnit(v.Unit)
	p.margin.setUnit(v.Unit)
	p.beam.Hidden = v.Beam == nil
	if v.Beam != nil {
		p.dark.set(v.Beam.Dark)
		p.line.set(v.Beam.Line)
		p.line.setUnit(v.Beam.Unit)
	}
	p.shown.set(v.Shown)
	p.whichPieces.set(v.Pieces)
	p.pieces.setState(v.PiecesState)
	p.whichSizes.set(v.Sizes)
	p.sizes.setState(v.SizesState)
	p.sizes.box.Hidden = len(v.Sizes) == 0
	p.scale.set(v.Scale)
	p.look.set(v.Note, true)
	p.anew.Hidden = !v.Moved
	p.setWayOut(v)
	relay(p.box)
}

// setWayOut shows where the pages go.
func (p *Pages) setWayOut(v PagesView) {
	p.printers.set(v.Printers, v.Printer)
	p.printerRow.(*fyne.Container).Hidden = len(v.Printers) == 0
	p.changed.setWord(v.Changed.Word)
	p.changed.set(v.Changed.On)
	p.changed.Hidden = v.Changed.Word == ""
	p.sending.setText(v.Sending)
	p.sending.Hidden, p.cancel.Hidden = v.Sending == "", v.Sending == ""
	off := v.Busy || len(v.Pages) == 0
	setButton(p.print, v.Print, off || v.Sending != "")
	setButton(p.save, v.Save, off)
}

func setButton(b *Push, text string, off bool) {
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
