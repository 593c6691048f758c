package ui

import (
	"testing"

	"quarterstep/app/edit"
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
