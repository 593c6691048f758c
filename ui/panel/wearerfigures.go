package panel

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"quarterstep/ui/theme"
)

// FigureView is one named figure: "Bust", "43 5/16 in".
type FigureView struct{ Name, Figure string }

// figureRows lists named figures, one a line.
type figureRows struct {
	widget.BaseWidget
	rows []FigureView
}

func newFigureRows() *figureRows {
	f := &figureRows{}
	f.ExtendBaseWidget(f)
	return f
}

func (f *figureRows) set(rows []FigureView) {
	if !slices.Equal(f.rows, rows) {
		f.rows = slices.Clone(rows)
		f.Refresh()
	}
}

func (f *figureRows) CreateRenderer() fyne.WidgetRenderer {
	var cells []*saying
	var lines []*canvas.Rectangle
	d := &drawn{}
	d.paint = func(p theme.Palette) {
		for len(lines) < len(f.rows) {
			figure := newWords("", theme.Body, ink)
			figure.align = fyne.TextAlignTrailing
			cells = append(cells, newCut("", theme.Body, inkSoft), figure)
			lines = append(lines, canvas.NewRectangle(nil))
		}
		d.objects = nil
		for i, row := range f.rows {
			cells[2*i].setText(row.Name)
			cells[2*i+1].setText(row.Figure)
			lines[i].FillColor = p.Separator
			d.objects = append(d.objects, lines[i], cells[2*i], cells[2*i+1])
		}
	}
	d.min = func() fyne.Size { return fyne.NewSize(100, theme.Px(pointRow)*float32(len(f.rows))) }
	d.lay = func(size fyne.Size) {
		h := theme.Px(pointRow)
		for i := range f.rows {
			y := h * float32(i)
			m := cells[2*i].MinSize().Height
			w := cells[2*i+1].MinSize().Width
			place(lines[i], 0, y, size.Width, 1)
			place(cells[2*i], 0, y+(h-m)/2, max(size.Width-w-8, 0), m)
			place(cells[2*i+1], size.Width-w, y+(h-m)/2, w, m)
		}
	}
	return d.ready()
}
