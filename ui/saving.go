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
	path  string   // there
	slow  bool     // and keeps her waiting
	turn  int      // counts the saves
	after []func() // what waits for its end, in order
	// lost counts by path the saves that she has let go of and that have not come to
	// their end: a drive that comes back would write them over what is saved there.
	lost map[string]int
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
func (w *Window) saveTo(path string, then func()) { w.savingTo(path, true, then) }

// savingTo is saveTo; without over a file that another program has changed since is
// asked about first.
func (w *Window) savingTo(path string, over bool, then func()) {
	w.nameAfter(path)
	w.doc.After(func() { w.whenSaved(func() { w.saveNow(path, over, then) }) })
}

// save is one save on its way, and what came of it.
type save struct {
	path    string
	then    func()
	changed bool  // another program has changed the file, which was not written over
	kept    error // that it cannot be put by must not keep the work from being saved
	taken   taken
}

func (w *Window) saveNow(path string, over bool, then func()) {
	if w.saves.lost[path] > 0 {
		w.red.Set(words.F("Not saved: the drive of %s has not answered yet. Save elsewhere.", filepath.Base(path)))
		return
	}
	doc, earlier, s := w.doc, w.settingsDir, &save{path: path, then: then}
	write, done := doc.Saving(path)
	underneath, other := doc.Underneath(), path != w.safe.claimed
	w.saves.under, w.saves.path = true, path
	w.saves.turn++
	turn := w.saves.turn
	still := afterAMoment(func() { w.savesSlowly(turn) })
	w.showStatus()
	besideWindow(func() {
		err := guarded(func() error {
			if other {
				s.taken = take(earlier, path)
			}
			s.changed = !over && !s.taken.elsewhere && underneath()
			if s.taken.elsewhere || s.changed {
				return nil
			}
			if earlier != "" {
				s.kept = safekeeping.KeepEarlier(earlier, path)
			}
			err := write()
			safekeeping.Know(path)
			return err
		})
		fyne.Do(func() {
			still()
			if w.saves.turn == turn {
				w.saveEnded(s, err, done)
			} else {
				w.savedLate(s, err)
			}
		})
	})
}

// saveEnded says how a save came to its end.
func (w *Window) saveEnded(s *save, err error, done func()) {
	w.saves.under, w.saves.slow = false, false
	well := err == nil && !s.changed && !s.taken.elsewhere
	switch {
	case s.taken.elsewhere:
		w.red.Set(words.F("Not saved: another window has %s open.", filepath.Base(s.path)))
	case s.changed:
		w.red.Set("")
		w.askSaveOver(s.path, s.then)
	case err != nil:
		w.red.Set(words.F("Not saved: %s.", err))
	}
	if well {
		w.red.Set("")
		w.holdFile(s.taken)
		w.remember(s.path)
		done()
		w.listEarlier()
	} else {
		s.taken.claim.Release()
	}
	w.showStatus()
	if s.kept != nil {
		w.say(sentence(s.kept.Error()))
	}
	w.saved(s.then, well)
}

// savesSlowly tells that a save keeps her waiting, and what she can do.
func (w *Window) savesSlowly(turn int) {
	if w.saves.turn == turn && w.saves.under {
		w.saves.slow = true
		w.red.Set(words.F("Still saving %s. If its drive does not answer, save elsewhere.", filepath.Base(w.saves.path)))
	}
}

// letSaveGo waits no longer for a save that keeps her waiting.
func (w *Window) letSaveGo() {
	if !w.saves.slow {
		return
	}
	if w.saves.lost == nil {
		w.saves.lost = map[string]int{}
	}
	w.saves.lost[w.saves.path]++
	w.saves.turn++
	w.red.Set(words.F("Not saved: the drive of %s has not answered yet. Save elsewhere.", filepath.Base(w.saves.path)))
	w.saved(nil, false)
	w.showStatus()
}

// savedLate takes note of the end of a save that she has let go of.
func (w *Window) savedLate(s *save, err error) {
	if w.saves.lost[s.path]--; w.saves.lost[s.path] <= 0 {
		delete(w.saves.lost, s.path)
	}
	s.taken.claim.Release()
	if err == nil && !s.changed && !s.taken.elsewhere {
		w.say(words.F("%s was saved after all, as it was then.", filepath.Base(s.path)))
	}
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
	w.saves = saves{turn: w.saves.turn, lost: w.saves.lost}
	if well && then != nil {
		then()
	}
	for _, f := range after {
		w.whenSaved(f)
	}
}
