package ui

import (
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"quarterstep/app"
	"quarterstep/app/settings"
)

// TestStarting: the window comes in a few frames, each part once, while its document
// is read beside it; the start page does not show before it.
func TestStarting(t *testing.T) {
	from := open(t)
	path := filepath.Join(t.TempDir(), "a.qstep")
	if !savedTo(from, path) {
		t.Fatal("not saved")
	}
	var beside, frames later
	put(t, &besideWindow, beside.add)
	put(t, &nextFrame, frames.add)
	w := Start(test.NewTempApp(t), settings.Settings{}, t.TempDir(), First{Path: path})
	t.Cleanup(w.closeSafe)
	if len(beside) != 2 || w.frame != nil || w.win.Content() == nil {
		t.Fatalf("at first %d works beside the window, parts made: %v", len(beside), w.frame != nil)
	}
	read := beside[0]
	beside = beside[1:]
	beside.next(t) // the fonts
	if w.frame != nil {
		t.Error("the parts are made before the window shows")
	}
	frames.next(t)
	parts := []fyne.CanvasObject{w.table, w.rail, w.shelf, w.tools, w.strip, w.status, w.side}
	hidden := func() (n int) {
		for _, o := range parts {
			if !o.Visible() {
				n++
			}
		}
		return n
	}
	if hidden() != len(parts) {
		t.Errorf("%d parts of %d show at once", len(parts)-hidden(), len(parts))
	}
	for was := hidden(); was > 0; was = hidden() {
		frames.next(t)
		if hidden() == was {
			t.Fatalf("a frame shows nothing, and %d parts are hidden", was)
		}
	}
	frames.next(t)
	if w.start.Visible() || !w.dialogOpen {
		t.Errorf("while it is read the start page shows: %v, dialogs are kept away: %v", w.start.Visible(), w.dialogOpen)
	}
	read()
	for len(beside) > 0 {
		beside.next(t)
	}
	if w.doc.Path() != path || w.dialogOpen || w.step != stepGrade {
		t.Errorf("the document is %q, a dialog %v, the step %d", w.doc.Path(), w.dialogOpen, w.step)
	}
}

// TestStartingWithoutADocument: what cannot be read is said in the window, which is
// then as after a start with nothing; a demo opens as before.
func TestStartingWithoutADocument(t *testing.T) {
	start := func(f First) *Window {
		w := Start(test.NewTempApp(t), settings.Settings{}, t.TempDir(), f)
		t.Cleanup(w.closeSafe)
		return w
	}
	if w := start(First{}); !w.start.Visible() || w.dialogOpen {
		t.Errorf("with nothing the start page shows: %v, a dialog: %v", w.start.Visible(), w.dialogOpen)
	}
	if w := start(First{Path: filepath.Join(t.TempDir(), "gone.qstep")}); !w.start.Visible() || !w.dialogOpen {
		t.Errorf("without its file the start page shows: %v, a dialog: %v", w.start.Visible(), w.dialogOpen)
	}
	if w := start(First{Pattern: app.DemoBlouse}); len(w.doc.Pattern().Pieces) == 0 || w.start.Visible() {
		t.Errorf("the demo has %d pieces", len(w.doc.Pattern().Pieces))
	}
}
