package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// MeasureView is one body measure of the wearer.
type MeasureView struct {
	Name  string // "Back waist length"
	Own   string // as typed, without the unit; "" for the chart's
	Chart string // the chart's, shown faint while nothing is typed
	Place string // where it falls on the chart: "48 1/2", "beyond 62"
	Off   bool   // it lies beyond the chart
}

// measureRows lists the measures, a field for each.
type measureRows struct {
	box    *fyne.Container
	rows   []*measureRow
	onText func(i int, text string) error
	onHint func(string)
}

func newMeasureRows(onText func(int, string) error, onHint func(string)) *measureRows {
	return &measureRows{box: below(4), onText: onText, onHint: onHint}
}

func (m *measureRows) set(views []MeasureView, unit string) {
	for len(m.rows) < len(views) {
		i := len(m.rows)
		r := newMeasureRow(func(text string) error { return m.onText(i, text) })
		r.field.onHint = m.onHint
		m.rows = append(m.rows, r)
		m.box.Add(r)
	}
	for i, r := range m.rows {
		r.Hidden = i >= len(views)
		if !r.Hidden {
			r.set(views[i], unit)
		}
	}
	relay(m.box)
}

// measureRow is a measure's name, its field, and its place on the chart.
type measureRow struct {
	widget.BaseWidget
	field *field
	view  MeasureView
}

func newMeasureRow(onText func(string) error) *measureRow {
	r := &measureRow{field: newField("", onText)}
	r.ExtendBaseWidget(r)
	return r
}

func (r *measureRow) set(v MeasureView, unit string) {
	r.field.set(v.Own)
	r.field.setUnit(unit)
	if r.field.entry.PlaceHolder != v.Chart {
		r.field.entry.SetPlaceHolder(v.Chart)
	}
	if r.view != v {
		r.view = v
		r.Refresh()
	}
}

func (r *measureRow) CreateRenderer() fyne.WidgetRenderer {
	name := newWrapped("", theme.Body, ink, measureNameWide)
	placed := newCut("", theme.Body, ink)
	placed.align = fyne.TextAlignTrailing
	look := newMark(theme.Look, 15, ink)
	d := &drawn{objects: []fyne.CanvasObject{name, r.field, look, placed}}
	d.paint = func(theme.Palette) {
		name.setText(r.view.Name)
		look.Hidden = !r.view.Off
		switch {
		case r.view.Off:
			placed.set(r.view.Place, amberInk, true)
		case r.view.Own == "":
			placed.set(r.view.Place, inkFaint, false)
		default:
			placed.set(r.view.Place, ink, false)
		}
	}
	d.min = func() fyne.Size {
		return fyne.NewSize(theme.Px(sideContent), max(r.field.MinSize().Height, name.MinSize().Height))
	}
	d.lay = func(size fyne.Size) {
		at, wide := theme.Px(measureNameWide)+6, theme.Px(measureFieldWide)
		middle(name, 0, theme.Px(measureNameWide), size.Height)
		place(r.field, at, (size.Height-r.field.MinSize().Height)/2, wide, r.field.MinSize().Height)
		room, side := max(size.Width-at-wide-6, 0), theme.Px(15)
		if r.view.Off {
			room = max(room-side-4, 0)
		}
		need := min(placed.measure(placed.text).Width+1, room)
		middle(placed, size.Width-need, need, size.Height)
		place(look, size.Width-need-side-4, 0, side, size.Height)
	}
	return d.ready()
}

// Widths in a measureRow, in pixels at text scale 1.
const (
	measureNameWide  = 80
	measureFieldWide = 112
)
