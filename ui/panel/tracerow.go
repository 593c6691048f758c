package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"quarterstep/ui/theme"
)

// traceRow is one size to trace: its name, how its line is printed, how far it
// is.
type traceRow struct {
	touch
	view   TraceRowView
	chosen bool
}

func newTraceRow(press func()) *traceRow {
	r := &traceRow{}
	r.press = press
	r.ExtendBaseWidget(r)
	return r
}

func (r *traceRow) set(v TraceRowView, chosen bool) {
	same := r.view.Size == v.Size && r.view.Words == v.Words && r.view.State == v.State &&
		r.view.I == v.I && r.view.N == v.N && r.chosen == chosen
	r.view, r.chosen = v, chosen
	if !same {
		r.Refresh()
	}
}

// swatch is how long, in px, the sample of a line is.
const swatch = 38

func (r *traceRow) CreateRenderer() fyne.WidgetRenderer {
	g, line := newGround(), newFill(separatorInk)
	size, how := newBold("", theme.Body, ink), newCut("", theme.Caption, ink)
	state := newMark(theme.Ring, 15, inkSoft)
	d := &drawn{}
	var bars []*canvas.Rectangle
	var at []float32 // where each begins, and ends
	d.paint = func(p theme.Palette) {
		r.paintGround(g, p)
		t := tone(ink)
		if r.chosen {
			g.FillColor = p.AccentTint
			t = accentInk
		}
		size.set(r.view.Size, t, true)
		how.set(r.view.Words, pickTone(r.chosen, accentInk, inkSoft), false)
		state.set(r.view.State.icon(), pickTone(r.chosen, accentInk, inkSoft))
		at = dashes(r.view.Dash)
		bars = bars[:0]
		d.objects = []fyne.CanvasObject{line, g, size, how, state}
		for range len(at) / 2 {
			b := canvas.NewRectangle(p.Nest(r.view.I, r.view.N))
			bars = append(bars, b)
			d.objects = append(d.objects, b)
		}
	}
	d.min = func() fyne.Size { return fyne.NewSize(theme.Px(sideContent), theme.Px(32)) }
	d.lay = func(s fyne.Size) {
		place(line, 0, 0, s.Width, 1)
		place(g, -8, 0, s.Width+16, s.Height)
		middle(size, 0, theme.Px(38), s.Height)
		left, thick := theme.Px(38), max(float32(r.view.Width), 2)
		for i, b := range bars {
			b.Move(fyne.NewPos(left+at[2*i], (s.Height-thick)/2))
			b.Resize(fyne.NewSize(at[2*i+1]-at[2*i], thick))
		}
		x := left + swatch + 12
		middle(how, x, max(s.Width-x-theme.Px(24), 0), s.Height)
		middle(state, s.Width-theme.Px(15), theme.Px(15), s.Height)
	}
	return d.ready()
}

// dashes are where the strokes of a swatch begin and end.
func dashes(dash []float64) []float32 {
	if len(dash) == 0 {
		return []float32{0, swatch}
	}
	var out []float32
	x := float32(0)
	for i := 0; x < swatch; i++ {
		step := max(float32(dash[i%len(dash)]), 1)
		if i%2 == 0 {
			out = append(out, x, min(x+step, swatch))
		}
		x += step
	}
	return out
}
