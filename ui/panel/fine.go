package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// fineRow is a check that found nothing: its name, and how things stand.
type fineRow struct {
	widget.BaseWidget
	view FineView
}

func newFineRow() *fineRow {
	r := &fineRow{}
	r.ExtendBaseWidget(r)
	return r
}

func (r *fineRow) set(v FineView) {
	if r.view != v {
		r.view = v
		r.Refresh()
	}
}

func (r *fineRow) CreateRenderer() fyne.WidgetRenderer {
	const left = 28
	m := newMark(theme.Full, 15, inkSoft)
	title := newWrapped("", theme.Body, ink, sideContent-left)
	say := newWrapped("", theme.Caption, inkSoft, sideContent-left)
	d := &drawn{objects: []fyne.CanvasObject{m, title, say}}
	d.paint = func(theme.Palette) {
		title.setText(r.view.Title)
		say.setText(r.view.Say)
	}
	d.min = func() fyne.Size {
		return fyne.NewSize(theme.Px(sideContent), title.MinSize().Height+say.MinSize().Height+2*4)
	}
	d.lay = func(size fyne.Size) {
		h := title.MinSize().Height
		side, text := theme.Px(15), theme.Px(left)
		place(m, 3, 6, side, side)
		place(title, text, 4, title.MinSize().Width, h)
		place(say, text, 4+h, say.MinSize().Width, say.MinSize().Height)
	}
	return d.ready()
}
