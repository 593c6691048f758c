package ui

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"quarterstep/assets"
)

// TestAbout: the licences are there whole, in lines that fit, of which only those in
// sight are drawn; keys scroll them, and Escape closes.
func TestAbout(t *testing.T) {
	w := open(t)
	w.about()
	list := w.asked.list
	if list == nil || !w.dialogOpen {
		t.Fatal("nothing is shown")
	}
	for key, want := range map[fyne.KeyName]func(was, now float32) bool{
		fyne.KeyEnd:      func(was, now float32) bool { return now > 1000 },
		fyne.KeyHome:     func(was, now float32) bool { return now == 0 },
		fyne.KeyPageDown: func(was, now float32) bool { return now > was+100 || now == was },
	} {
		was := list.GetScrollOffset()
		typed(w, key)
		if now := list.GetScrollOffset(); !want(was, now) {
			t.Errorf("%s scrolls from %v to %v", key, was, now)
		}
	}
	typed(w, fyne.KeyEscape)
	if w.dialogOpen {
		t.Error("Escape does not close it")
	}
	for _, letters := range []int{1, 7, 60, 92} {
		var all []string
		for l := range strings.Lines(assets.Licences) {
			for _, part := range wrapped(strings.TrimRight(l, "\r\n"), letters) {
				if len([]rune(part)) > letters {
					t.Fatalf("%q is longer than %d letters", part, letters)
				}
				all = append(all, strings.ReplaceAll(part, " ", ""))
			}
		}
		squeeze := func(s string) string {
			return strings.Join(strings.FieldsFunc(s, func(r rune) bool { return slices.Contains([]rune(" \r\n"), r) }), "")
		}
		if squeeze(strings.Join(all, "")) != squeeze(assets.Licences) {
			t.Errorf("in lines of %d letters something is lost", letters)
		}
	}
}
