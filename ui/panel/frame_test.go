package panel

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"quarterstep/ui/theme"
)

func TestStatus(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		s := NewStatus()
		open(t, s, 900, 28)
		s.Set("Pointer *11 3/16 in* across, *15 7/8 in* down", "", "Saved")
		mustShow(t, s, "Pointer ", "11 3/16 in", "15 7/8 in", "Saved")
		var bold []string
		walk(s, func(o fyne.CanvasObject) {
			if c, ok := o.(*canvas.Text); ok && c.TextStyle.Bold {
				bold = append(bold, c.Text)
			}
		})
		if len(bold) != 2 || bold[0] != "11 3/16 in" || bold[1] != "15 7/8 in" {
			t.Errorf("bold are %q", bold)
		}
		if want := "Pointer 11 3/16 in across, 15 7/8 in down | Saved"; s.Text() != want {
			t.Errorf("as words: %q", s.Text())
		}
		s.Set("Saved")
		if shows(s, "Pointer ") {
			t.Error("an earlier part still shows")
		}
	})
}

func TestHelp(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		h, _ := NewHelp(HelpView{
			Keys:     []TermView{{Term: ", and .", Means: "one size down or up"}, {Term: "Esc", Means: "lets go without changing anything"}},
			Cautions: []string{"Make a toile first."},
		})
		open(t, h, 620, 500)
		mustShow(t, h, "Keys", ", and .", "one size down or up", "Esc", "Before you cut", "Make a toile first.")
	})
}

func sampleFrame() Frame {
	f := Frame{
		Rail: NewRail(6), Shelf: NewShelf(), Tools: NewTools(), Table: canvas.NewRectangle(theme.Now().Table),
		Strip: NewStrip(), Drawer: NewDrawer(), Side: NewSide(openFold("Increments", NewIncrements())), Status: NewStatus(),
	}
	f.RedStrip = NewRedStrip("Save elsewhere", nil)
	drawn := 0
	f.Rail.SetView(sampleRail())
	f.Shelf.SetView(sampleShelf(&drawn))
	return f
}

// TestFrame holds the window to the look's layout grid at its drawn size and at
// its smallest.
func TestFrame(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		f := sampleFrame()
		open(t, NewFrame(f), 1440, 900)
		checkBox(t, "Table", f.Table, 212, 60+48, 1440-212-348, 900-28-100-60-48)
		checkBox(t, "Shelf", f.Shelf, 0, 60, 212, 900-60-28)
		checkBox(t, "side panels", f.Side, 1440-348, 60, 348, 900-60-28)
		checkBox(t, "Size strip", f.Strip, 212, 900-28-100, 1440-212-348, 100)
		checkBox(t, "status bar", f.Status, 0, 900-28, 1440, 28)
	})
}

func TestFrameSmallest(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		f := sampleFrame()
		whole := NewFrame(f)
		open(t, whole, 1180, 720)
		if got := whole.MinSize(); got != fyne.NewSize(1180, 720) {
			t.Errorf("the smallest window is %v", got)
		}
		checkBox(t, "Table", f.Table, 76, 108, 1180-76-348, 720-28-100-108)
		checkBox(t, "Shelf", f.Shelf, 0, 60, 76, 720-60-28)
	})
}

func TestRedStrip(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		saved := 0
		f := sampleFrame()
		f.RedStrip = NewRedStrip("Save elsewhere", func() { saved++ })
		whole := NewFrame(f)
		open(t, whole, 1440, 900)
		const why = "The pattern could not be saved: the disk is full."
		f.RedStrip.Set(why)
		mustShow(t, whole, why, "Save elsewhere")
		top := 60 + f.RedStrip.MinSize().Height
		checkBox(t, "Shelf under the strip", f.Shelf, 0, top, 212, 900-28-top)
		test.Tap(f.RedStrip.button)
		if saved != 1 {
			t.Error("its button does nothing")
		}
		f.RedStrip.Set("")
		if shows(whole, why) {
			t.Error("the strip stays when all is safe")
		}
		checkBox(t, "Shelf", f.Shelf, 0, 60, 212, 900-60-28)
	})
}

func checkBox(t *testing.T, name string, o fyne.CanvasObject, x, y, w, h float32) {
	t.Helper()
	if o.Position() != fyne.NewPos(x, y) || o.Size() != fyne.NewSize(w, h) {
		t.Errorf("%s lies at %v, %v, want %v,%v, %v by %v", name, o.Position(), o.Size(), x, y, w, h)
	}
}

// TestThemeTurns: turning from light to dark repaints what is there.
func TestThemeTurns(t *testing.T) {
	a := test.NewTempApp(t)
	a.Settings().SetTheme(theme.New(false, 1))
	whole := NewFrame(sampleFrame())
	open(t, whole, 1440, 900)
	a.Settings().SetTheme(theme.New(true, 1))
	dark := 0
	walk(whole, func(o fyne.CanvasObject) {
		c, ok := o.(*canvas.Text)
		if !ok {
			return
		}
		switch c.Color {
		case theme.Light.Ink, theme.Light.InkSoft, theme.Light.AccentInk:
			t.Errorf("%q keeps its light colour", c.Text)
		case theme.Dark.Ink, theme.Dark.InkSoft, theme.Dark.AccentInk:
			dark++
		}
	})
	if dark < 15 {
		t.Errorf("only %d words are in the dark colours", dark)
	}
}

// BenchmarkIncrementsDrag is one preview of a drag: every figure changes.
func BenchmarkIncrementsDrag(b *testing.B) {
	test.NewTempApp(b).Settings().SetTheme(theme.New(false, 1))
	p := NewIncrements()
	v := sampleIncrements()
	p.SetView(v)
	win := test.NewTempWindow(b, p)
	win.Resize(fyne.NewSize(SideWidth, 900))
	figures := []string{"1 1/2", "1 9/16", "1 5/8"}
	for i := 0; b.Loop(); i++ {
		f := figures[i%3]
		v.Total = f
		v.Choices[2].Figure = f
		v.Points = []PointView{{"Underarm", f, f}, {"Waist", f, f}, {"Side hem", f, f}}
		p.SetView(v)
	}
}

// BenchmarkStripScrub is one stop of the handle.
func BenchmarkStripScrub(b *testing.B) {
	test.NewTempApp(b).Settings().SetTheme(theme.New(false, 1))
	s := NewStrip()
	win := test.NewTempWindow(b, s)
	win.Resize(fyne.NewSize(880, 100))
	v := sampleStrip()
	for i := 0; b.Loop(); i++ {
		v.Target = float64(i % 12)
		s.SetView(v)
	}
}

// In a window narrow for its words the panels can be put away, and the Table has
// their room; in a wide one they are there whatever was done before.
func TestPanelsArePutAway(t *testing.T) {
	a := test.NewTempApp(t)
	a.Settings().SetTheme(theme.New(false, 1.5))
	f := sampleFrame()
	win := open(t, NewFrame(f), 1180, 720)
	out := f.Table.Size().Width
	if !f.Side.Visible() || !f.Drawer.Visible() {
		t.Fatal("a narrow window begins without its panels, or cannot put them away")
	}
	test.Tap(f.Drawer)
	if got := f.Table.Size().Width; f.Side.Visible() || got < out+theme.Px(SideWidth)-1 {
		t.Errorf("with the panels away the Table is %v wide, %v before; they show: %v", got, out, f.Side.Visible())
	}
	if x := f.Drawer.Position().X + f.Drawer.Size().Width; x != 1180 {
		t.Errorf("what brings them back ends at %v of 1180", x)
	}
	win.Resize(fyne.NewSize(1920, 1080))
	if !f.Side.Visible() || f.Drawer.Visible() {
		t.Error("a wide window keeps its panels away, or can put them away")
	}
	win.Resize(fyne.NewSize(1180, 720))
	f.Drawer.Open()
	if !f.Side.Visible() || f.Table.Size().Width != out {
		t.Error("the panels do not come back as they were")
	}
}

// A low window takes the room for the pins of a wearer only while there are some.
func TestLowStripKeepsRoomForPins(t *testing.T) {
	f := sampleFrame()
	open(t, NewFrame(f), 1180, 700)
	low := f.Strip.Size().Height
	f.Strip.SetView(StripView{Sizes: []SizeView{{Name: "34"}, {Name: "36"}}, Pins: []PinView{{Name: "hip", Place: 1}}})
	if high := f.Strip.Size().Height; low != stripLow || high != stripHigh {
		t.Errorf("the strip is %v high without pins and %v with", low, high)
	}
}
