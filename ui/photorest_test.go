package ui

import (
	"testing"
)

// Of several photos the Table shows one, and that alone is whole in memory; each
// is whole again, with its lines, when it is taken in hand.
func TestPhotosNotShownRest(t *testing.T) {
	w, _, _ := openHalves(t)
	p := w.doc.Pattern()
	if len(w.paper.photos) != 2 {
		t.Fatalf("%d photos", len(w.paper.photos))
	}
	for _, i := range []int{1, 0, 1, 0} {
		w.choosePhoto(i)
		for k, ph := range w.paper.photos {
			if whole := ph.flatPer == ph.flatWhole; whole != (k == i) {
				t.Errorf("with photo %d in hand, photo %d is whole: %v (%g of %g px to a mm)", i+1, k+1, whole, ph.flatPer, ph.flatWhole)
			}
		}
		if w.photo().lines == nil {
			t.Errorf("the lines of photo %d are not ready", i+1)
		}
	}
	w.showFlat(false)
	ph := w.photo()
	if got := ph.taken[0].Rect.Size(); got != ph.shot.Picture.Size() {
		t.Errorf("looked at as taken, it is %v large", got)
	}
	w.showFlat(true)
	if got := ph.taken[0].Rect.Size(); got == ph.shot.Picture.Size() {
		t.Errorf("looked at flat, it stays %v large as taken", got)
	}
	if w.goTo(stepGrade); ph.flatPer == ph.flatWhole || p.PictureIndex(ph.id) < 0 {
		t.Error("at another step the flat picture stays whole")
	}
	w.goTo(stepBringIn)
	if ph.flatPer != ph.flatWhole || ph.lines == nil {
		t.Error("back at Bring in it is not whole again")
	}
}
