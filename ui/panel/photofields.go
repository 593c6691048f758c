package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// measuredRow is two lengths side by side, each with its name above it, and why
// what was typed was refused.
type measuredRow struct {
	row    *fyne.Container
	names  [2]*saying
	fields [2]*field
	hint   *note
}

// newMeasuredRow makes a hidden row; grown is called when the hint comes or goes.
func newMeasuredRow(typed func(i int, text string) error, grown func()) measuredRow {
	r := measuredRow{hint: newNote(sideContent)}
	for i := range r.fields {
		r.names[i] = newWords("", theme.Caption, inkSoft)
		r.fields[i] = newField("", func(text string) error { return typed(i, text) })
		r.fields[i].onHint = func(why string) {
			r.hint.set(why, true)
			grown()
		}
	}
	r.row = fyneGrid(2, below(2, r.names[0], r.fields[0]), below(2, r.names[1], r.fields[1]))
	r.row.Hide()
	return r
}

// set shows up to two lengths; with none the row is hidden.
func (r measuredRow) set(v []MeasuredView) {
	r.row.Hidden = len(v) == 0
	for i := range r.fields {
		used := i < len(v)
		r.fields[i].Hidden, r.names[i].Hidden = !used, !used
		if used {
			r.names[i].setText(v[i].Name)
			r.fields[i].set(v[i].Text)
			r.fields[i].setUnit(v[i].Unit)
			r.fields[i].setOff(v[i].Off)
		} else {
			r.fields[i].giveUp()
		}
	}
}

// partRows are the photos on one flat picture, each with how well it fits.
type partRows struct {
	widget.BaseWidget
	onPick func(i int)
	list   *fyne.Container
	view   []PartView
}

func newPartRows(onPick func(i int)) *partRows {
	r := &partRows{onPick: onPick, list: below(4)}
	r.ExtendBaseWidget(r)
	r.Hidden = true
	return r
}

func (r *partRows) set(v []PartView) {
	same := len(v) == len(r.view)
	for i := 0; same && i < len(v); i++ {
		same = v[i] == r.view[i]
	}
	if r.Hidden = len(v) == 0; same {
		return
	}
	r.view = v
	r.list.Objects = nil
	for i, k := range v {
		const name = 92
		r.list.Add(beside(8, 1, sized(name, 0, newLink(k.Name, func() { r.onPick(i) })),
			newWrapped(k.Words, theme.Caption, inkSoft, sideContent-name-8)))
	}
	relay(r.list)
}

// CreateRenderer is Fyne's.
func (r *partRows) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(r.list)
}
