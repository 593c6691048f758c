package ui

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"quarterstep/assets/words"
	"quarterstep/ui/board"
)

// shownText is a text on the canvas and the room it takes.
type shownText struct {
	text           string
	x0, y0, x1, y1 float32
}

// textsIn are the texts of an object, by where they are on the canvas. What a
// scroll hides is not there.
func textsIn(o fyne.CanvasObject, at fyne.Position, out []shownText) []shownText {
	if o == nil || !o.Visible() {
		return out
	}
	at = at.Add(o.Position())
	var parts []fyne.CanvasObject
	switch o := o.(type) {
	case *board.Board:
		return out
	case *canvas.Text:
		if strings.TrimSpace(o.Text) == "" {
			return out
		}
		need, has := o.MinSize(), o.Size()
		at.X += map[fyne.TextAlign]float32{fyne.TextAlignCenter: (has.Width - need.Width) / 2, fyne.TextAlignTrailing: has.Width - need.Width}[o.Alignment]
		if has.Height > need.Height {
			at.Y += (has.Height - need.Height) / 2
		}
		return append(out, shownText{o.Text, at.X, at.Y, at.X + need.Width, at.Y + need.Height})
	case *fyne.Container:
		parts = o.Objects
	case *container.Scroll:
		for _, t := range textsIn(o.Content, at, nil) {
			if t.y0 >= at.Y && t.y1 <= at.Y+o.Size().Height {
				out = append(out, t)
			}
		}
		return out
	case fyne.Widget:
		parts = test.WidgetRenderer(o).Objects()
	}
	for _, p := range parts {
		out = textsIn(p, at, out)
	}
	return out
}

// TestBarsHaveRoomInEveryLanguage holds the texts of the bars and panels to
// their room in the smallest window: none reaches out of its part, none lies on
// another.
func TestBarsHaveRoomInEveryLanguage(t *testing.T) {
	speaksEnglish(t)
	for _, l := range words.Languages() {
		seen := 0
		Speak(l.Code) // before the demo is made: its names are those of the language
		w := open(t)
		for _, size := range []fyne.Size{fyne.NewSize(1180, 720), fyne.NewSize(1440, 900)} {
			w.win.Resize(size)
			for step := range stepCount {
				w.goTo(step)
				where := fmt.Sprintf("%s, %.0f wide, step %d", l.Code, size.Width, step+1)
				for name, part := range map[string]fyne.CanvasObject{
					"the rail": w.rail, "the Shelf": w.shelf, "the tools": w.tools, "the Size strip": w.strip,
					"the side": w.side, "the status bar": w.status, "the seam walk": w.walk,
				} {
					seen += fits(t, where+": "+name, part)
				}
			}
		}
		if seen < 1000 {
			t.Errorf("%s: only %d texts were looked at", l.Code, seen)
		}
	}
}

// fits holds the texts of a part to lying in it and clear of each other, and
// counts them.
func fits(t *testing.T, where string, part fyne.CanvasObject) int {
	t.Helper()
	if !part.Visible() {
		return 0
	}
	texts := textsIn(part, fyne.Position{}, nil)
	left, right := part.Position().X, part.Position().X+part.Size().Width
	for i, a := range texts {
		if a.x0 < left-1 || a.x1 > right+1 {
			t.Errorf("%s: %q reaches from %.0f to %.0f, out of %.0f to %.0f", where, a.text, a.x0, a.x1, left, right)
		}
		for _, b := range texts[:i] {
			if min(a.x1, b.x1)-max(a.x0, b.x0) > 1 && min(a.y1, b.y1)-max(a.y0, b.y0) > 5 {
				t.Errorf("%s: %q lies on %q", where, a.text, b.text)
			}
		}
	}
	return len(texts)
}
