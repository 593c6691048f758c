package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// GrowthView is how a piece printed in one size grows.
type GrowthView struct {
	Piece   string // "Sleeve was printed in size 38 only."
	Choices []ChoiceView
	Choice  int
	Points  []PointView // typed gaps, where they are the choice
	Point   int
	Cuts    []string // cut lines in words, where they are the choice
	Spread  bool     // cut lines are the choice
	Cut     int      // the one whose share can be typed; -1 for none
	Names   []string // their short names
	Follows []string // the measures a cut can go by
	Follow  int
	Share   string // "1/16"
	Note    string
}

// Growth is the side panel for a piece printed in one size.
type Growth struct {
	widget.BaseWidget
	OnChoice   func(i int)
	OnOut      func(point int, text string) error
	OnDown     func(point int, text string) error
	OnDefaults func()
	OnAdd      func(crosswise bool)
	OnCut      func(i int)
	OnFollow   func(i int)
	OnShare    func(text string) error
	OnTakeOut  func(i int)
	OnGrown    func()

	piece   *words
	choices []*choice
	ways    *fyne.Container
	points  *pointTable
	gapHint *words
	spread  *fyne.Container
	one     *fyne.Container // the cut line in hand
	cuts    *handList
	cut     *pick
	follow  *pick
	share   *field
	hint    *note
	note    *note
	box     *fyne.Container
}

// NewGrowth makes the panel's content.
func NewGrowth() *Growth {
	p := &Growth{
		piece:   newWrapped("", theme.Body, ink, sideContent),
		ways:    below(0),
		points:  newPointTable(),
		gapHint: newWrapped("How far each grade point moves to the next size up. Press a figure to type it.", theme.Caption, inkSoft, sideContent),
		cut:     newPick(150),
		follow:  newPick(130),
		hint:    newNote(sideContent),
		note:    newNote(sideContent),
	}
	for i := range 3 {
		c := newChoice(func() { call1(p.OnChoice, i) })
		p.choices = append(p.choices, c)
		p.ways.Add(c)
	}
	p.points.onOut = func(i int, text string) error { return ask(p.OnOut, i, text) }
	p.points.onDown = func(i int, text string) error { return ask(p.OnDown, i, text) }
	p.cuts = newHandList(func(i int) { call1(p.OnTakeOut, i) })
	p.cuts.name("Cut lines", "Take out")
	p.cut.onPick = func(i int) { call1(p.OnCut, i) }
	p.follow.onPick = func(i int) { call1(p.OnFollow, i) }
	p.share = newField("", func(text string) error { return askText(p.OnShare, text) })
	p.share.onHint, p.points.cell.onHint = p.showHint, p.showHint
	p.one = below(6,
		rule(),
		beside(8, 0, p.cut, p.follow),
		beside(8, 0, newWords("Share of what it grows", theme.Body, inkSoft), sized(118, 36, p.share)),
	)
	p.spread = below(6,
		beside(8, noneGrows, newLink("Usual cut lines", func() { call(p.OnDefaults) })),
		beside(8, noneGrows,
			newLink("Add one lengthwise", func() { call1(p.OnAdd, false) }),
			newLink("Add one crosswise", func() { call1(p.OnAdd, true) })),
		newWrapped("A quarter of the girth step on each quarter is the published rule; how it divides among the lines, and the lengths, are common practice.", theme.Caption, inkSoft, sideContent),
		p.cuts, p.one,
	)
	p.box = below(6, p.piece, p.ways, rule(), p.gapHint, p.points, p.spread, p.hint, p.note)
	p.ExtendBaseWidget(p)
	return p
}

func (p *Growth) showHint(why string) {
	p.hint.set(why, true)
	relay(p.box)
	call(p.OnGrown)
}

// SetView shows a view.
func (p *Growth) SetView(v GrowthView) {
	p.piece.setText(v.Piece)
	for i, c := range p.choices {
		c.Hidden = i >= len(v.Choices)
		if !c.Hidden {
			c.set(v.Choices[i], i == v.Choice)
		}
	}
	p.points.set(v.Points, v.Point)
	p.points.Hidden, p.gapHint.Hidden = len(v.Points) == 0, len(v.Points) == 0
	p.spread.Hidden = !v.Spread
	p.one.Hidden = len(v.Cuts) == 0
	p.cuts.set(v.Cuts)
	p.cut.set(v.Names, v.Cut)
	p.follow.set(v.Follows, v.Follow)
	p.share.set(v.Share)
	p.note.set(v.Note, true)
	relay(p.spread)
	relay(p.box)
}

// CreateRenderer is Fyne's.
func (p *Growth) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.box) }
