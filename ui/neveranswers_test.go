package ui

import (
	"context"
	"fmt"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"
	"unsafe"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"

	"quarterstep/app"
	"quarterstep/app/safekeeping"
	"quarterstep/assets/words"
	"quarterstep/model/crew"
)

// action is something she may do, and what it is called.
type action struct {
	say string
	do  func()
}

// callbacks are what the panels and the Table have the window do, asked for with the
// first of whatever they list.
func callbacks(w *Window) []action {
	var out []action
	of := reflect.ValueOf(w).Elem()
	for i := range of.NumField() {
		f := of.Field(i)
		if f.Kind() != reflect.Pointer || f.IsNil() || !strings.HasPrefix(f.Type().String(), "*panel.") && !strings.HasPrefix(f.Type().String(), "*board.") {
			continue
		}
		part := reflect.NewAt(f.Type(), unsafe.Pointer(f.UnsafeAddr())).Elem().Elem()
		if part.Kind() != reflect.Struct {
			continue
		}
		for j := range part.NumField() {
			name := part.Type().Field(j).Name
			if g := part.Field(j); g.Kind() == reflect.Func && strings.HasPrefix(name, "On") && !g.IsNil() {
				out = append(out, action{part.Type().String() + "." + name, func() { g.Call(usual(g.Type())) }})
			}
		}
	}
	return out
}

// usual are arguments for a callback: the first of a list, a length, a place.
func usual(t reflect.Type) []reflect.Value {
	var out []reflect.Value
	for i := range t.NumIn() {
		v := reflect.New(t.In(i)).Elem()
		switch v.Kind() {
		case reflect.String:
			v.SetString("1")
		case reflect.Bool:
			v.SetBool(true)
		case reflect.Float64:
			v.SetFloat(2)
		case reflect.Pointer:
			v.Set(reflect.New(t.In(i).Elem()))
		}
		out = append(out, v)
	}
	return out
}

// menuActions are the items of a menu and of those under it.
func menuActions(m *fyne.Menu) []action {
	var out []action
	for _, item := range m.Items {
		if item.ChildMenu != nil {
			out = append(out, menuActions(item.ChildMenu)...)
		}
		if item.Action != nil && !item.Disabled {
			out = append(out, action{"menu: " + item.Label, item.Action})
		}
	}
	return out
}

// ofNothing are callbacks about the first of a list that may be empty, and then does not
// call back.
var ofNothing = map[string]bool{"panel.Photo.OnLead": true, "panel.Pages.OnPiece": true, "panel.Shelf.OnPick": true}

// everyAction is all she may do in the window.
func everyAction(w *Window, folder string) []action {
	out := append(callbacks(w), menuActions(w.menu())...)
	for step := range stepCount {
		out = append(out, action{fmt.Sprintf("step %d", step+1), func() { w.enter(step) }})
	}
	for r, do := range w.runes() {
		out = append(out, action{"key " + string(r), do})
	}
	for _, s := range w.shortcuts() {
		out = append(out, action{"Ctrl " + string(s.key), s.do})
	}
	path := filepath.Join(folder, "gone.qstep")
	return append(
		out,
		action{"files dropped", func() { w.dropped(fyne.Position{}, []fyne.URI{storage.NewFileURI(path)}) }},
		action{"a file opened", func() { w.open(path) }},
		action{"a drawing", func() { w.bringInFile(filepath.Join(folder, "a.svg")) }},
		action{"photos", func() { w.openPhotos([]string{filepath.Join(folder, "a.jpg")}) }},
		action{"a chart", func() { w.useChart(filepath.Join(folder, "a.csv")) }},
		action{"a save", func() { w.saveTo(path, nil) }},
		action{"an earlier version", func() { w.openEarlier(safekeeping.Version{Path: path}) }},
		action{"left work", w.OfferLeft},
		action{"a PDF", func() { w.writing(path, "", pdfOf(app.Job{}, nil), func() {}) }},
		action{"the viewer", func() { w.viewPDF(path) }},
		action{"a path typed", func() {
			w.askOpen()
			if a := w.fileBox; a != nil {
				a.choose.Show(folder, nil)
				a.box.OnName(path)
				a.accept()
			}
		}},
		action{"a folder made", func() {
			w.saveAs()
			if a := w.fileBox; a != nil {
				a.choose.Show(folder, nil)
				a.askFolder()
				a.box.FolderLine().SetText("new")
				a.accept()
			}
		}},
	)
}

// TestNothingBesideEverAnswers: with disks, printers and every long reckoning that never
// come to an end, whatever she does returns, Escape leads out of all that then waits,
// and the window goes on: it answers keys and takes edits.
func TestNothingBesideEverAnswers(t *testing.T) {
	for say, c := range map[string]struct {
		begin func(*testing.T) *Window
		steps []int
	}{
		"a pattern": {open, []int{stepGrade, stepPrint}},
		"nothing":   {bareWindow, []int{stepBringIn}},
		"seams":     {func(t *testing.T) *Window { return openTrue(t, 6) }, []int{stepTrue}},
	} {
		t.Run(say, func(t *testing.T) {
			t.Cleanup(func() { _ = words.Use("en") })
			w := c.begin(t)
			folder := t.TempDir()
			t.Setenv("HOME", folder)
			var soon moments
			asked := 0
			put(t, &afterAMoment, soon.add)
			put(t, &besideWindow, func(func()) { asked++ })
			put(t, &checkAtOnce, 0)
			w.aside = func(context.Context, func()) { asked++ }
			for _, step := range c.steps {
				w.goTo(step)
				all := everyAction(w, folder)
				if len(all) < 200 {
					t.Fatalf("only %d actions are known", len(all))
				}
				for _, a := range all {
					began := time.Now()
					if err := crew.Try(func() error { a.do(); return nil }); err != nil && !ofNothing[a.say] {
						t.Errorf("step %d, %s: %v", step+1, a.say, err)
					}
					soon.pass()
					if took := time.Since(began); took > 30*time.Second {
						t.Errorf("step %d, %s: took %v", step+1, a.say, took)
					}
					goesOn(t, w, fmt.Sprintf("step %d, %s", step+1, a.say))
				}
			}
			if asked < 20 {
				t.Errorf("only %d works were asked for beside the window", asked)
			}
		})
	}
}

// goesOn holds that Escape leads out of whatever waits, and that the window then
// answers a key and takes an edit.
func goesOn(t *testing.T, w *Window, after string) {
	t.Helper()
	overlays := w.win.Canvas().Overlays()
	for range 4 {
		w.key(&fyne.KeyEvent{Name: fyne.KeyEscape})
		if top := overlays.Top(); top != nil && !w.dialogOpen {
			overlays.Remove(top) // a menu, which the toolkit closes
		}
	}
	if w.dialogOpen || w.waits != nil || w.fileBox != nil {
		t.Fatalf("%s: Escape does not lead out: a dialog %v, it waits %v", after, w.dialogOpen, w.waits != nil)
	}
	step, dim := w.step, w.table.CloseUp()
	w.rune('c')
	if w.table.CloseUp() == dim {
		t.Fatalf("%s: a key is not answered", after)
	}
	w.rune('c')
	w.doc.Cancel()
	name := w.doc.Pattern().Name + "."
	if w.do("name", named(name)); w.doc.Pattern().Name != name && !w.doc.Busy() { // on a busy machine it goes beside
		t.Fatalf("%s: an edit is not taken", after)
	}
	w.doc.Undo()
	w.goTo(step)
}
