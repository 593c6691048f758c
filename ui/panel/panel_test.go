package panel

import (
	"errors"
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"quarterstep/ui/theme"
)

// inBoth runs a test in the light and in the dark look.
func inBoth(t *testing.T, f func(t *testing.T)) {
	t.Helper()
	for _, dark := range []bool{false, true} {
		t.Run(fmt.Sprintf("dark=%v", dark), func(t *testing.T) {
			a := test.NewTempApp(t)
			a.Settings().SetTheme(theme.New(dark, 1))
			f(t)
		})
	}
}

// open puts an object in a window of its own.
func open(t *testing.T, o fyne.CanvasObject, w, h float32) fyne.Window {
	t.Helper()
	win := test.NewTempWindow(t, o)
	win.SetPadded(false)
	win.Resize(fyne.NewSize(w, h))
	return win
}

// seen collects every word that shows, in drawing order.
func seen(o fyne.CanvasObject) []string {
	var out []string
	walk(o, func(o fyne.CanvasObject) {
		if t, ok := o.(*canvas.Text); ok && t.Text != "" {
			out = append(out, t.Text)
		}
	})
	return out
}

func walk(o fyne.CanvasObject, visit func(fyne.CanvasObject)) {
	if !o.Visible() {
		return
	}
	visit(o)
	switch o := o.(type) {
	case *fyne.Container:
		for _, c := range o.Objects {
			walk(c, visit)
		}
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(o).Objects() {
			walk(c, visit)
		}
	}
}

func shows(o fyne.CanvasObject, want string) bool {
	for _, s := range seen(o) {
		if s == want {
			return true
		}
	}
	return false
}

func mustShow(t *testing.T, o fyne.CanvasObject, want ...string) {
	t.Helper()
	for _, w := range want {
		if !shows(o, w) {
			t.Errorf("%q does not show among %q", w, seen(o))
		}
	}
}

// tapAt presses a widget at a place of its own.
func tapAt(o fyne.Tappable, x, y float32) {
	o.Tapped(&fyne.PointEvent{Position: fyne.NewPos(x, y)})
}

func press(f fyne.Focusable, keys ...fyne.KeyName) {
	for _, k := range keys {
		f.TypedKey(&fyne.KeyEvent{Name: k})
	}
}

// retype replaces what a field shows by typed words, as the sewist does.
func retype(f *field, text string) {
	f.entry.FocusGained()
	f.entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	for _, r := range text {
		f.entry.TypedRune(r)
	}
}

// errUnread is what an owner answers to words it cannot read, and unread how
// the panel says it.
var errUnread = errors.New("type inches like 1 3/8 or mm like 9.5")

const unread = "Type inches like 1 3/8 or mm like 9.5."

// TestField is the field's promise: words go out on Enter and on leaving, once;
// refused words stay in amber; Escape brings the document's back; an undo while
// the field has the keyboard is not taken back by leaving it.
func TestField(t *testing.T) {
	inBoth(t, func(t *testing.T) {
		var got []string
		var hint string
		f := newField("in", nil)
		f.onCommit = func(text string) error {
			got = append(got, text)
			if text == "two" {
				return errUnread
			}
			f.set(text + " in words")
			return nil
		}
		f.onHint = func(s string) { hint = s }
		open(t, f, 120, 40)
		f.set("1 1/2")

		f.entry.FocusGained()
		f.entry.FocusLost()
		if len(got) != 0 {
			t.Fatalf("leaving untouched sends %q", got)
		}
		retype(f, "2")
		press(f.entry, fyne.KeyReturn)
		f.entry.FocusLost()
		if len(got) != 1 || got[0] != "2" || f.entry.Text != "2 in words" {
			t.Errorf("typed 2: sent %q, shows %q", got, f.entry.Text)
		}
		retype(f, "two")
		f.entry.FocusLost()
		if hint != unread || !f.refused || f.entry.Text != "two" {
			t.Errorf("refused words: hint %q, shows %q", hint, f.entry.Text)
		}
		if c := outlineOf(f); c != theme.Now().AmberLine {
			t.Errorf("refused words are outlined in %v", c)
		}
		f.set("5")
		if f.entry.Text != "two" {
			t.Errorf("a view overwrites words to be mended: %q", f.entry.Text)
		}
		f.entry.FocusGained()
		press(f.entry, fyne.KeyEscape)
		if hint != "" || f.refused || f.entry.Text != "5" {
			t.Errorf("after Escape: hint %q, shows %q", hint, f.entry.Text)
		}
		sent := len(got)
		f.entry.FocusGained()
		f.set("6")
		f.entry.FocusLost()
		if len(got) != sent || f.entry.Text != "6" {
			t.Errorf("a change from elsewhere: sent %q, shows %q", got[sent:], f.entry.Text)
		}
	})
}

func outlineOf(f *field) any {
	objects := test.WidgetRenderer(f).Objects()
	return objects[1].(*canvas.Rectangle).StrokeColor
}

func TestWords(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(theme.New(false, 1))
	w := newWrapped("By chart is 3/16 in wider: above 44 the bust grows faster", theme.Caption, ink, 160)
	open(t, w, 200, 100)
	lines := seen(w)
	if len(lines) < 2 {
		t.Fatalf("a long sentence stays on %d line", len(lines))
	}
	for _, l := range lines {
		if got := w.measure(l).Width; got > 160 {
			t.Errorf("line %q is %v wide", l, got)
		}
	}
	if got := w.MinSize().Height; got < float32(len(lines))*theme.Caption {
		t.Errorf("%d lines ask for only %v of height", len(lines), got)
	}
	c := newCut("Front neck facing", theme.Body, ink)
	open(t, c, 200, 40)
	c.Resize(fyne.NewSize(60, 20))
	if got := seen(c); len(got) != 1 || got[0] == "Front neck facing" || c.measure(got[0]).Width > 60 {
		t.Errorf("cut to 60 px it reads %q", got)
	}
}

// TestTextScale: at the largest text no word of a side panel lies outside it.
func TestTextScale(t *testing.T) {
	for _, scale := range []float32{1, 1.25, 1.5} {
		test.NewTempApp(t).Settings().SetTheme(theme.New(false, scale))
		p := NewIncrements()
		p.SetView(sampleIncrements())
		side := NewSide(openFold("Increments", p))
		open(t, side, theme.Px(SideWidth), 1200)
		if got := side.MinSize().Width; got > theme.Px(SideWidth) {
			t.Errorf("text scale %v: the panel wants %v of %v", scale, got, theme.Px(SideWidth))
		}
		if got, room := p.MinSize().Width, p.Size().Width; got > room {
			t.Errorf("text scale %v: the content wants %v of %v", scale, got, room)
		}
	}
}

func openFold(title string, o fyne.CanvasObject) *Fold {
	f := NewFold(title, o)
	f.SetOpen(true)
	return f
}
