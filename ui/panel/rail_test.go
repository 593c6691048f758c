package panel

import (
	"image"
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"quarterstep/ui/theme"
)

func sampleRail() RailView {
	return RailView{
		Pattern: "Fennel blouse", Wearer: "for Maren", Present: 2, Undo: "move underarm",
		Steps: []StepView{
			{Name: "Bring in", State: "7 pieces", Mark: Done, Enabled: true},
			{Name: "Sizes", State: "34–40 to 48", Mark: Done, Enabled: true},
			{Name: "Grade", State: "26 of 29", Mark: UnderWay, Enabled: true},
			{Name: "True", State: "later", Enabled: false},
			{Name: "Length", State: "later", Enabled: false},
			{Name: "Print", State: "16 pages", Mark: LookAt, Enabled: true},
		},
	}
}

func TestRail(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		r := NewRail(6)
		var did []string
		step := -1
		r.OnStep = func(i int) { step = i }
		r.OnUndo = func() { did = append(did, "undo") }
		r.OnRedo = func() { did = append(did, "redo") }
		r.OnHelp = func() { did = append(did, "help") }
		var cm, dark bool
		r.OnUnit = func(c bool) { cm = c }
		r.OnDark = func(d bool) { dark = d }
		open(t, r, 1440, 60)
		r.SetView(sampleRail())
		mustShow(t, r, "Fennel blouse", "for Maren", "Bring in", "7 pieces", "34–40 to 48", "3", "4", "in", "cm")
		if shows(r, "1") || shows(r, "6") {
			t.Error("a finished step or one to look at shows its number instead of its mark")
		}

		for i, s := range r.steps {
			step = -1
			test.Tap(s)
			if want := sampleRail().Steps[i].Enabled; (step == i) != want {
				t.Errorf("step %d pressed: reported %d, enabled %v", i+1, step, want)
			}
		}
		test.Tap(r.undo)
		test.Tap(r.redo)
		test.Tap(r.help)
		if len(did) != 2 || did[0] != "undo" || did[1] != "help" {
			t.Errorf("pressed undo, redo (nothing to redo), help: %v", did)
		}
		tapAt(r.unit, r.unit.Size().Width-4, 10)
		test.Tap(r.dark)
		if !cm || !dark {
			t.Errorf("cm %v, dark %v", cm, dark)
		}
	})
}

func TestRailHints(t *testing.T) {
	test.NewTempApp(t)
	r := NewRail(6)
	var hint string
	r.OnHint = func(s string) { hint = s }
	r.SetView(sampleRail())
	open(t, r, 1440, 60)
	r.undo.MouseIn(nil)
	if hint != "Undo move underarm" {
		t.Errorf("over undo the hint is %q", hint)
	}
	r.undo.MouseOut()
	if hint != "" {
		t.Errorf("the hint stays: %q", hint)
	}
	r.redo.MouseIn(nil)
	if hint != "Nothing to redo" {
		t.Errorf("over redo the hint is %q", hint)
	}
}

func TestRailMenu(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		r := NewRail(6)
		saved := false
		r.Menu = func() *fyne.Menu { return fyne.NewMenu("", fyne.NewMenuItem("Save a copy", func() { saved = true })) }
		win := open(t, r, 1440, 400)
		test.Tap(r.name)
		top := win.Canvas().Overlays().Top()
		if top == nil {
			t.Fatal("no menu opens")
		}
		mustShow(t, top, "Save a copy")
		var item fyne.Tappable
		walk(top, func(o fyne.CanvasObject) {
			if tap, ok := o.(fyne.Tappable); ok && shows(o, "Save a copy") && o != top {
				item = tap
			}
		})
		item.Tapped(&fyne.PointEvent{})
		if !saved {
			t.Error("the menu's entry does nothing")
		}
	})
}

// TestStitches: the row is sewn dark before the present step, in the accent
// colour along it and pale after it.
func TestStitches(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		r := NewRail(6)
		open(t, r, 1440, 60)
		for present := range 6 {
			v := sampleRail()
			v.Present = present
			r.SetView(v)
			img := r.sew(1440, 5)
			x, w := r.stepSpan(present, 1440)
			p := theme.Now()
			for _, part := range []struct {
				from, to float32
				want     color.NRGBA
			}{{0, x - 12, p.InkSoft}, {x + 12, x + w - 12, p.Accent}, {x + w + 12, 1440, p.Separator}} {
				if got := onlyColour(img, int(part.from), int(part.to)); got != part.want {
					t.Errorf("step %d: stitches from %v to %v are %v, want %v", present+1, part.from, part.to, got, part.want)
				}
			}
		}
	})
}

// onlyColour is the one solid colour in a stretch of a picture's middle row, or
// none when there are several or no solid points.
func onlyColour(img image.Image, from, to int) color.NRGBA {
	var got color.NRGBA
	for x := max(from, 0); x < to; x++ {
		c := color.NRGBAModel.Convert(img.At(x, 2)).(color.NRGBA)
		if c.A != 0xff {
			continue
		}
		if got.A != 0 && got != c {
			return color.NRGBA{}
		}
		got = c
	}
	return got
}
