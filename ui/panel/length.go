package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// LengthView is what can be made longer or shorter, and what it comes to.
type LengthView struct {
	Say    string // how it is done, or what is missing
	Groups []LengthGroupView
	Hand   int    // the group in hand, -1 for none
	Unit   string // of every Field
	Title  string // "Lengths on paper"; empty with no Paper
	Paper  []FigureView
	Note   string // why an amount could not be put in
	Undo   bool   // something is put in, so it can be taken back
}

// LengthGroupView is one amount: "Above the waist", and the pieces it goes into
// with their change.
type LengthGroupView struct {
	Name   string
	Field  string // "2"; "0" where nothing is put in
	Pieces []FigureView
}

// Length is the side panel for lengthening and shortening.
type Length struct {
	widget.BaseWidget
	OnGroup    func(i int)
	OnLength   func(i int, text string) error
	OnAdd      func()
	OnTakeBack func()
	OnGrown    func() // the panel grew or shrank by itself

	say    *saying
	rows   []*lengthRow
	groups *fyne.Container
	add    *link
	back   *link
	title  *saying
	paper  *figureRows
	hint   *note
	note   *note
	box    *fyne.Container
}

// NewLength makes the panel's content.
func NewLength() *Length {
	p := &Length{
		say:    newWrapped("", theme.Caption, inkSoft, sideContent),
		groups: below(6),
		title:  newWords("", theme.Caption, inkSoft),
		paper:  newFigureRows(),
		hint:   newNote(sideContent),
		note:   newNote(sideContent),
	}
	p.add = newLink(words.T("Add a line"), func() { call(p.OnAdd) })
	p.back = newLink(words.T("Take all of it back"), func() { call(p.OnTakeBack) })
	p.box = below(6, p.say, p.groups, p.hint, p.note, beside(8, noneGrows, p.add, p.back), p.title, p.paper)
	p.ExtendBaseWidget(p)
	return p
}

// SetView shows a view.
func (p *Length) SetView(v LengthView) {
	p.say.setText(v.Say)
	for len(p.rows) < len(v.Groups) {
		p.addRow()
	}
	for i, r := range p.rows {
		r.box.Hidden = i >= len(v.Groups)
		if !r.box.Hidden {
			r.set(v.Groups[i], v.Unit, i == v.Hand)
		}
	}
	p.back.Hidden = !v.Undo
	p.title.setText(v.Title)
	p.title.Hidden = v.Title == ""
	p.paper.set(v.Paper)
	p.paper.Hidden = len(v.Paper) == 0
	p.note.set(v.Note, true)
	relay(p.groups)
	relay(p.box)
}

// addRow makes room for one more group.
func (p *Length) addRow() {
	i := len(p.rows)
	r := newLengthRow(func() { call1(p.OnGroup, i) }, func(text string) error { return ask(p.OnLength, i, text) })
	r.field.onHint = func(why string) {
		p.hint.set(why, true)
		relay(p.box)
		call(p.OnGrown)
	}
	p.rows = append(p.rows, r)
	p.groups.Add(r.box)
}

// CreateRenderer is Fyne's.
func (p *Length) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.box) }

// lengthRow is one group: its name, the field for its amount, and its pieces.
type lengthRow struct {
	box    *fyne.Container
	name   *choice
	field  *field
	pieces *figureRows
}

func newLengthRow(pick func(), commit func(string) error) *lengthRow {
	r := &lengthRow{name: newChoice(pick), field: newField("", commit), pieces: newFigureRows()}
	r.box = below(2,
		beside(8, 0, r.name, roomy(112, controlHeight, r.field)),
		inset(0, 0, 30, 0, r.pieces), rule())
	return r
}

func (r *lengthRow) set(v LengthGroupView, unit string, inHand bool) {
	r.name.set(ChoiceView{Name: v.Name}, inHand)
	r.field.set(v.Field)
	r.field.setUnit(unit)
	r.pieces.set(v.Pieces)
	relay(r.box)
}
