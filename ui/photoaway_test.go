package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"quarterstep/ui/panel"
)

// answerBy presses the button with word in the dialog that is open.
func answerBy(t *testing.T, w *Window, word string) {
	t.Helper()
	top := w.win.Canvas().Overlays().Top()
	if top == nil {
		t.Fatalf("no dialog asks: %s", word)
	}
	for _, o := range test.LaidOutObjects(top) {
		if b, ok := o.(*panel.Push); ok && b.Text == word {
			test.Tap(b)
			return
		}
	}
	t.Fatalf("no button %q", word)
}

// A photo that is not flat yet is in no document, so nothing brings it back: it is
// asked before it goes, and Enter keeps it.
func TestPhotoThatIsNotFlatIsAskedFor(t *testing.T) {
	w := bareWindow(t)
	w.openPhotos([]string{pictureFile(t, "page.png", pngOf(t, pagePhoto()))})
	if w.isFlat(w.photo()) {
		t.Fatal("the photo is flat without a click")
	}
	w.photos.OnRemove()
	typed(w, fyne.KeyReturn)
	if len(w.paper.photos) != 1 || w.dialogOpen {
		t.Fatal("Enter does not keep the photo")
	}
	w.photos.OnRemove()
	answerBy(t, w, "Take it away")
	if len(w.paper.photos) != 0 || w.dialogOpen {
		t.Error("the photo stays")
	}
}
