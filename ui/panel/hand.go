package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// handList lists the sewist's own corrections, each with a way to take it back.
// It is hidden when there are none.
type handList struct {
	widget.BaseWidget
	rows   []*handRow
	box    *fyne.Container
	onBack func(i int)
}

// backWidth is the room that "Take back" takes of a row.
const backWidth = 84

type handRow struct {
	text *saying
	line *fyne.Container
}

func newHandList(onBack func(i int)) *handList {
	l := &handList{onBack: onBack}
	l.box = below(2, rule(), newWords(words.T("Corrected by eye"), theme.Caption, inkSoft))
	l.Hidden = true
	l.ExtendBaseWidget(l)
	return l
}

func (l *handList) set(texts []string) {
	for len(l.rows) < len(texts) {
		i := len(l.rows)
		r := &handRow{text: newWrapped("", theme.Body, ink, sideContent-backWidth)}
		r.line = beside(6, 0, r.text, newLink(words.T("Take back"), func() { call1(l.onBack, i) }))
		l.rows = append(l.rows, r)
		l.box.Add(r.line)
	}
	for i, r := range l.rows {
		r.line.Hidden = i >= len(texts)
		if !r.line.Hidden {
			r.text.setText(texts[i])
		}
	}
	l.Hidden = len(texts) == 0
	relay(l.box)
}

func (l *handList) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(l.box) }
