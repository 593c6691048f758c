package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// WearerView is the person the pattern is for.
type WearerView struct {
	Name string
	// Empty says what to do while there is no chart; nothing but the name shows
	// beside it.
	Empty    string
	Size     string // the size wanted of the chart: "48"
	Own      bool   // her own measurements are asked for
	OwnCount string // "2 of 3"
	Measures []MeasureView
	Unit     string       // what the measurements are typed in: "in"
	Figures  []FigureView // the chart's measures, in place of Measures
	Rest     string       // "What you leave empty goes by size 48."
	Notes    []string     // things to look at
	Ease     []EaseView
	// EaseWaits: Ease is of the pattern as it was before, and is being measured anew.
	EaseWaits bool
	EaseUnit  string   // "in"
	Unknown   []string // girths without a figure, and why
}

// Wearer is the side panel of the person the pattern is for.
type Wearer struct {
	widget.BaseWidget
	OnName    func(name string) error
	OnOwn     func(own bool)                 // size from the chart, or own measurements
	OnMeasure func(i int, text string) error // "" for the chart's
	OnGrown   func()                         // the panel grew or shrank by itself

	name     *field
	hint     *note
	empty    *saying
	byChart  *choice
	own      *choice
	figures  *figureRows
	measures *measureRows
	rest     *saying
	notes    *noteList
	ease     *easeTable
	chart    *fyne.Container // what shows once there is a chart
	box      *fyne.Container
}

// NewWearer makes the panel's content.
func NewWearer() *Wearer {
	p := &Wearer{
		hint:    newNote(sideContent),
		empty:   newWrapped("", theme.Body, ink, sideContent),
		figures: newFigureRows(),
		rest:    newWrapped("", theme.Caption, inkSoft, sideContent),
		notes:   newNoteList(),
		ease:    newEaseTable(),
	}
	p.name = newField("", func(text string) error { return askText(p.OnName, text) })
	p.name.onHint = p.showHint
	p.byChart = newChoice(func() { call1(p.OnOwn, false) })
	p.own = newChoice(func() { call1(p.OnOwn, true) })
	p.measures = newMeasureRows(func(i int, text string) error {
		if p.OnMeasure == nil {
			return nil
		}
		return p.OnMeasure(i, text)
	}, p.showHint)
	p.chart = below(6, below(0, p.byChart, p.own), p.measures.box, p.hint, p.figures, p.rest, p.notes.box, p.ease)
	p.box = below(8, below(2, newWords(words.T("Name"), theme.Caption, inkSoft), p.name), p.empty, p.chart)
	p.ExtendBaseWidget(p)
	p.SetView(WearerView{})
	return p
}

// showHint says why typed words were not taken; "" when all is well.
func (p *Wearer) showHint(why string) {
	p.hint.set(why, true)
	p.relay()
	if p.OnGrown != nil {
		p.OnGrown()
	}
}

func (p *Wearer) relay() {
	relay(p.chart)
	relay(p.box)
}

// SetView shows a view.
func (p *Wearer) SetView(v WearerView) {
	p.name.set(v.Name)
	p.empty.setText(v.Empty)
	p.empty.Hidden, p.chart.Hidden = v.Empty == "", v.Empty != ""
	p.byChart.set(ChoiceView{Name: words.T("Size from the chart"), Figure: v.Size}, !v.Own)
	p.own.set(ChoiceView{Name: words.T("Own measurements"), Figure: v.OwnCount}, v.Own)
	p.figures.Hidden, p.measures.box.Hidden = v.Own, !v.Own
	p.figures.set(v.Figures)
	p.measures.set(v.Measures, v.Unit)
	p.rest.setText(v.Rest)
	p.rest.Hidden = v.Rest == ""
	p.notes.set(v.Notes)
	p.ease.set(v.Ease, v.EaseUnit, v.Unknown, v.EaseWaits)
	p.relay()
}

// CreateRenderer is Fyne's.
func (p *Wearer) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.box) }

// noteList is a note for each thing to look at.
type noteList struct {
	box   *fyne.Container
	notes []*note
}

func newNoteList() *noteList {
	l := &noteList{box: below(4)}
	l.box.Hide()
	return l
}

func (l *noteList) set(texts []string) {
	for len(l.notes) < len(texts) {
		n := newNote(sideContent)
		l.notes = append(l.notes, n)
		l.box.Add(n)
	}
	for i, n := range l.notes {
		text := ""
		if i < len(texts) {
			text = texts[i]
		}
		n.set(text, true)
	}
	l.box.Hidden = len(texts) == 0
	relay(l.box)
}
