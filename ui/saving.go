package ui

import (
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"

	"quarterstep/app/edit"
	"quarterstep/app/safekeeping"
	"quarterstep/assets/words"
)

// saves are the document's ways to its file. A save is written beside the window,
// one after the other; a pattern is never written into, so that she may go on
// meanwhile.
type saves struct {
	under bool     // a save is being written
	after []func() // what waits for its end, in order
}

// whenSaved does f once no save is under way.
func (w *Window) whenSaved(f func()) {
	if w.saves.under {
		w.saves.after = append(w.saves.after, f)
		return
	}
	f()
}

// saveTo writes the document beside the window and then does then, which may be
// nil; when it cannot be written the red strip stays until it is saved elsewhere.
func (w *Window) saveTo(path string, then func()) {
	w.nameAfter(path)
	w.doc.After(func() { w.whenSaved(func() { w.saveNow(path, then) }) })
}

func (w *Window) saveNow(path string, then func()) {
	if path != w.doc.Path() && !w.claim(path) {
		w.red.Set(words.F("Not saved: another window has %s open.", filepath.Base(path)))
		return
	}
	doc, earlier := w.doc, w.settingsDir
	write, done := doc.Saving(path)
	w.saves.under = true
	w.showStatus()
	besideWindow(func() {
		var kept error // that it cannot be put by must not keep the work from being saved
		err := guarded(func() error {
			if earlier != "" {
				kept = safekeeping.KeepEarlier(earlier, path)
			}
			return write()
		})
		fyne.Do(func() {
			w.saves.under = false
			if err != nil {
				w.red.Set(words.F("Not saved: %s.", err))
			} else {
				w.red.Set("")
				w.remember(path)
				done()
			}
			w.showStatus()
			if kept != nil {
				w.say(sentence(kept.Error()))
			}
			w.saved(then, err == nil)
		})
	})
}

// nameAfter names a pattern that has no name yet, as one traced from paper, after
// its file, so that its pages say what they are of.
func (w *Window) nameAfter(path string) {
	if p := w.doc.Pattern(); p.Name == "" && len(p.Pieces)+len(p.Tracings) > 0 {
		w.do(words.T("name the pattern"), edit.NamePattern(strings.TrimSuffix(filepath.Base(path), projectExt)))
	}
}

// saved does what was to follow a save, and what waited for its end: where it
// failed only the latter.
func (w *Window) saved(then func(), well bool) {
	after := w.saves.after
	w.saves = saves{}
	if well && then != nil {
		then()
	}
	for _, f := range after {
		w.whenSaved(f)
	}
}
