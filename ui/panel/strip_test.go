package panel

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"quarterstep/ui/theme"
)

func sizeOf(w, h float32) fyne.Size { return fyne.NewSize(w, h) }

func sampleStrip() StripView {
	v := StripView{
		Charts: []string{"House chart, EU", "Wardrobe chart"}, Target: 8, Shown: true,
		Handle: "Maren · 48", Note: "4 steps, or 4 1/2 by bust",
		Pins: []PinView{{Name: "hip", Place: 7.6}, {Name: "bust", Place: 8}, {Name: "waist", Place: 8.5}},
	}
	for s := 32; s <= 54; s += 2 {
		v.Sizes = append(v.Sizes, SizeView{Name: fmt.Sprint(s), Printed: s >= 34 && s <= 40})
	}
	return v
}

func openStrip(t *testing.T) (*Strip, *[]float64, *[]float64) {
	t.Helper()
	s := NewStrip()
	s.Modifiers = func() fyne.KeyModifier { return 0 }
	var scrubs, picks []float64
	s.OnScrub = func(p float64) { scrubs = append(scrubs, p) }
	s.OnPick = func(p float64) { picks = append(picks, p) }
	open(t, s, 880, 100)
	s.SetView(sampleStrip())
	return s, &scrubs, &picks
}

func dragTo(s *Strip, place float64) {
	s.line.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(s.line.x(place), stripY())}})
}

func TestStripShows(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		s, _, _ := openStrip(t)
		mustShow(t, s, "Size strip", "32", "34", "54", "printed", "Maren · 48", "4 steps, or 4 1/2 by bust", "hip", "bust", "waist", "House chart, EU")
		var nest []any
		walk(s, func(o fyne.CanvasObject) {
			if c, ok := o.(*canvas.Circle); ok && c.StrokeWidth == 0 && c.Size().Width == 16 {
				nest = append(nest, c.FillColor)
			}
		})
		p := theme.Now()
		want := []any{p.Nest1, p.Nest2, p.Nest3, p.Nest4}
		if fmt.Sprint(nest) != fmt.Sprint(want) {
			t.Errorf("printed sizes are filled %v, want %v", nest, want)
		}
	})
}

// TestStripWordsApart: whatever the target, the note, the word "printed" and
// the pill do not cover one another.
func TestStripWordsApart(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(theme.New(false, 1))
	s, _, _ := openStrip(t)
	for target := 0.0; target <= 11; target += 0.5 {
		v := sampleStrip()
		v.Target = target
		s.SetView(v)
		var boxes [][2]float32
		walk(s.line, func(o fyne.CanvasObject) {
			if c, ok := o.(*canvas.Text); ok && c.Position().Y < stripY() {
				boxes = append(boxes, [2]float32{c.Position().X, c.Position().X + c.MinSize().Width})
			}
		})
		if len(boxes) == 0 {
			t.Fatalf("target %v: no words above the line", target)
		}
		for i, a := range boxes {
			if a[0] < 0 || a[1] > s.line.Size().Width {
				t.Errorf("target %v: words from %v to %v lie outside", target, a[0], a[1])
			}
			for _, b := range boxes[:i] {
				if a[0] < b[1] && b[0] < a[1] {
					t.Errorf("target %v: words %v and %v overlap", target, a, b)
				}
			}
		}
	}
}

// TestStripPins: a mark stands at its place, whatever its name does; names do
// not cover one another or leave the strip; what lies beyond the chart stands at
// its end in amber.
func TestStripPins(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(theme.New(false, 1))
	s, _, _ := openStrip(t)
	for _, pins := range [][]PinView{
		{{Name: "hip", Place: 7.6}, {Name: "bust", Place: 8}, {Name: "waist", Place: 8.5}},
		{{Name: "bust", Place: 13, Beyond: "3 cm"}, {Name: "waist", Place: 10.9}, {Name: "hip", Place: 11}},
		{{Name: "bust", Place: -2, Beyond: "8 cm"}, {Name: "waist", Place: 0}, {Name: "hip", Place: -1, Beyond: "4 cm"}},
		{{Name: "bust", Place: 5}, {Name: "waist", Place: 5.1}, {Name: "hip", Place: 5.2}, {Name: "upper arm", Place: 5.3}, {Name: "back waist length", Place: 5.4}},
	} {
		v := sampleStrip()
		v.Pins = pins
		s.SetView(v)
		var names []*canvas.Text
		marks := 0
		walk(s.line, func(o fyne.CanvasObject) {
			switch c := o.(type) {
			case *canvas.Text:
				if c.TextSize == theme.Mark && c.Position().Y > stripY()+20 {
					names = append(names, c)
				}
			case *canvas.Image:
				if c.Position().Y > stripY()+20 {
					marks++
				}
			}
		})
		if marks != len(names) || marks == 0 {
			t.Fatalf("%v: %d marks, %d names", pins, marks, len(names))
		}
		for i, c := range names {
			from, to := c.Position().X, c.Position().X+c.MinSize().Width
			if from < -1 || to > s.line.Size().Width+1 || c.Position().Y+c.MinSize().Height > s.line.Size().Height+1 {
				t.Errorf("%v: %q lies outside", pins, c.Text)
			}
			if i > 0 && from < names[i-1].Position().X+names[i-1].MinSize().Width {
				t.Errorf("%v: %q lies over %q", pins, c.Text, names[i-1].Text)
			}
			if off := strings.Contains(c.Text, "cm"); off != (c.Color == theme.Now().AmberInk) {
				t.Errorf("%v: %q is drawn %v", pins, c.Text, c.Color)
			}
		}
	}
	v := sampleStrip()
	v.Pins = []PinView{{Name: "bust", Place: 4}, {Name: "hip", Place: 4.02}, {Name: "waist", Place: 12, Beyond: "1 in"}}
	s.SetView(v)
	mustShow(t, s, "bust, hip", "waist 1 in beyond")
}

// TestStripDrag: the handle reports each stop once while dragged, and the pick
// once, at the end.
func TestStripDrag(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		s, scrubs, picks := openStrip(t)
		for p := 8.0; p >= 5.9; p -= 0.1 {
			dragTo(s, p)
		}
		if fmt.Sprint(*scrubs) != "[7 6]" || len(*picks) != 0 {
			t.Errorf("dragged from 8 to 6: scrubbed %v, picked %v", *scrubs, *picks)
		}
		s.line.DragEnd()
		s.line.DragEnd()
		if fmt.Sprint(*picks) != "[6]" {
			t.Errorf("let go at 6: picked %v", *picks)
		}
		*scrubs = nil
		s.Modifiers = func() fyne.KeyModifier { return fyne.KeyModifierShift }
		dragTo(s, 6.4)
		s.line.DragEnd()
		if fmt.Sprint(*scrubs) != "[6.5]" || fmt.Sprint(*picks) != "[6 6.5]" {
			t.Errorf("with Shift: scrubbed %v, picked %v", *scrubs, *picks)
		}
		s.Modifiers = func() fyne.KeyModifier { return 0 }
		test.Tap(s.halves)
		dragTo(s, 3.6)
		s.line.DragEnd()
		if (*picks)[len(*picks)-1] != 3.5 {
			t.Errorf("with halves ticked: picked %v", *picks)
		}
	})
}

func TestStripCancel(t *testing.T) {
	test.NewTempApp(t)
	s, scrubs, picks := openStrip(t)
	dragTo(s, 3)
	press(s.line, fyne.KeyEscape)
	s.line.DragEnd()
	if fmt.Sprint(*scrubs) != "[3 8]" || len(*picks) != 0 {
		t.Errorf("dragged and let go with Escape: scrubbed %v, picked %v", *scrubs, *picks)
	}
	if s.view.Target != 8 {
		t.Errorf("the handle stays at %v", s.view.Target)
	}
	if s.Cancel() {
		t.Error("nothing is held, yet Cancel says so")
	}
}

func TestStripKeys(t *testing.T) {
	for _, tt := range []struct{ from, by, want float64 }{
		{8, 1, 9},
		{8, -1, 7},
		{8, 0.5, 8.5},
		{8, -0.5, 7.5},
		{7.5, 1, 8},
		{7.5, -1, 7},
		{7.5, 0.5, 8},
		{8.3, 0.5, 8.5},
		{8.3, 1, 9},
		{11, 1, 11},
		{0, -1, 0},
		{0, -0.5, 0},
	} {
		test.NewTempApp(t)
		s, _, picks := openStrip(t)
		v := sampleStrip()
		v.Target = tt.from
		s.SetView(v)
		s.Step(tt.by)
		if s.view.Target != tt.want {
			t.Errorf("from %v by %v comes to %v, want %v", tt.from, tt.by, s.view.Target, tt.want)
		}
		if moved := tt.want != tt.from; moved != (len(*picks) == 1) {
			t.Errorf("from %v by %v: picked %v", tt.from, tt.by, *picks)
		}
	}
	test.NewTempApp(t)
	s, _, picks := openStrip(t)
	press(s.line, fyne.KeyRight, fyne.KeyLeft, fyne.KeyLeft)
	tapAt(s.line, s.line.x(2), stripY())
	if fmt.Sprint(*picks) != "[9 8 7 2]" {
		t.Errorf("arrows and a press picked %v", *picks)
	}
}

// TestStripPlaces: any place on the chart is found again where it is drawn.
func TestStripPlaces(t *testing.T) {
	test.NewTempApp(t)
	s, _, _ := openStrip(t)
	rapid.Check(t, func(r *rapid.T) {
		place := rapid.Float64Range(0, 11).Draw(r, "place")
		if got := s.line.placeAt(s.line.x(place)); math.Abs(got-place) > 1e-3 {
			r.Errorf("place %v is found at %v", place, got)
		}
		at := rapid.Float64Range(-5, 20).Draw(r, "at")
		if got := s.snap(at, true); got < 0 || got > 11 || got*2 != math.Trunc(got*2) {
			r.Errorf("%v snaps to %v", at, got)
		}
	})
}

func TestStripWithoutChart(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		s, scrubs, picks := openStrip(t)
		const empty = "The other sizes appear here when you choose a size chart."
		s.SetView(StripView{Chart: -1, Empty: empty})
		mustShow(t, s, empty)
		dragTo(s, 3)
		s.line.DragEnd()
		tapAt(s.line, 100, 40)
		s.Step(1)
		if len(*scrubs)+len(*picks) != 0 {
			t.Errorf("without a chart it scrubbed %v and picked %v", *scrubs, *picks)
		}
		chart := -1
		s.OnChart = func(i int) { chart = i }
		s.SetView(StripView{Charts: []string{"House chart, EU", "Wardrobe chart"}, Chart: -1, Empty: empty})
		s.charts.list.SetSelected("Wardrobe chart")
		if chart != 1 {
			t.Errorf("chose chart %d, want 1", chart)
		}
	})
}
