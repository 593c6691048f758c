package panel

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// gapRow shows the gaps printed between sizes, side by side.
type gapRow struct {
	widget.BaseWidget
	gaps []GapView
}

func newGapRow() *gapRow {
	g := &gapRow{}
	g.ExtendBaseWidget(g)
	return g
}

func (g *gapRow) set(gaps []GapView) {
	if !slices.Equal(g.gaps, gaps) {
		g.gaps = slices.Clone(gaps)
		g.Refresh()
	}
}

func (g *gapRow) CreateRenderer() fyne.WidgetRenderer {
	title := newWords(words.T("Gap printed between sizes"), theme.Caption, inkSoft)
	var cells []*saying // between, gap, between, gap
	d := &drawn{}
	d.paint = func(theme.Palette) {
		for len(cells) < 2*len(g.gaps) {
			cells = append(cells, newCut("", theme.Caption, inkSoft), newCut("", theme.Body, ink))
		}
		d.objects = []fyne.CanvasObject{title}
		for i, gap := range g.gaps {
			cells[2*i].setText(gap.Between)
			cells[2*i+1].set(gap.Gap, ink, true)
			d.objects = append(d.objects, cells[2*i], cells[2*i+1])
		}
	}
	line := func() float32 { return title.MinSize().Height + 2 }
	d.min = func() fyne.Size { return fyne.NewSize(100, 3*line()+2) }
	d.lay = func(size fyne.Size) {
		place(title, 0, 0, size.Width, line())
		step := size.Width / float32(max(len(g.gaps), 4))
		for i := range g.gaps {
			x := float32(i) * step
			place(cells[2*i], x, line(), step-4, line())
			place(cells[2*i+1], x, 2*line(), step-4, line())
		}
	}
	return d.ready()
}
