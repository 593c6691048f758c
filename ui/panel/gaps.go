package panel

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/assets/words"
	"quarterstep/ui/theme"
)

// gapRow shows the gaps printed between sizes, side by side, and beside them, or
// below where there are many, the gap that each step takes now.
type gapRow struct {
	widget.BaseWidget
	gaps []GapView
	step *field
}

func newGapRow(onStep func(text string) error) *gapRow {
	g := &gapRow{step: newField(words.C("inches", "in"), onStep)}
	g.ExtendBaseWidget(g)
	return g
}

func (g *gapRow) set(gaps []GapView) {
	if !slices.Equal(g.gaps, gaps) {
		g.gaps = slices.Clone(gaps)
		g.Refresh()
	}
}

// stepWide is how wide the field of the gap per step is, px at text scale 1.
const stepWide = 100

// pitch is how far the gaps stand apart; beside says that the field has room at
// their right.
func (g *gapRow) pitch(width float32) (pitch float32, beside bool) {
	least := float32(0)
	for _, gap := range g.gaps {
		least = max(least, theme.WordSize(gap.Between, theme.Px(theme.Caption), false).Width, boldWidth(gap.Gap))
	}
	n := float32(max(len(g.gaps), 3))
	if room := (width - theme.Px(stepWide) - 8) / n; room >= least+6 {
		return room, true
	}
	return width / max(n, 4), false
}

func (g *gapRow) CreateRenderer() fyne.WidgetRenderer {
	title := newCut(words.T("Gap printed between sizes"), theme.Caption, inkSoft)
	per := newCut(words.T("Gap per step"), theme.Caption, inkSoft)
	var cells []*saying // between, gap, between, gap
	d := &drawn{}
	d.paint = func(theme.Palette) {
		for len(cells) < 2*len(g.gaps) {
			cells = append(cells, newCut("", theme.Caption, inkSoft), newCut("", theme.Body, ink))
		}
		d.objects = []fyne.CanvasObject{title, per, g.step}
		for i, gap := range g.gaps {
			cells[2*i].setText(gap.Between)
			cells[2*i+1].set(gap.Gap, ink, true)
			d.objects = append(d.objects, cells[2*i], cells[2*i+1])
		}
	}
	line := func() float32 { return title.MinSize().Height + 2 }
	high := func() float32 { return max(2*line(), g.step.MinSize().Height) }
	d.min = func() fyne.Size {
		h := line() + high() + 2
		if _, beside := g.pitch(theme.Px(sideContent)); !beside {
			h = 3*line() + 6 + g.step.MinSize().Height
		}
		return fyne.NewSize(100, h)
	}
	d.lay = func(size fyne.Size) {
		pitch, beside := g.pitch(size.Width)
		wide := theme.Px(stepWide)
		place(title, 0, 0, size.Width, line())
		top := line()
		if beside {
			place(title, 0, 0, size.Width-wide-8, line())
			place(per, size.Width-wide, 0, wide, line())
			place(g.step, size.Width-wide, line(), wide, g.step.MinSize().Height)
			top += (high() - 2*line()) / 2
		} else {
			y := 3*line() + 4
			h := g.step.MinSize().Height
			middle(per, 0, size.Width-wide-8, 2*y+h)
			place(g.step, size.Width-wide, y, wide, h)
		}
		for i := range g.gaps {
			x := float32(i) * pitch
			place(cells[2*i], x, top, pitch-4, line())
			place(cells[2*i+1], x, top+line(), pitch-4, line())
		}
	}
	return d.ready()
}
