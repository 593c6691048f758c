package panel

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"quarterstep/ui/theme"
)

func sampleWearer() WearerView {
	return WearerView{
		Name: "Maren", Size: "52", Own: true, OwnCount: "2 of 3", Unit: "in",
		Measures: []MeasureView{
			{Name: "Bust", Own: "48", Place: "50"},
			{Name: "Waist", Own: "62", Place: "beyond 62", Off: true},
			{Name: "Back waist length", Chart: "16 1/4", Place: "52"},
		},
		Rest:  "What you leave empty goes by size 52.",
		Notes: []string{"Waist is beyond 62 by 1 in.", "Bust is 2 5/8 in tighter than the printed sizes are."},
		Ease: []EaseView{
			{Name: "Bust", Body: "48", Finished: "49 5/8", Ease: "1 5/8", Print: "4 1/4", Look: true},
			{Name: "Waist", Body: "62", Finished: "66", Ease: "4", Print: "4"},
		},
		EaseUnit: "in inches", Unknown: []string{"Hip: the hem of the back lies above it."},
	}
}

func openWearer(t *testing.T) *Wearer {
	t.Helper()
	p := NewWearer()
	p.SetView(sampleWearer())
	open(t, NewSide(openFold("Wearer", p)), SideWidth, 900)
	return p
}

func TestWearerShows(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		p := openWearer(t)
		mustShow(t, p, "Size from the chart", "52", "Own measurements", "2 of 3", "Bust", "50", "beyond 62", "16 1/4",
			"What you leave empty goes by size 52.", "Waist is beyond 62 by 1 in.", "Ease, in inches",
			"Body", "Finished", "Ease", "In print", "49 5/8", "4 1/4", "Hip: the hem of the back lies above it.")
		if got := p.measures.rows[0].field.entry.Text; got != "48" {
			t.Errorf("the bust reads %q", got)
		}
		if f := p.measures.rows[2].field.entry; f.Text != "" || f.PlaceHolder != "16 1/4" {
			t.Errorf("a measure left empty reads %q, faint %q", f.Text, f.PlaceHolder)
		}
		tall := p.MinSize().Height

		v := sampleWearer()
		v.Own, v.Measures, v.Notes, v.Unknown, v.Ease = false, nil, nil, nil, v.Ease[:1]
		v.Figures = []FigureView{{"Bust", "43 5/16 in"}, {"Hip", "45 1/4 in"}}
		v.Rest = "Size 48 of House chart, EU."
		p.SetView(v)
		mustShow(t, p, "Bust", "43 5/16 in", "Size 48 of House chart, EU.", "49 5/8")
		for _, gone := range []string{"Back waist length", "66", "Waist is beyond 62 by 1 in.", "beyond 62"} {
			if shows(p, gone) {
				t.Errorf("%q still shows", gone)
			}
		}
		if p.MinSize().Height >= tall {
			t.Error("with less to say the panel is as tall as before")
		}
		p.SetView(WearerView{Empty: "Choose a size chart on the Size strip."})
		if got := seen(p); strings.Join(got, "|") != "Name|Choose a size chart on the Size strip." {
			t.Errorf("without a chart it reads %q", got)
		}
		p.SetView(sampleWearer())
		if p.MinSize().Height != tall {
			t.Errorf("filled again it is %v high, was %v", p.MinSize().Height, tall)
		}
	})
}

// What is off the chart or loses ease is said in amber, and only that.
func TestWearerMarksInAmber(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		p := openWearer(t)
		var amber []string
		walk(p, func(o fyne.CanvasObject) {
			if c, ok := o.(*canvas.Text); ok && c.Color == theme.Now().AmberInk {
				amber = append(amber, c.Text)
			}
		})
		want := "beyond 62 Waist is beyond 62 by 1 in. Bust is 2 5/8 in tighter than the printed sizes are. 1 5/8"
		if got := strings.Join(amber, " "); got != want {
			t.Errorf("in amber: %s, want %s", got, want)
		}
	})
}

func TestWearerReports(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		p := openWearer(t)
		var did []string
		say := func(format string, a ...any) { did = append(did, fmt.Sprintf(format, a...)) }
		p.OnName = func(name string) error { say("name %s", name); return nil }
		p.OnOwn = func(own bool) { say("own %v", own) }
		grown := 0
		p.OnGrown = func() { grown++ }
		p.OnMeasure = func(i int, text string) error {
			say("%d %q", i, text)
			if text == "wide" {
				return errUnread
			}
			return nil
		}
		retype(p.name, "Ilse")
		p.name.entry.FocusLost()
		retype(p.measures.rows[0].field, "48 1/2")
		press(p.measures.rows[0].field.entry, fyne.KeyReturn)
		p.measures.rows[1].field.entry.FocusGained()
		p.measures.rows[1].field.entry.SetText("")
		p.measures.rows[1].field.entry.FocusLost()
		test.Tap(p.byChart)
		test.Tap(p.own)
		tall := p.MinSize().Height
		retype(p.measures.rows[2].field, "wide")
		p.measures.rows[2].field.entry.FocusLost()
		want := `name Ilse, 0 "48 1/2", 1 "", own false, own true, 2 "wide"`
		if got := strings.Join(did, ", "); got != want {
			t.Errorf("reported\n%s\nwant\n%s", got, want)
		}
		mustShow(t, p, unread)
		if !p.measures.rows[2].field.refused || grown == 0 || p.MinSize().Height <= tall {
			t.Errorf("refused %v, grown %d times", p.measures.rows[2].field.refused, grown)
		}
		p.measures.rows[2].field.entry.FocusGained()
		press(p.measures.rows[2].field.entry, fyne.KeyEscape)
		if shows(p, unread) || p.MinSize().Height != tall {
			t.Error("after Escape the sentence stays")
		}
	})
}

// Coming by Tab, typing replaces what stands there.
func TestTypingAfterTabReplaces(t *testing.T) {
	test.NewTempApp(t)
	p := openWearer(t)
	var got string
	p.OnMeasure = func(_ int, text string) error { got = text; return nil }
	c := fyne.CurrentApp().Driver().CanvasForObject(p)
	c.Focus(p.measures.rows[0].field.entry)
	c.FocusNext()
	if f := p.measures.rows[1].field; c.Focused() != fyne.Focusable(f.entry) {
		t.Fatal("Tab does not go to the next measure")
	}
	test.Type(p.measures.rows[1].field.entry, "6")
	c.FocusNext()
	if got != "6" {
		t.Errorf("typed 6 over 62: %q", got)
	}
}

// At any text scale the panel keeps to its width, and no word of a row lies
// over another.
func TestWearerKeepsItsWidth(t *testing.T) {
	for _, scale := range []float32{1, 1.25, 1.5} {
		test.NewTempApp(t).Settings().SetTheme(theme.New(false, scale))
		p := NewWearer()
		p.SetView(sampleWearer())
		side := NewSide(openFold("Wearer", p))
		open(t, side, theme.Px(SideWidth), 1400)
		if got := side.MinSize().Width; got > theme.Px(SideWidth) {
			t.Errorf("text scale %v: the panel wants %v of %v", scale, got, theme.Px(SideWidth))
		}
		if got, room := p.MinSize().Width, p.Size().Width; got > room {
			t.Errorf("text scale %v: the content wants %v of %v", scale, got, room)
		}
		for i, r := range p.measures.rows {
			objects := test.WidgetRenderer(r).Objects()
			for k := 1; k < len(objects); k++ {
				a, b := objects[k-1], objects[k]
				if a.Visible() && b.Visible() && a.Position().X+a.Size().Width > b.Position().X+0.5 {
					t.Errorf("text scale %v, row %d: thing %d reaches over the next", scale, i, k-1)
				}
			}
		}
		var ends []float32
		for _, o := range test.WidgetRenderer(p.ease).Objects() {
			if w, ok := o.(*saying); ok && w.align == fyne.TextAlignTrailing {
				ends = append(ends, w.Position().X, w.Position().X+w.Size().Width)
			}
		}
		for k := 2; k < len(ends); k += 2 {
			if k%8 != 0 && ends[k] < ends[k-1] {
				t.Errorf("text scale %v: a figure of the ease table lies over the one before", scale)
			}
		}
	}
}
