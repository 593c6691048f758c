package panel

import (
	"fyne.io/fyne/v2"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// LimitView is how far a check lets something go: what, the figure and its unit,
// and where the usual figure is from. Usual is that figure where she set another.
type LimitView struct{ Title, Figure, Unit, Source, Usual string }

// limitList is the limits of the checks, shown when asked for.
type limitList struct {
	open    *link
	box     *fyne.Container
	rows    []*limitRow
	hint    *note
	onText  func(i int, text string) error
	onUsual func(i int)
	onGrown func()
}

type limitRow struct {
	title, source *saying
	field         *field
	usual         *link
	all           *fyne.Container
}

func newLimitList() *limitList {
	l := &limitList{hint: newNote(sideContent)}
	l.box = below(4, l.hint)
	l.box.Hidden = true
	l.open = newLink(words.T("Limits"), func() {
		l.box.Hidden = !l.box.Hidden
		l.sayOpen()
		call(l.onGrown)
	})
	return l
}

func (l *limitList) sayOpen() {
	word := words.T("Limits")
	if !l.box.Hidden {
		word = words.T("Hide limits")
	}
	l.open.setWord(word)
}

func (l *limitList) set(views []LimitView) {
	for len(l.rows) < len(views) {
		r := l.newRow(len(l.rows))
		l.rows = append(l.rows, r)
		l.box.Add(r.all)
	}
	for i, r := range l.rows {
		r.all.Hidden = i >= len(views)
		if !r.all.Hidden {
			r.set(views[i])
		}
	}
	relay(l.box)
}

func (l *limitList) newRow(i int) *limitRow {
	r := &limitRow{
		title:  newWrapped("", theme.Body, ink, sideContent-limitField-8),
		source: newWrapped("", theme.Caption, inkSoft, sideContent),
		field:  newField("", func(text string) error { return l.onText(i, text) }),
		usual:  newLink("", func() { call1(l.onUsual, i) }),
	}
	r.field.onHint = func(why string) {
		l.hint.set(why, true)
		relay(l.box)
		call(l.onGrown)
	}
	r.all = below(2, rule(), beside(8, 0, r.title, roomy(limitField, 0, r.field)), r.source, beside(0, noneGrows, r.usual))
	return r
}

// limitField is how wide a limit's field is, px.
const limitField = 104

func (r *limitRow) set(v LimitView) {
	r.title.setText(v.Title)
	r.source.setText(v.Source)
	r.field.set(v.Figure)
	r.field.setUnit(v.Unit)
	r.usual.setWord(words.F("As usual, %s", v.Usual))
	r.usual.Hidden = v.Usual == ""
	relay(r.all)
}
