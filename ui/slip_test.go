package ui

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"quarterstep/app"
	"quarterstep/app/settings"
	"quarterstep/model"
	"quarterstep/model/crew"
	"quarterstep/printing/spool"
)

const faultWords = "fault of Quarterstep itself"

// fault is a fault of the program, as an index beyond a list is.
func fault() {
	var none []int
	none[len(none)]++
}

// TestFaultsBesideTheWindow: whatever goes wrong beside the window is said, the
// window goes on, and what is unsaved is still kept aside.
func TestFaultsBesideTheWindow(t *testing.T) {
	w := open(t)
	w.aside = func(_ context.Context, work func()) { work() }
	ph := &photo{name: "sleeve"}
	w.paper.photos = append(w.paper.photos, ph)
	many := func() { // on goroutines of its own, as pixels are worked on
		var g crew.Group
		g.Go(fault)
		g.Wait()
	}
	for what, slips := range map[string]func(){"here": fault, "on another goroutine": many} {
		w.beside(ph, "Looking", func(context.Context, func(float64)) (func(), error) { slips(); return nil, nil })
		if !strings.Contains(ph.note, faultWords) || ph.job.words != "" {
			t.Errorf("a photo, a fault %s: says %q", what, ph.note)
		}
		ph.note = ""
		w.beside(ph, "Looking", func(context.Context, func(float64)) (func(), error) { return slips, nil })
		if !strings.Contains(ph.note, faultWords) {
			t.Errorf("a photo, a fault %s afterwards: says %q", what, ph.note)
		}
		w.bringing("front.svg", func(app.Watch) func() { slips(); return nil })
		if !w.dialogOpen {
			t.Errorf("a drawing, a fault %s: nothing is said", what)
		}
		w.dialogOpen = false
	}
	listed := listPrinters
	defer func() { listPrinters = listed }()
	listPrinters = func(context.Context, spool.System, settings.Settings) ([]app.Printer, error) {
		fault()
		return nil, nil
	}
	w.printers.asked = false
	w.askPrinters()
	if !strings.Contains(w.printers.why, faultWords) {
		t.Errorf("printers: says %q", w.printers.why)
	}
	w.do("name the pattern", func(p model.Pattern) (model.Pattern, error) { p.Name = "After the fault"; return p, nil })
	if err := w.safe.journal.Flush(); err != nil {
		t.Fatal(err)
	}
	kept, err := filepath.Glob(filepath.Join(w.settingsDir, "*", "*", "*.qstep"))
	if err != nil || len(kept) != 1 {
		t.Errorf("kept aside: %v, %v", kept, err)
	}
}

// TestFaultsInAnEdit: an edit that goes wrong leaves the document as it was.
func TestFaultsInAnEdit(t *testing.T) {
	w := open(t)
	before := w.doc.Pattern().Name
	err := w.doc.Do("spoil", func(p model.Pattern) (model.Pattern, error) { fault(); return p, nil })
	if err == nil || !strings.Contains(err.Error(), faultWords) || w.doc.Pattern().Name != before || w.doc.UndoLabel() != "" {
		t.Errorf("says %v; undo %q", err, w.doc.UndoLabel())
	}
	w.do("go on", func(p model.Pattern) (model.Pattern, error) { p.Name = "On"; return p, nil })
	if w.doc.Pattern().Name != "On" {
		t.Error("no edit is possible afterwards")
	}
}
