package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// GrowthView is how a piece printed in one size grows. Of gaps and cut lines
// only those that are the choice are filled in.
type GrowthView struct {
	Piece   string // "Sleeve was printed in size 38 only."
	Choices []ChoiceView
	Choice  int
	Gaps    *GapsView
	Spread  *SpreadView
	Note    string // something to look at
}

// GapsView is the gaps the sewist types.
type GapsView struct {
	Say    string // what is typed, and to which size
	Points []PointView
	Point  int // in hand, -1 for none
}

// SpreadView is the cut lines the paper is spread at.
type SpreadView struct {
	Say     string // where their shares come from
	Title   string // "Cut lines, opened for 48"
	Cuts    []ChoiceView
	Cut     int // in hand, -1 for none
	Follows []string
	Follow  int
	Share   string // "1/16"
	Unit    string // of Share: "mm" where it is a length
	Asks    string // what Share is: "Share of the bust's growth"
	Means   string // what it comes to: "1/16 of the bust is 2.5 mm a size."
	Status  string // how far the share can be trusted
}

// Growth is the side panel for a piece printed in one size.
type Growth struct {
	widget.BaseWidget
	OnChoice   func(i int)
	OnPoint    func(i int)
	OnOut      func(point int, text string) error
	OnDown     func(point int, text string) error
	OnDefaults func()
	OnAdd      func(crosswise bool)
	OnCut      func(i int)
	OnFollow   func(i int)
	OnShare    func(text string) error
	OnTakeOut  func(i int)
	OnGrown    func() // the panel grew or shrank by itself

	piece  *saying
	ways   *choiceList
	gaps   *fyne.Container
	gapSay *saying
	points *pointTable
	spread *spreadPart
	hint   *note
	note   *note
	box    *fyne.Container
}

// NewGrowth makes the panel's content.
func NewGrowth() *Growth {
	p := &Growth{
		piece:  newWrapped("", theme.Body, ink, sideContent),
		gapSay: newWrapped("", theme.Caption, inkSoft, sideContent),
		points: newPointTable(),
		hint:   newNote(sideContent),
		note:   newNote(sideContent),
	}
	p.ways = newChoiceList(func(i int) { call1(p.OnChoice, i) })
	p.points.onPoint = func(i int) { call1(p.OnPoint, i) }
	p.points.onOut = func(i int, text string) error { return ask(p.OnOut, i, text) }
	p.points.onDown = func(i int, text string) error { return ask(p.OnDown, i, text) }
	p.gaps = below(6, p.gapSay, p.points)
	p.spread = newSpreadPart(p)
	p.spread.share.onHint, p.points.cell.onHint = p.showHint, p.showHint
	p.box = below(6, p.piece, p.ways.box, rule(), p.gaps, p.spread.box, p.hint, p.note)
	p.ExtendBaseWidget(p)
	return p
}

// showHint says why typed words were not taken; "" when all is well.
func (p *Growth) showHint(why string) {
	p.hint.set(why, true)
	relay(p.box)
	call(p.OnGrown)
}

// SetView shows a view.
func (p *Growth) SetView(v GrowthView) {
	p.piece.setText(v.Piece)
	p.ways.set(v.Choices, v.Choice)
	p.gaps.Hidden, p.spread.box.Hidden = v.Gaps == nil, v.Spread == nil
	if v.Gaps != nil {
		p.gapSay.setText(v.Gaps.Say)
		p.points.set(v.Gaps.Points, v.Gaps.Point)
		relay(p.gaps)
	}
	if v.Spread != nil {
		p.spread.set(*v.Spread)
	}
	p.note.set(v.Note, true)
	relay(p.box)
}

// CreateRenderer is Fyne's.
func (p *Growth) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.box) }

// choiceList is ways to choose from, one below the other.
type choiceList struct {
	box    *fyne.Container
	rows   []*choice
	onPick func(i int)
}

func newChoiceList(onPick func(int)) *choiceList {
	return &choiceList{box: below(0), onPick: onPick}
}

func (l *choiceList) set(views []ChoiceView, chosen int) {
	for len(l.rows) < len(views) {
		i := len(l.rows)
		c := newChoice(func() { l.onPick(i) })
		l.rows = append(l.rows, c)
		l.box.Add(c)
	}
	for i, c := range l.rows {
		c.Hidden = i >= len(views)
		if !c.Hidden {
			c.set(views[i], i == chosen)
		}
	}
	l.box.Hidden = len(views) == 0
	relay(l.box)
}
