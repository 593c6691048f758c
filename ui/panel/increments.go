package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// IncrementsView is how far one edge of one piece moves.
type IncrementsView struct {
	Empty string // shown alone when no edge is chosen: "Pick an edge on the Table."

	Edges    []string
	Edge     int
	EdgeNote string // "Underarm to hem, 12 7/16 in"

	Gaps []GapView // the printed gaps, size by size
	Step string    // the gap that each step takes now: "3/8"; cannot be typed while there is no step
	Even bool      // the target is no step away

	Follows    []string // the body measures the edge can follow
	Follow     int
	FollowNote [2]string // "36 1/4 in at 40", "43 5/16 in at 48"

	Past    string // "How far past 40"
	Choices []ChoiceView
	Choice  int
	Note    string
	Look    bool // the note asks to be looked at

	Total string // "1 11/16"
	Unit  string // "in"
	Fixed bool   // the total cannot be typed, as for two printed sizes

	Points []PointView
	Point  int // -1 for none

	With   string // "Move the back side seam with it"; "" when it has no partner
	WithOn bool
}

// GapView is the gap between two printed sizes.
type GapView struct{ Between, Gap string }

// PointView is one grade point and how far it goes out and down.
type PointView struct{ Name, Out, Down string }

// Increments is the side panel in which an edge's movement is read and typed.
type Increments struct {
	widget.BaseWidget
	OnEdge   func(i int)
	OnFollow func(i int)
	OnChoice func(i int)
	OnTotal  func(text string) error
	OnGap    func(text string) error // another gap for every step
	OnStep   func(by int)            // one stop up or down
	OnPoint  func(i int)
	OnOut    func(point int, text string) error
	OnDown   func(point int, text string) error
	OnWith   func(on bool)

	view IncrementsView

	empty, full *fyne.Container
	edges       *pick
	before      *iconButton
	after       *iconButton
	edgeNote    *saying
	gaps        *gapRow
	follows     *pick
	followNotes [2]*saying
	past        *saying
	choices     []*choice
	choiceBox   *fyne.Container
	note        *note
	total       *field
	less, more  *iconButton
	hint        *note
	points      *pointTable
	with        *check
	emptyText   *saying
}

// NewIncrements makes the panel's content, with no edge chosen.
func NewIncrements() *Increments {
	p := &Increments{
		edges:     newPick(120),
		edgeNote:  newWrapped("", theme.Caption, inkSoft, sideContent),
		follows:   newPick(104),
		past:      newWords("", theme.Caption, inkSoft),
		choiceBox: below(0),
		note:      newNote(sideContent),
		hint:      newNote(sideContent),
		with:      newCheck(""),
		emptyText: newWrapped("", theme.Body, inkSoft, sideContent),
	}
	p.wire()
	p.lay()
	p.ExtendBaseWidget(p)
	p.SetView(IncrementsView{Empty: words.T("Pick an edge on the Table.")})
	return p
}

func (p *Increments) wire() {
	p.edges.onPick = func(i int) { call1(p.OnEdge, i) }
	p.before = newIconButton(theme.Left, words.T("The edge before"), func() { p.stepEdge(-1) })
	p.after = newIconButton(theme.Right, words.T("The next edge"), func() { p.stepEdge(1) })
	p.follows.onPick = func(i int) { call1(p.OnFollow, i) }
	p.total = newKeyField(words.C("inches", "in"), func(text string) error {
		if p.OnTotal == nil {
			return nil
		}
		return p.OnTotal(text)
	})
	p.gaps = newGapRow(func(text string) error {
		if p.OnGap == nil {
			return nil
		}
		return p.OnGap(text)
	})
	p.less = newIconButton(theme.Minus, words.T("Add less"), func() { call1(p.OnStep, -1) })
	p.more = newIconButton(theme.Plus, words.T("Add more"), func() { call1(p.OnStep, 1) })
	p.less.solid, p.more.solid = true, true
	p.points = newPointTable()
	p.points.onPoint = func(i int) { call1(p.OnPoint, i) }
	p.points.onOut = func(i int, text string) error { return ask(p.OnOut, i, text) }
	p.points.onDown = func(i int, text string) error { return ask(p.OnDown, i, text) }
	hint := func(why string) {
		p.hint.set(why, true)
		relay(p.full)
	}
	p.total.onHint, p.gaps.step.onHint, p.points.cell.onHint = hint, hint, hint
	p.with.onTurn = func(on bool) { call1(p.OnWith, on) }
	for i := range p.followNotes {
		p.followNotes[i] = newCut("", theme.Caption, inkSoft)
		p.followNotes[i].align = fyne.TextAlignTrailing
	}
}

func (p *Increments) lay() {
	p.full = below(6,
		beside(6, 0, p.edges, p.before, p.after),
		p.edgeNote,
		rule(),
		p.gaps,
		rule(),
		beside(8, 2, newWords(words.T("Follows"), theme.Body, ink), p.follows, below(0, p.followNotes[0], p.followNotes[1])),
		rule(),
		p.past,
		p.choiceBox,
		p.note,
		rule(),
		beside(6, 0, newBold(words.T("Total to add"), theme.Body, ink), p.less, roomy(118, 40, p.total), p.more),
		p.hint,
		rule(),
		p.points,
		p.with,
	)
	p.empty = below(0, p.emptyText)
}

func (p *Increments) stepEdge(by int) {
	n := len(p.view.Edges)
	if n == 0 {
		return
	}
	call1(p.OnEdge, ((p.view.Edge+by)%n+n)%n)
}

// SetView shows a view.
func (p *Increments) SetView(v IncrementsView) {
	p.view = v
	p.emptyText.setText(v.Empty)
	p.empty.Hidden, p.full.Hidden = v.Empty == "", v.Empty != ""
	p.edges.set(v.Edges, v.Edge)
	p.edgeNote.setText(v.EdgeNote)
	p.gaps.set(v.Gaps)
	p.gaps.step.set(v.Step)
	p.gaps.step.setUnit(v.Unit)
	p.gaps.step.setOff(v.Fixed || v.Even)
	p.follows.set(v.Follows, v.Follow)
	for i, n := range p.followNotes {
		n.setText(v.FollowNote[i])
	}
	p.past.setText(v.Past)
	p.setChoices(v)
	p.note.set(v.Note, v.Look)
	p.total.set(v.Total)
	p.total.setUnit(v.Unit)
	p.total.setOff(v.Fixed)
	p.less.setOff(v.Fixed)
	p.more.setOff(v.Fixed)
	p.points.set(v.Points, v.Point)
	p.with.setWord(v.With)
	p.with.set(v.WithOn)
	p.with.Hidden = v.With == ""
	relay(p.full)
}

func (p *Increments) setChoices(v IncrementsView) {
	for len(p.choices) < len(v.Choices) {
		i := len(p.choices)
		c := newChoice(func() { call1(p.OnChoice, i) })
		p.choices = append(p.choices, c)
		p.choiceBox.Add(c)
	}
	for i, c := range p.choices {
		c.Hidden = i >= len(v.Choices)
		if !c.Hidden {
			c.set(v.Choices[i], i == v.Choice)
		}
	}
}

// CreateRenderer is Fyne's.
func (p *Increments) CreateRenderer() fyne.WidgetRenderer { return emptyOrFull(p.empty, p.full) }

// emptyOrFull shows one of two contents, whichever is not hidden.
func emptyOrFull(empty, full *fyne.Container) fyne.WidgetRenderer {
	d := &drawn{objects: []fyne.CanvasObject{empty, full}}
	d.paint = func(theme.Palette) {}
	d.min = func() fyne.Size {
		if full.Hidden {
			return fyne.NewSize(theme.Px(sideContent), empty.MinSize().Height)
		}
		return full.MinSize()
	}
	d.lay = func(size fyne.Size) {
		place(empty, 0, 0, size.Width, size.Height)
		place(full, 0, 0, size.Width, size.Height)
	}
	return d.ready()
}
