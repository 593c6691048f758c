package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// DartView is how the dart in hand stands and what is kept of it.
type DartView struct {
	Name   string // "Bust dart of Front bodice"
	Legs   string // "141.2 and 141.3 mm"
	Width  string // "28.1 mm, printed 27.9 to 28.1 mm"
	Seam   string // "turns by 4.2° with the dart closed"
	Note   string // why it could not be kept or trued; "" for none
	Closed bool   // shown folded shut
	Trued  bool
	Kept   bool
}

// Dart is the side panel for the dart in hand.
type Dart struct {
	widget.BaseWidget
	OnClose  func(on bool)
	OnTrue   func(on bool)
	OnKeep   func(on bool)
	OnRemove func()

	name                *saying
	legs, width, seam   *saying
	closed, trued, kept *check
	note                *note
	box                 *fyne.Container
}

// NewDart makes the panel's content.
func NewDart() *Dart {
	figure := func() *saying { return newWrapped("", theme.Body, ink, sideContent-dartWord) }
	p := &Dart{
		name: newBold("", theme.Body, ink), legs: figure(), width: figure(), seam: figure(),
		closed: newCheck(words.T("Show it closed")), trued: newCheck(words.T("True the seam across it")), kept: newCheck(words.T("Keep its width as printed")),
		note: newNote(sideContent),
	}
	p.closed.onTurn = func(on bool) { call1(p.OnClose, on) }
	p.trued.onTurn = func(on bool) { call1(p.OnTrue, on) }
	p.kept.onTurn = func(on bool) { call1(p.OnKeep, on) }
	row := func(word string, figure *saying) *fyne.Container {
		return beside(0, 1, sized(dartWord, 0, newWords(word, theme.Body, inkSoft)), figure)
	}
	p.box = below(4,
		p.name,
		row(words.T("Legs"), p.legs), row(words.T("Width"), p.width), row(words.T("Seam"), p.seam),
		p.note,
		p.closed, p.trued, p.kept,
		beside(8, noneGrows, newLink(words.T("Take the dart away"), func() { call(p.OnRemove) })),
	)
	p.ExtendBaseWidget(p)
	return p
}

// dartWord is how wide the words before the figures are, px.
const dartWord = 68

// SetView shows a view.
func (p *Dart) SetView(v DartView) {
	p.name.setText(v.Name)
	p.legs.setText(v.Legs)
	p.width.setText(v.Width)
	p.seam.setText(v.Seam)
	p.note.set(v.Note, true)
	p.closed.set(v.Closed)
	p.trued.set(v.Trued)
	p.kept.set(v.Kept)
	relay(p.box)
}

// CreateRenderer is Fyne's.
func (p *Dart) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.box) }
