package panel

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"quarterstep/ui/theme"
)

// span is where something lies on the window.
func span(o fyne.CanvasObject) (x0, y0, x1, y1 float32) {
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
	return at.X, at.Y, at.X + o.Size().Width, at.Y + o.Size().Height
}

func overlap(a, b fyne.CanvasObject) bool {
	ax0, ay0, ax1, ay1 := span(a)
	bx0, by0, bx1, by1 := span(b)
	const hair = 1.5 // places are rounded to whole pixels
	return ax0 < bx1-hair && bx0 < ax1-hair && ay0 < by1-hair && by0 < ay1-hair
}

// TestLargeWordsFit holds the window to having room for what it holds at every
// size of words, from the smallest window up: tools, what can be shown, steps
// and the start page lie within it and not on each other.
func TestLargeWordsFit(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 1180, Height: 720}, {Width: 1440, Height: 900}, {Width: 1920, Height: 1080}} {
		for _, scale := range []float32{1, 1.25, 1.5} {
			t.Run(fmt.Sprintf("%.0f by %.0f, words at %v", size.Width, size.Height, scale), func(t *testing.T) {
				a := test.NewTempApp(t)
				a.Settings().SetTheme(theme.New(false, scale))
				f := sampleFrame()
				start := NewStart()
				start.SetView(StartView{Before: "Measure the test square, and sew a toile."})
				start.Show()
				f.Over = []Overlay{{Object: start, Middle: true}}
				f.Tools.SetView(sampleTools())
				open(t, NewFrame(f), size.Width, size.Height)
				var row []fyne.CanvasObject
				for _, b := range f.Tools.tools {
					row = append(row, b)
				}
				for _, c := range f.Tools.toggles {
					row = append(row, c)
				}
				row = append(row, f.Tools.out, f.Tools.in, f.Tools.fit, f.Tools.trueSize)
				for i, o := range row {
					if x0, _, x1, _ := span(o); x0 < f.Tools.Position().X || x1 > f.Tools.Position().X+f.Tools.Size().Width {
						t.Errorf("control %d of the tools reaches from %v to %v, out of its bar", i, x0, x1)
					}
					for k := range i {
						if overlap(o, row[k]) {
							t.Errorf("controls %d and %d of the tools lie on each other", k, i)
						}
					}
				}
				if x0, y0, x1, y1 := span(start); x0 < 0 || y0 < 0 || x1 > size.Width || y1 > size.Height {
					t.Errorf("the start page reaches from %v, %v to %v, %v", x0, y0, x1, y1)
				}
				for i, s := range f.Rail.steps {
					if i > 0 && overlap(s, f.Rail.steps[i-1]) {
						t.Errorf("steps %d and %d lie on each other", i, i+1)
					}
				}
			})
		}
	}
}

func sampleTools() ToolsView {
	v := ToolsView{Zoom: "100 %"}
	for _, word := range []string{"Arrange", "Slide", "Measure", "Turn piece"} {
		v.Tools = append(v.Tools, ToolView{Name: theme.Pointer, Word: word})
	}
	for _, word := range []string{"Nest", "Seam", "Close-up", "Ruler"} {
		v.Toggles = append(v.Toggles, ToggleView{Word: word})
	}
	return v
}

// TestStripNumbersKeepClear: numbers of sizes do not lie on each other, and the
// target's is always there.
func TestStripNumbersKeepClear(t *testing.T) {
	for _, scale := range []float32{1, 1.25, 1.5} {
		a := test.NewTempApp(t)
		a.Settings().SetTheme(theme.New(false, scale))
		v := StripView{Target: 8, Shown: true, Handle: "48"}
		for i := range 16 {
			v.Sizes = append(v.Sizes, SizeView{Name: fmt.Sprint(32 + 2*i), Printed: i >= 1 && i <= 4})
		}
		s := NewStrip()
		s.SetView(v)
		open(t, s, 500, 150)
		pen := &stripPen{line: s.line, p: theme.Now()}
		named := pen.named(v, 1, 4)
		if !named[8] || !named[1] || !named[4] {
			t.Errorf("words at %v: the target, the first or the last printed size is not named: %v", scale, named)
		}
		end := float32(-1)
		for i, on := range named {
			if !on {
				continue
			}
			half := fyne.MeasureText(v.Sizes[i].Name, theme.Px(theme.Body), fyne.TextStyle{Bold: true}).Width / 2
			if x := s.line.x(float64(i)); x-half < end {
				t.Errorf("words at %v: %s lies on the number before it", scale, v.Sizes[i].Name)
			} else {
				end = x + half
			}
		}
	}
}
