package ui

import (
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"quarterstep/app/folders"
)

// types types letters where the keyboard is.
func types(w *Window, text string) {
	for _, r := range text {
		w.win.Canvas().Focused().TypedRune(r)
	}
}

// Saving by the keyboard alone: the name proposed, another folder by its path, a
// new folder, and the question before a file is written over.
func TestSavingByFileBox(t *testing.T) {
	home := t.TempDir()
	t.Setenv("HOME", home)
	w := open(t)
	w.save()
	if !w.dialogOpen {
		t.Fatal("no box is open")
	}
	types(w, "Anna") // the proposed name is marked
	typed(w, fyne.KeyReturn)
	if path := filepath.Join(home, "Anna.qstep"); w.doc.Path() != path || w.settings.Folder != home || w.dialogOpen {
		t.Fatalf("saved at %q, folder %q, open %v", w.doc.Path(), w.settings.Folder, w.dialogOpen)
	}

	w.saveAs()
	types(w, "Anna")
	before := w.doc.Path()
	typed(w, fyne.KeyReturn)
	if !w.dialogOpen {
		t.Fatal("written over unasked")
	}
	typed(w, fyne.KeyEscape)
	if !w.dialogOpen {
		t.Fatal("Escape at the question closed the box")
	}
	typed(w, fyne.KeyEscape)
	if w.dialogOpen || w.doc.Path() != before {
		t.Fatal("Escape in the name's field does nothing")
	}

	asked := ""
	w.askWhere("pages", ".pdf", func(path string) { asked = path })
	box := w.fileBox
	box.askFolder()
	types(w, "For the shop")
	typed(w, fyne.KeyReturn)
	if info, err := os.Stat(filepath.Join(home, "For the shop")); err != nil || !info.IsDir() {
		t.Fatal("no folder was made")
	}
	typed(w, fyne.KeyReturn)
	if want := filepath.Join(home, "For the shop", "pages.pdf"); asked != want {
		t.Errorf("asked for %q, want %q", asked, want)
	}
	if len(w.settings.Folders) != 2 {
		t.Errorf("folders used last: %q", w.settings.Folders)
	}
}

// Opening by the mouse: a press takes a row in hand, a second one opens it, a
// folder is gone into and left again.
func TestOpeningByFileBox(t *testing.T) {
	home := t.TempDir()
	t.Setenv("HOME", home)
	if err := os.Mkdir(filepath.Join(home, "photos"), 0o755); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"a.jpg", "b.jpg", "c.txt"} {
		if err := os.WriteFile(filepath.Join(home, "photos", name), []byte(name), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	w := open(t)
	var got []string
	w.askFiles("Bring in", []folders.Kind{{Name: "Photos", Endings: []string{".jpg"}}}, func(paths []string) { got = paths })
	a := w.fileBox
	typed(w, fyne.KeyReturn) // the folder, the one row
	if a.choose.Folder() != filepath.Join(home, "photos") || len(a.choose.Rows()) != 2 {
		t.Fatalf("in %s with %d rows", a.choose.Folder(), len(a.choose.Rows()))
	}
	typed(w, fyne.KeyBackspace)
	if a.choose.Folder() != home {
		t.Fatalf("back in %s", a.choose.Folder())
	}
	typed(w, fyne.KeyReturn)
	types(w, "b")
	w.win.Canvas().Focused().(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutSelectAll{})
	test.Tap(a.yes)
	if len(got) != 2 || filepath.Base(got[1]) != "b.jpg" || w.dialogOpen {
		t.Errorf("took %q, open %v", got, w.dialogOpen)
	}

	one := ""
	w.askFile("Open", []folders.Kind{{Name: "All"}}, func(path string) { one = path })
	w.fileBox.box.OnOpen(2)
	if filepath.Base(one) != "c.txt" {
		t.Errorf("opened %q", one)
	}
	w.askFile("Open", []folders.Kind{{Name: "All"}}, func(path string) { one = path })
	w.fileBox.read(filepath.Join(home, "nowhere"))
	if w.fileBox.say == "" || w.fileBox.choose.Folder() != filepath.Join(home, "photos") {
		t.Errorf("a folder that is gone: said %q, in %s", w.fileBox.say, w.fileBox.choose.Folder())
	}
}

// moments are what is to be done after a moment, as long as nobody stopped it.
type moments []*func()

func (m *moments) add(work func()) (stop func()) {
	at := &work
	*m = append(*m, at)
	return func() { *at = nil }
}

// pass lets a moment pass.
func (m *moments) pass() {
	all := *m
	*m = nil
	for _, work := range all {
		if *work != nil {
			(*work)()
		}
	}
}

// TestADriveThatDoesNotAnswer: a drive that is gone keeps the box from nothing else. She
// is told after a moment, Escape lets go, and what the drive says in the end comes too
// late.
func TestADriveThatDoesNotAnswer(t *testing.T) {
	home := t.TempDir()
	t.Setenv("HOME", home)
	w := open(t)
	var soon moments
	put(t, &afterAMoment, soon.add)
	asked := ""
	w.askWhere("pages", ".pdf", func(path string) { asked = path })
	a := w.fileBox
	if a.choose.Folder() != home || a.slow || a.waitsFor() != "" {
		t.Fatalf("in %q, slow %v, waits for %q", a.choose.Folder(), a.slow, a.waitsFor())
	}
	soon.pass()
	if a.say != "" {
		t.Fatalf("it says %q of a disk that has answered", a.say)
	}
	for say, ask := range map[string]func(){
		"a path":       func() { a.box.OnName("/gone/x.pdf"); a.accept() },
		"a folder":     func() { a.read("/gone") },
		"a new folder": func() { a.askFolder(); a.box.FolderLine().SetText("new"); a.accept() },
	} {
		var disk later // hangs until its next
		put(t, &besideWindow, disk.add)
		ask()
		if len(disk) != 1 || a.slow || a.waitsFor() == "" || asked != "" {
			t.Fatalf("%s: %d asked of the disk, slow %v, waits for %q, answered %q", say, len(disk), a.slow, a.waitsFor(), asked)
		}
		soon.pass()
		if !a.slow || a.say == "" {
			t.Errorf("%s: after a moment it says %q", say, a.say)
		}
		typed(w, fyne.KeyEscape)
		if w.fileBox != a || a.slow || a.say != "" || a.waitsFor() != "" {
			t.Errorf("%s: Escape leaves slow %v, %q, waits for %q", say, a.slow, a.say, a.waitsFor())
		}
		disk.next(t)
		if asked != "" || w.fileBox != a || a.choose.Folder() != home {
			t.Errorf("%s: what the disk said in the end counted: %q, in %q", say, asked, a.choose.Folder())
		}
		if a.naming {
			typed(w, fyne.KeyEscape)
		}
		put(t, &besideWindow, func(work func()) { work() })
	}
	a.box.OnName("x")
	a.accept()
	if asked != filepath.Join(home, "x.pdf") {
		t.Errorf("afterwards it answers %q", asked)
	}
}

// TestTheLastFolderIsGone: where the folder last used does not answer, letting go of it
// leads home.
func TestTheLastFolderIsGone(t *testing.T) {
	home := t.TempDir()
	t.Setenv("HOME", home)
	w := open(t)
	w.settings.Folder = "/gone"
	soon, _ := heldUp(t)
	w.askFile("Open", []folders.Kind{{Name: "All"}}, func(string) {})
	soon.pass()
	if !w.fileBox.slow {
		t.Error("nothing is said of the folder last used")
	}
	put(t, &besideWindow, func(work func()) { work() })
	typed(w, fyne.KeyEscape)
	if got := w.fileBox.choose.Folder(); got != home {
		t.Errorf("in %q", got)
	}
}
