package ui

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"

	"quarterstep/app/safekeeping"
	"quarterstep/app/settings"
)

// TestWhatWaitsForADiskIsBeside: whatever asks a disk or the system, or draws pages,
// is asked for beside the window, and nothing of it is done before that has been.
func TestWhatWaitsForADiskIsBeside(t *testing.T) {
	w := open(t)
	folder := t.TempDir()
	path := filepath.Join(folder, "a.qstep")
	if !savedTo(w, path) {
		t.Fatal("not saved")
	}
	w.goTo(stepPrint)
	for say, do := range map[string]func(){
		"opening a file":          func() { w.open(path) },
		"a demo":                  func() { w.demo(nil, nil) },
		"a drawing":               func() { w.bringInFile(filepath.Join(folder, "a.svg")) },
		"photos":                  func() { w.openPhotos([]string{filepath.Join(folder, "a.jpg")}) },
		"files dropped":           func() { w.dropped(fyne.Position{}, []fyne.URI{storage.NewFileURI(folder)}) },
		"a size chart":            func() { w.useChart(filepath.Join(folder, "a.csv")) },
		"choosing a file":         func() { w.askOpen() },
		"saving":                  func() { w.saveTo(path, nil) },
		"keeping the settings":    w.keepSettings,
		"a file that is written":  func() { w.writing(filepath.Join(folder, "x"), "", nil, func() {}) },
		"what was printed":        func() { w.rememberPrinted(w.print.now(), nil, func() {}) },
		"pages against the last":  w.compare,
		"laying pages":            func() { w.print.of = -1; w.planPages() },
		"the viewer of PDFs":      func() { w.viewPDF(path) },
		"printers":                func() { w.printers.asked = false; w.askPrinters() },
		"unsaved work":            w.OfferLeft,
		"the checks":              w.checkBeside,
		"links that are found":    w.findLinks,
		"what a window left":      func() { w.openEarlier(safekeeping.Version{Path: path}) },
		"the first document read": func() { First{Path: path}.read() },
	} {
		var beside later
		was := besideWindow
		besideWindow = beside.add
		wasAside := w.aside
		w.aside = func(_ context.Context, work func()) { beside.add(work) }
		w.hasNoDialog()
		w.saves, w.keeping, w.reported.under = saves{}, keeping{}, false
		doc := w.doc
		do()
		besideWindow, w.aside = was, wasAside
		if len(beside) == 0 {
			t.Errorf("%s: nothing is done beside the window", say)
		}
		if w.doc != doc {
			t.Errorf("%s: there is another document already", say)
		}
		w.print.of = w.docSerial
	}
}

// TestSettingsKept: of several wishes to keep the settings the latest counts, and
// closing waits for it.
func TestSettingsKept(t *testing.T) {
	w := open(t)
	var beside later
	put(t, &besideWindow, beside.add)
	kept := func() settings.Settings { return settings.Load(w.settingsDir) }
	w.settings.Folder = "/one"
	w.keepSettings()
	for _, f := range []string{"/two", "/three"} {
		w.settings.Folder = f
		w.keepSettings()
	}
	closed := false
	w.whenKept(func() { closed = true })
	if len(beside) != 1 || closed {
		t.Fatalf("%d works at once, closed %v", len(beside), closed)
	}
	beside.next(t)
	if kept().Folder != "/one" || closed {
		t.Errorf("first %q is kept, closed %v", kept().Folder, closed)
	}
	beside.next(t)
	if kept().Folder != "/three" || !closed || len(beside) != 0 {
		t.Errorf("at the end %q is kept, closed %v", kept().Folder, closed)
	}
	if _, err := os.Stat(w.settingsDir); err != nil {
		t.Error(err)
	}
}
