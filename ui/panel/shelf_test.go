package panel

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"quarterstep/ui/theme"
)

func sampleShelf(drawn *int) ShelfView {
	thumb := func(w, h int, _ theme.Palette) image.Image {
		*drawn++
		return image.NewRGBA(image.Rect(0, 0, w, h))
	}
	return ShelfView{Chosen: 0, BringIn: "Bring in an SVG of your pattern.", Cards: []CardView{
		{Name: "Front bodice", State: UnderWay, How: "6 of 7 edges", Links: "Facing, Sleeve", Thumb: thumb, Key: "1"},
		{Name: "Sleeve", State: LookAt, How: "1 to look at", Thumb: thumb, Key: "1"},
	}}
}

func TestShelf(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		s := NewShelf()
		picked, brought, drawn := -1, 0, 0
		s.OnPick = func(i int) { picked = i }
		s.OnBringIn = func() { brought++ }
		win := open(t, s, ShelfWidth, 600)
		s.SetView(ShelfView{Chosen: -1, BringIn: "Bring in an SVG of your pattern."})
		mustShow(t, s, "Shelf", "0 pieces", "Bring in an SVG of your", "pattern.")

		s.SetView(sampleShelf(&drawn))
		mustShow(t, s, "2 pieces", "Front bodice", "6 of 7 edges", "Facing, Sleeve", "1 to look at")
		win.Canvas().Capture()
		if drawn == 0 {
			t.Error("no thumbnail was drawn")
		}
		if h := s.cards[0].Size().Height; h != cardHeight {
			t.Errorf("a card is %v high, want %v", h, cardHeight)
		}
		test.Tap(s.cards[1])
		test.Tap(s.add)
		if picked != 1 || brought != 1 {
			t.Errorf("picked %d, brought in %d times", picked, brought)
		}

		fyne.CurrentApp().Settings().SetTheme(theme.New(theme.Now() == theme.Light, 1))
		if w := s.cards[0].Size().Width; w != ShelfWidth-16 {
			t.Errorf("after the theme turns a card is %v wide, want %v", w, ShelfWidth-16)
		}
		s.SetNarrow(true)
		s.Resize(s.MinSize())
		if s.Width() != ShelfNarrow || shows(s, "Front bodice") {
			t.Errorf("narrow, it is %v wide and reads %q", s.Width(), seen(s))
		}
		test.Tap(s.cards[0])
		if picked != 0 {
			t.Error("a narrow card does not pick its piece")
		}
		s.SetNarrow(false)
		s.SetView(ShelfView{Chosen: -1, Cards: sampleShelf(&drawn).Cards[1:]})
		mustShow(t, s, "1 piece")
		if shows(s, "Front bodice") {
			t.Error("a piece that went still shows")
		}
	})
}

func TestTools(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		b := NewTools()
		tool, toggle, on := -1, -1, false
		var zooms []bool
		fits, trues := 0, 0
		b.OnTool = func(i int) { tool = i }
		b.OnToggle = func(i int, o bool) { toggle, on = i, o }
		b.OnZoom = func(in bool) { zooms = append(zooms, in) }
		b.OnFit = func() { fits++ }
		b.OnTrueSize = func() { trues++ }
		v := ToolsView{
			Tools: []ToolView{
				{Name: theme.Pointer, Word: "Move"},
				{Name: theme.Slide, Word: "Slide"},
				{Name: theme.Measure, Word: "Measure"},
				{Name: theme.AddPoint, Word: "Add point"},
			},
			Toggles: []ToggleView{{Word: "Nest", On: true}, {Word: "Seam line"}, {Word: "Close-up"}},
			Zoom:    "26 %",
		}
		b.SetView(v)
		open(t, b, 1100, 48)
		mustShow(t, b, "Move", "Add point", "Nest", "Close-up", "26 %", "Fit", "True size")
		test.Tap(b.tools[2])
		test.Tap(b.toggles[1])
		test.Tap(b.in)
		test.Tap(b.out)
		test.Tap(b.fit)
		test.Tap(b.trueSize)
		if tool != 2 || toggle != 1 || !on || len(zooms) != 2 || !zooms[0] || zooms[1] || fits != 1 || trues != 1 {
			t.Errorf("tool %d, toggle %d %v, zooms %v, fit %d, true size %d", tool, toggle, on, zooms, fits, trues)
		}
		for _, width := range []float32{1100, 880, 756, 700} {
			b.Resize(b.MinSize())
			b.Resize(sizeOf(width, 48))
			end := float32(0)
			for _, tb := range b.tools {
				if tb.Position().X < end {
					t.Errorf("at %v px two tools overlap", width)
				}
				end = tb.Position().X + tb.Size().Width
			}
			if first := b.toggles[0].Position().X; first < end {
				t.Errorf("at %v px the tools run to %v, the checks begin at %v", width, end, first)
			}
		}
	})
}
