package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// Lines is the part of the Photo panel for the piece that is traced.
type Lines struct {
	widget.BaseWidget
	OnName   func(text string) error
	OnCut    func(i int)
	OnChart  func(i int)
	OnFrom   func(i int)
	OnTo     func(i int)
	OnWay    func(i int)
	OnRow    func(i int)
	OnFollow func(on bool)
	OnFinish func()
	OnNext   func()
	OnUndo   func()
	OnMark   func(i int)
	OnShelf  func()
	OnDrop   func()
	OnHint   func(string)
	OnGrown  func()

	name           *field
	cut            *pick
	chart          *pick
	from, to       *pick
	ways           *pick
	follow         *check
	done           *saying
	rows           []*traceRow
	list           *fyne.Container
	finish, undo   *Push
	next, shelf    *Push
	marksTitle     *saying
	marks          *fyne.Container
	markKeys       []*iconButton
	note           *note
	box, sizesPart *fyne.Container
	finishRow      *fyne.Container
	dropRow        *fyne.Container
	change         *link
	open           bool // the sizes are asked for again
	began          bool
}

func newLines() *Lines {
	p := &Lines{
		cut: newPick(110), chart: newPick(150), from: newPick(70), to: newPick(70),
		ways: newPick(150), follow: newCheck(words.T("Follow the printed line between my clicks")),
		done: newWords("", theme.Caption, inkSoft), list: below(0),
		marksTitle: newWords(words.T("Marks: click them on the photo"), theme.Caption, inkSoft),
		marks:      beside(1, noneGrows), note: newNote(sideContent),
	}
	p.chart.setNone(words.T("No chart yet"))
	p.name = newField("", func(text string) error { return askText(p.OnName, text) })
	p.cut.onPick = func(i int) { call1(p.OnCut, i) }
	p.chart.onPick = func(i int) { call1(p.OnChart, i) }
	p.from.onPick = func(i int) { call1(p.OnFrom, i) }
	p.to.onPick = func(i int) { call1(p.OnTo, i) }
	p.ways.onPick = func(i int) { call1(p.OnWay, i) }
	p.follow.onTurn = func(on bool) { call1(p.OnFollow, on) }
	p.finish = NewPush("", func() { call(p.OnFinish) })
	p.next = NewPush("", func() { call(p.OnNext) })
	p.shelf = NewPush("", func() { call(p.OnShelf) })
	p.finish.Importance, p.next.Importance, p.shelf.Importance = widget.HighImportance, widget.HighImportance, widget.HighImportance
	p.undo = NewPush(words.T("Undo point"), func() { call(p.OnUndo) })
	caption := func(text string, o fyne.CanvasObject) fyne.CanvasObject {
		return below(2, newWords(text, theme.Caption, inkSoft), o)
	}
	p.sizesPart = below(6, caption(words.T("Size chart"), p.chart), fyneGrid(2, caption(words.T("Smallest printed"), p.from), caption(words.T("Largest printed"), p.to)), p.ways)
	p.finishRow = beside(8, 0, p.finish, p.undo)
	p.change = newLink(words.T("Other sizes"), func() {
		p.open = !p.open
		p.laySizes()
		call(p.OnGrown)
	})
	p.dropRow = beside(8, noneGrows, newLink(words.T("Give this piece up"), func() { call(p.OnDrop) }), p.change)
	p.box = below(
		8,
		rule(),
		fyneGrid(2, caption(words.T("Piece"), p.name), caption(words.T("Cut"), p.cut)),
		rule(),
		p.sizesPart,
		beside(8, 0, newBold(words.T("Lines to trace"), theme.Body, ink), p.done),
		p.list, p.follow,
		p.shelf, p.next,
		p.finishRow,
		p.note,
		p.marksTitle, p.marks,
		p.dropRow,
	)
	p.ExtendBaseWidget(p)
	return p
}

// SetView shows a view.
func (p *Lines) SetView(v LinesView) {
	p.name.set(v.Piece)
	p.cut.set(v.Cuts, v.Cut)
	p.chart.set(v.Charts, v.Chart)
	p.from.set(v.Sizes, v.From)
	p.to.set(v.Sizes, v.To)
	p.ways.set(v.Ways, v.Way)
	p.follow.set(v.Follow)
	p.done.setText(v.Done)
	for len(p.rows) < len(v.Rows) {
		i := len(p.rows)
		r := newTraceRow(func() { call1(p.OnRow, i) })
		p.rows = append(p.rows, r)
		p.list.Add(r)
	}
	for i, r := range p.rows {
		r.Hidden = i >= len(v.Rows)
		if !r.Hidden {
			r.set(v.Rows[i], i == v.Row)
		}
	}
	p.button(p.finish, v.Finish)
	p.button(p.next, v.Next)
	p.button(p.shelf, v.Shelf)
	p.undo.Hidden = !v.Point
	p.finishRow.Hidden = !v.Point && v.Finish == ""
	if p.began != v.Begun {
		p.began, p.open = v.Begun, false
	}
	p.dropRow.Hidden = !v.Begun
	p.laySizes()
	p.note.set(v.Note, true)
	p.setMarks(v)
	relay(p.list)
	relay(p.box)
}

// laySizes asks for the printed sizes until a piece is begun, and then again
// where that is wanted.
func (p *Lines) laySizes() {
	p.sizesPart.Hidden = p.began && !p.open
	relay(p.box)
}

// button shows a button with its words, or hides it without any.
func (p *Lines) button(b *Push, word string) {
	b.Hidden = word == ""
	if word != "" && b.Text != word {
		b.SetText(word)
	}
}

func (p *Lines) setMarks(v LinesView) {
	p.marksTitle.Hidden, p.marks.Hidden = len(v.Marks) == 0, len(v.Marks) == 0
	for i := len(p.markKeys); i < len(v.Marks); i++ {
		b := newIconButton(v.Marks[i].Name, v.Marks[i].Hint, func() { call1(p.OnMark, i) })
		b.onHint = func(h string) { call1(p.OnHint, h) }
		p.markKeys = append(p.markKeys, b)
		p.marks.Add(b)
	}
	for i, b := range p.markKeys {
		if on := i == v.Mark; b.solid != on {
			b.solid = on
			b.Refresh()
		}
	}
	relay(p.marks)
}

// CreateRenderer is Fyne's.
func (p *Lines) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.box) }
