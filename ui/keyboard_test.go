package ui

import (
	"bytes"
	"image/png"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"quarterstep/ui/board"
	"quarterstep/ui/panel"
)

func typed(w *Window, keys ...fyne.KeyName) {
	for _, k := range keys {
		if f := w.win.Canvas().Focused(); f != nil {
			f.TypedKey(&fyne.KeyEvent{Name: k})
		} else {
			w.key(&fyne.KeyEvent{Name: k})
		}
	}
}

// F6 comes to every part of the window that shows, at every step, and back to
// the Table: the keyboard is never caught.
func TestEveryPartIsReached(t *testing.T) {
	w := open(t)
	for step := range stepCount {
		if step == stepBringIn {
			continue // without a photo it is the same Table
		}
		w.goTo(step)
		all := w.regions()
		w.win.Canvas().Focus(w.table)
		for i := 1; i <= len(all); i++ {
			typed(w, fyne.KeyF6)
			want := all[i%len(all)].first()
			if got := w.win.Canvas().Focused(); got != want {
				t.Fatalf("step %d: after %d times F6 the keyboard is at %T, want %T", step+1, i, got, want)
			}
		}
	}
}

// A new window begins with the keyboard on the start page; with the demo open it
// is on the Table.
func TestStartByKeyboard(t *testing.T) {
	w := openEmpty(t)
	if w.win.Canvas().Focused() != w.start.First() {
		t.Fatalf("the keyboard is at %T", w.win.Canvas().Focused())
	}
	w.win.Canvas().FocusNext() // targets
	w.win.Canvas().FocusNext() // open
	w.win.Canvas().FocusNext() // the tour
	typed(w, fyne.KeyReturn)
	if !w.tour.Visible() || w.win.Canvas().Focused() != fyne.Focusable(w.table) {
		t.Errorf("tour %v, the keyboard is at %T", w.tour.Visible(), w.win.Canvas().Focused())
	}
}

// Tab goes through the handles of the Table, and through the window where there
// are none.
func TestTabOnTheTable(t *testing.T) {
	w := open(t)
	w.win.Canvas().Focus(w.table)
	before := w.hand
	typed(w, fyne.KeyTab)
	if w.hand == before || w.win.Canvas().Focused() != fyne.Focusable(w.table) {
		t.Error("Tab did not go to a handle")
	}
	if e := openEmpty(t); e.table.AcceptsTab() {
		t.Error("an empty Table keeps Tab")
	}
}

// A dialog is answered by Enter, and put away by Escape with nothing done.
func TestDialogKeys(t *testing.T) {
	w := open(t)
	piece := func() string { return w.doc.Pattern().Pieces[0].Name }
	old := piece()
	for _, tt := range []struct {
		key  fyne.KeyName
		want string
	}{{fyne.KeyEscape, old}, {fyne.KeyReturn, "Front, lower"}} {
		typed(w, fyne.KeyF2)
		line, ok := w.win.Canvas().Focused().(*panel.Line)
		if !ok {
			t.Fatalf("the keyboard is at %T", w.win.Canvas().Focused())
		}
		line.SetText("Front, lower")
		typed(w, tt.key)
		if w.dialogOpen || piece() != tt.want {
			t.Errorf("%s: dialog open %v, the piece is called %q", tt.key, w.dialogOpen, piece())
		}
	}
	done := false
	w.ifSafe(func() { done = true })
	if !w.dialogOpen {
		t.Fatal("unsaved work is not asked about")
	}
	typed(w, fyne.KeyEscape)
	if w.dialogOpen || done {
		t.Error("Escape did not stay here")
	}
	w.help()
	typed(w, fyne.KeyPageDown, fyne.KeyEnd)
	typed(w, fyne.KeyReturn)
	if w.dialogOpen || w.win.Canvas().Overlays().Top() != nil {
		t.Error("Enter did not close the help")
	}
}

func TestNextPieceByKey(t *testing.T) {
	w := open(t)
	n := len(w.doc.Pattern().Pieces)
	typed(w, fyne.KeyPageUp)
	if got := w.doc.Pattern().PieceIndex(w.hand.Piece); got != n-1 {
		t.Errorf("before the first comes %d", got)
	}
	typed(w, fyne.KeyPageDown, fyne.KeyPageDown)
	if got := w.doc.Pattern().PieceIndex(w.hand.Piece); got != 1 {
		t.Errorf("two on is %d", got)
	}
}

// With Measure, Enter and Tab measure from handle to handle; with Point, Enter
// adds one to the edge in hand.
func TestToolsByKeyboard(t *testing.T) {
	w := open(t)
	w.win.Canvas().Focus(w.table)
	typed(w, fyne.KeyTab)
	w.setTool(board.Measure)
	typed(w, fyne.KeyReturn, fyne.KeyTab)
	a, b, ok := w.table.Measured()
	if !ok || a.Dist(b) < 1 {
		t.Errorf("measured %v to %v, %v", a, b, ok)
	}
	w.hand = firstEdge(w.doc.Pattern())
	w.refresh()
	n := len(w.doc.Pattern().Pieces[0].Points)
	w.setTool(board.AddPoint)
	typed(w, fyne.KeyReturn)
	if got := len(w.doc.Pattern().Pieces[0].Points); got != n+1 {
		t.Errorf("%d points, had %d: %s", got, n, w.status.Text())
	}
}

// The window in words names every piece, the size, what is in hand and the
// checks.
func TestInWords(t *testing.T) {
	w := open(t)
	text := w.inWords()
	for _, q := range w.doc.Pattern().Pieces {
		if !strings.Contains(text, q.Name+": ") {
			t.Errorf("%s is not in it", q.Name)
		}
	}
	for _, want := range []string{"Lantern blouse", "Step 3, Grade", "(here)", "Size 48", "Side above the hip", "43.8 mm", "Look at this, 1: ", "Fine: "} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in it:\n%s", want, text)
		}
	}
	w.copyWords()
	if got := w.app.Clipboard().Content(); got != text {
		t.Errorf("the clipboard has %q", got)
	}
	out := w.doc.Pattern().Pieces[2].Name
	w.goTo(stepPrint)
	w.pages.OnPiece(2, false)
	text = w.inWords()
	for _, want := range []string{"Pieces left out: " + out + "\n", "Not printed: Printed nest", " pages\n"} {
		if !strings.Contains(text, want) {
			t.Errorf("on the pages %q is not in it:\n%s", want, text)
		}
	}
	for _, page := range w.print.pagesView(w.doc.Pattern(), "48").Pages {
		if page.Blank && !strings.Contains(text, page.Name) {
			t.Errorf("that page %s is left out is not in it:\n%s", page.Name, text)
		}
	}
	if openEmpty(t).inWords() == "" {
		t.Error("of an empty window nothing is said")
	}
}

// Every step of the help has its picture.
func TestHelpPictures(t *testing.T) {
	for _, s := range helpView().Steps {
		img, err := png.Decode(bytes.NewReader(s.Picture))
		if err != nil {
			t.Errorf("%s: %v", s.Term, err)
			continue
		}
		if b := img.Bounds(); b.Dx() < 1180 || b.Dy() < 720 {
			t.Errorf("%s: its picture is %v", s.Term, b)
		}
	}
}

// At the Print step the arrow keys move the piece in hand between the pages, and
// neither they nor Delete touch the pattern.
func TestArrowsAtPrint(t *testing.T) {
	w := open(t)
	at, _ := corner(t, w, "side hem")
	w.hand = at
	w.goTo(stepPrint)
	w.win.Canvas().Focus(w.table)
	typed(w, fyne.KeyRight, fyne.KeyDown, fyne.KeyDelete)
	if got := w.doc.History(); len(got) != 0 {
		t.Errorf("the pattern was changed: %v", got)
	}
	if !w.print.moved {
		t.Error("the piece did not move on the pages")
	}
}
