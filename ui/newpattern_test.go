package ui

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"quarterstep/app/edit"
	"quarterstep/ui/panel"
)

// From a demo she gets back to the empty page: at once where she tried nothing,
// else when she has said that it may go.
func TestNewPattern(t *testing.T) {
	w := openEmpty(t)
	w.start.OnTour()
	w.newPattern()
	if w.dialogOpen || !w.start.Visible() || len(w.doc.Pattern().Pieces) > 0 {
		t.Fatal("an untouched demo is not put away")
	}
	w.start.OnBlouse()
	if w.tour.Visible() {
		t.Error("the tour goes on in a pattern opened after it")
	}
	w.do("choose another size", edit.Place(1))
	w.newPattern()
	if !w.dialogOpen || w.start.Visible() {
		t.Fatal("what she changed is put away without a question")
	}
	w.asked.no()
	if len(w.doc.Pattern().Pieces) == 0 {
		t.Error("staying, the demo is gone")
	}
}

// Paper brought in while a demo is open begins a pattern of its own, unless she
// wants it in the demo.
func TestOwnPaperGoesApartFromTheDemo(t *testing.T) {
	w := openEmpty(t)
	came := 0
	bring := func() { w.apartFromDemo(func() { came++ }) }
	w.start.OnBlouse()
	bring()
	if came != 1 || len(w.doc.Pattern().Pieces) > 0 || w.dialogOpen {
		t.Fatal("an untouched demo stays under her own paper")
	}
	bring()
	if came != 2 {
		t.Fatal("paper beside paper of her own is not taken")
	}
	w.start.OnBlouse()
	w.do("choose another size", edit.Place(1))
	bring()
	if came != 2 || !w.dialogOpen {
		t.Fatal("a demo she changed is not asked about")
	}
	w.asked.yes()
	if came != 3 || len(w.doc.Pattern().Pieces) > 0 {
		t.Error("told to, the demo is not put away")
	}
}

// A pattern traced from paper is called after the file it is first saved in; one
// that has a name keeps it.
func TestTracedPatternIsNamedAfterItsFile(t *testing.T) {
	w, q, at := onBib(t)
	w.photos.Lines.OnWay(traceOne)
	clickLine(t, w, q, "40", at)
	w.shelve()
	for _, name := range []string{"Summer blouse", "Another"} {
		if !savedTo(w, filepath.Join(t.TempDir(), name+projectExt)) {
			t.Fatal("not saved")
		}
		if got := w.doc.Pattern().Name; got != "Summer blouse" || w.doc.Dirty() {
			t.Errorf("saved as %s it is called %q", name, got)
		}
	}
}

// What she types for the piece before the sizes are chosen stays in its field.
func TestNameTypedBeforeTheSizesStays(t *testing.T) {
	w, _, _ := onBib(t)
	if err := w.photos.Lines.OnName(" Back "); err != nil {
		t.Fatal(err)
	}
	if shown := test.RenderObjectToMarkup(w.photos.Lines); !strings.Contains(shown, ">Back<") {
		t.Error("the field does not say Back")
	}
}

// The close-up that comes with a photo goes with it; one that she asked for stays,
// and can be put away at every step.
func TestCloseUpOfThePhotoGoesWithIt(t *testing.T) {
	w, q, at := onBib(t)
	w.photos.Lines.OnWay(traceOne)
	clickLine(t, w, q, "40", at)
	w.shelve()
	w.goTo(stepBringIn)
	if !w.table.CloseUp() {
		t.Fatal("tracing has no close-up")
	}
	for _, step := range []int{stepGrade, stepBringIn, stepPrint} {
		w.goTo(step)
		if got := w.table.CloseUp(); got != (step == stepBringIn) {
			t.Errorf("step %d: close-up %v", step, got)
		}
	}
	w.goTo(stepGrade)
	w.table.SetCloseUp(true)
	w.table.SetRuler(true)
	for _, step := range []int{stepBringIn, stepGrade, stepTrue, stepPrint} {
		w.goTo(step)
		if !w.table.CloseUp() {
			t.Errorf("step %d takes away the close-up she asked for", step)
		}
		if step == stepBringIn {
			continue
		}
		for word, want := range map[string]bool{"Close-up": true, "Ruler": step != stepPrint} {
			if got := slices.ContainsFunc(w.toggleViews(), func(v panel.ToggleView) bool { return v.Word == word && v.On }); got != want {
				t.Errorf("step %d has a switch for %s: %v", step, word, got)
			}
		}
	}
}
