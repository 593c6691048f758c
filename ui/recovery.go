package ui

import (
	"cmp"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime/debug"
	"time"

	"fyne.io/fyne/v2"

	"quarterstep/app/safekeeping"
	"quarterstep/app/session"
	"quarterstep/assets/words"
)

// safe is what keeps the window's work where a crash cannot take it.
type safe struct {
	journal *safekeeping.Journal // nil where there is no folder for it
	claim   safekeeping.Claim
	claimed string                // path
	earlier []safekeeping.Version // of the document's file, as last looked
}

// openSafe begins the journal of this window.
func (w *Window) openSafe() {
	if w.settingsDir == "" {
		return
	}
	j, err := safekeeping.OpenJournal(w.settingsDir, func(err error) {
		fyne.Do(func() { w.say(words.F("Unsaved work could not be kept aside: %s. Save it soon.", err.Error())) })
	})
	if err != nil {
		w.say(words.F("%s. Save your work often.", capital(err.Error())))
		return
	}
	w.safe.journal = j
}

// closeSafe ends the journal in good order: there is nothing to bring back.
func (w *Window) closeSafe() {
	w.safe.claim.Release()
	if j := w.safe.journal; j != nil {
		w.safe.journal = nil
		if err := j.Close(); err != nil {
			fmt.Fprintln(os.Stderr, "quarterstep:", err)
		}
	}
}

// keepSafe has the journal follow doc, and holds its file. A file that another
// window has leaves doc without one, so that neither writes over the other.
func (w *Window) keepSafe(doc *session.Session) {
	switch path := doc.Path(); {
	case path == "":
		w.safe.claim.Release()
		w.safe.claim, w.safe.claimed = safekeeping.Claim{}, ""
	case !w.claim(path):
		doc.Part()
	}
	if w.safe.journal != nil {
		w.safe.journal.Follow(doc)
	}
}

// sayCopy tells that the document opened from path is a copy, if it is, until it is
// saved.
func (w *Window) sayCopy(path string) {
	if path != "" && w.doc.Path() == "" {
		w.copyOf = filepath.Base(path)
		w.showStatus()
	}
}

// copySay is the sentence that it is a copy; empty where it is none.
func (w *Window) copySay() string {
	if w.copyOf == "" || w.doc.Path() != "" {
		return ""
	}
	return words.F("Another window has %s open. This is a copy; save it under another name.", w.copyOf)
}

// claim holds the file at path for this window in place of the one before;
// false where another window has it.
func (w *Window) claim(path string) bool {
	if w.settingsDir == "" || path == w.safe.claimed {
		return true
	}
	t := take(w.settingsDir, path)
	w.holdFile(t)
	return !t.elsewhere
}

// taken is a file as held for this window, or not.
type taken struct {
	claim     safekeeping.Claim
	path      string // empty for none
	elsewhere bool   // another window has it
	err       error  // why nobody knows
}

// take holds the file at path for this window, on any goroutine; dir is where habits
// are kept, empty for nowhere.
func take(dir, path string) taken {
	if dir == "" {
		return taken{}
	}
	c, held, err := safekeeping.Take(dir, path)
	return taken{c, path, err == nil && !held, err}
}

// holdFile holds what was taken in place of the file before.
func (w *Window) holdFile(t taken) {
	switch {
	case t.path == "" || t.elsewhere:
	case t.err != nil:
		w.say(sentence(t.err.Error()))
	default:
		w.safe.claim.Release()
		w.safe.claim, w.safe.claimed = t.claim, t.path
	}
}

// listEarlier looks beside the window which earlier versions of the file there are.
func (w *Window) listEarlier() {
	dir, path := w.settingsDir, w.doc.Path()
	if w.safe.earlier = nil; dir == "" || path == "" {
		return
	}
	var found []safekeeping.Version
	away(func() error {
		found = safekeeping.Earlier(dir, path)
		return nil
	}, func(error) {
		if w.doc.Path() == path {
			w.safe.earlier = found
		}
	})
}

// earlierMenu lists the file as it was saved before.
func (w *Window) earlierMenu() *fyne.MenuItem {
	item := fyne.NewMenuItem(words.T("Earlier versions"), nil)
	var versions []*fyne.MenuItem
	for _, v := range w.safe.earlier {
		versions = append(versions, fyne.NewMenuItem(words.F("Until %s", clock(v.When)), func() { w.ifSafe(func() { w.openEarlier(v) }) }))
	}
	item.ChildMenu = fyne.NewMenu("", versions...)
	item.Disabled = len(versions) == 0
	return item
}

// openEarlier brings an earlier version back as unsaved work on the same file.
func (w *Window) openEarlier(v safekeeping.Version) {
	home := w.doc.Path()
	w.opening(words.T("Opening an earlier version"), words.T("This version cannot be opened"), func(ctx context.Context) (*session.Session, error) {
		doc, err := session.OpenUntil(ctx, v.Path)
		if err != nil {
			return nil, err
		}
		f := doc.File()
		f.Home = home
		return session.Recover(f, 1)
	}, func(doc *session.Session) {
		w.take(doc)
		w.say(words.F("This is how it was until %s. Save it to have it back.", clock(v.When)))
	})
}

// clock says when something was: the time today, else the day with it.
func clock(t time.Time) string {
	t = t.Local()
	if now := time.Now(); t.YearDay() == now.YearDay() && t.Year() == now.Year() {
		return t.Format("15:04")
	}
	return t.Format(words.T("2 January, 15:04"))
}

// day is a date as it is written on what is printed.
func day(t time.Time) string { return t.Format(words.T("2 January 2006")) }

// OfferLeft offers unsaved work of a window that did not close as it should
// have, naming what it holds: the latest first, and after the answer the next.
func (w *Window) OfferLeft() {
	if w.settingsDir == "" {
		return
	}
	dir := w.settingsDir
	var left []safekeeping.Leftover
	away(func() error {
		left = safekeeping.Left(dir)
		return nil
	}, func(error) { w.offer(left) })
}

func (w *Window) offer(left []safekeeping.Leftover) {
	if len(left) == 0 {
		return
	}
	l, rest := left[0], left[1:]
	w.question(
		words.T("Your unsaved work is here"), leftWords(l),
		answer{word: words.T("Throw it away"), then: func() {
			w.dropLeft(l)
			w.offer(rest)
		}},
		answer{word: words.T("Not now"), then: func() { w.offer(rest) }, away: true},
		answer{word: words.T("Bring it back"), then: func() { w.bringBack(l) }, best: true},
	)
}

// leftWords is "Quarterstep did not close as it should have. It kept Lantern
// blouse, 7 pieces, with 12 changes up to 21:40, the last: move hem."
func leftWords(l safekeeping.Leftover) string {
	kept := cmp.Or(l.Name, words.T("a pattern without a name"))
	if l.Pieces > 0 {
		kept += ", " + count(l.Pieces, "piece")
	}
	if l.Changes > 0 {
		kept = words.N(l.Changes, "%s, with %d change that had not been saved", "%s, with %d changes that had not been saved", kept, l.Changes)
	}
	say := words.F("Quarterstep did not close as it should have. It kept %s, up to %s.", kept, clock(l.When))
	if l.Last != "" {
		say += " " + words.F("The last change was: %s.", l.Last)
	}
	if l.Home != "" {
		say += " " + words.F("It belongs to %s.", filepath.Base(l.Home))
	}
	return say
}

func (w *Window) dropLeft(l safekeeping.Leftover) {
	away(l.Drop, func(err error) {
		if err != nil {
			w.say(sentence(err.Error()))
		}
	})
}

// bringBack makes left work the document; it is thrown away only once this
// window's own journal has it.
func (w *Window) bringBack(l safekeeping.Leftover) {
	w.opening(words.T("Bringing your work back"), words.T("The unsaved work cannot be read"), func(context.Context) (*session.Session, error) {
		f, err := l.Read()
		if err != nil {
			return nil, err
		}
		safekeeping.Know(f.Home)
		return session.Recover(f, l.Changes)
	}, func(doc *session.Session) {
		w.take(doc)
		journal := w.safe.journal
		away(func() error {
			if journal == nil {
				return nil
			}
			return journal.Flush()
		}, func(err error) {
			if err != nil {
				w.say(words.F("%s. Save your work now.", capital(err.Error())))
				return
			}
			w.dropLeft(l)
			w.say(words.T("Your unsaved work is back; save it now."))
		})
	})
}

// rescue answers a fault of the program: the work is put by, then the window is
// opened anew, unless that was done a moment ago already.
func (w *Window) rescue(opened time.Time) {
	fault := recover()
	if fault == nil {
		return
	}
	// words: none
	fmt.Fprintf(os.Stderr, "quarterstep: a fault of the program: %v\n%s", fault, debug.Stack())
	if j := w.safe.journal; j != nil {
		if err := j.Flush(); err != nil {
			fmt.Fprintln(os.Stderr, "quarterstep:", err)
		} else {
			// words: none
			fmt.Fprintln(os.Stderr, "quarterstep: the unsaved work is kept and will be offered at the next start.")
		}
	}
	if self, err := os.Executable(); err == nil && time.Since(opened) > 10*time.Second {
		_ = exec.Command(self).Start() // the new window finds the work; without it the next start does
	}
	os.Exit(2)
}
