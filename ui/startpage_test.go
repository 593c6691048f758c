package ui

import (
	"testing"

	"fyne.io/fyne/v2/test"

	"quarterstep/app/edit"
	"quarterstep/app/session"
	"quarterstep/app/settings"
	"quarterstep/model"
)

// openEmpty is the window with nothing in it.
func openEmpty(t *testing.T) *Window {
	t.Helper()
	doc, err := session.New(model.Pattern{})
	if err != nil {
		t.Fatal(err)
	}
	w := Open(test.NewTempApp(t), doc, settings.Settings{}, t.TempDir())
	t.Cleanup(w.closeSafe)
	return w
}

func TestStartPageComesAndGoes(t *testing.T) {
	w := openEmpty(t)
	if !w.start.Visible() || w.tour.Visible() {
		t.Fatal("an empty window does not begin with the start page")
	}
	w.start.OnBlouse()
	if w.start.Visible() || len(w.doc.Pattern().Pieces) == 0 {
		t.Error("with the demo open the start page stays")
	}
}

// The tour opens the demo, notices what she tried, goes through every step of the
// rail it names, and can be left at any step, the demo as it is.
func TestTour(t *testing.T) {
	w := openEmpty(t)
	w.start.OnTour()
	if !w.tour.Visible() || w.start.Visible() {
		t.Fatal("the tour does not begin")
	}
	been := map[int]bool{}
	for i, stop := range tourStops {
		if w.tourAt.step != i || w.step != stop.at {
			t.Fatalf("stop %d: the tour is at %d, the rail at %d, want %d", i, w.tourAt.step, w.step, stop.at)
		}
		been[w.step] = true
		if stop.tried != nil {
			if w.tourAt.done {
				t.Errorf("%s: done before it was tried", stop.title)
			}
			w.do("choose another size", edit.Place(float64(i+1)))
			if !w.tourAt.done {
				t.Errorf("%s: tried, and not noticed", stop.title)
			}
		}
		w.tour.OnNext()
	}
	if w.tour.Visible() || w.tourAt.on {
		t.Error("past its last step the tour goes on")
	}
	if !been[stepBringIn] || !been[stepGrade] || !been[stepTrue] || !been[stepLength] || !been[stepPrint] {
		t.Errorf("the tour was only at the steps %v", been)
	}
	w.tourTo(3)
	w.tour.OnBack()
	if w.tourAt.step != 2 {
		t.Errorf("back from 3 is %d", w.tourAt.step)
	}
	pieces := len(w.doc.Pattern().Pieces)
	w.tour.OnLeave()
	if w.tour.Visible() || len(w.doc.Pattern().Pieces) != pieces {
		t.Error("left, the tour stays or the demo is gone")
	}
}
