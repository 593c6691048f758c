package ui

import (
	"cmp"
	"context"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/app"
	"quarterstep/app/folders"
	"quarterstep/app/safekeeping"
	"quarterstep/app/session"
	"quarterstep/assets/words"
	"quarterstep/grading/propose"
	"quarterstep/model"
)

const projectExt = ".qstep"

// menu is the menu under the pattern's name.
func (w *Window) menu() *fyne.Menu {
	recent := fyne.NewMenuItem(words.T("Open recent"), nil)
	var files []*fyne.MenuItem
	for _, path := range w.settings.Recent {
		files = append(files, fyne.NewMenuItem(filepath.Base(path), func() { w.ifSafe(func() { w.open(path) }) }))
	}
	recent.ChildMenu = fyne.NewMenu("", files...)
	recent.Disabled = len(files) == 0
	demos := fyne.NewMenuItem(words.T("Demos"), nil)
	demos.ChildMenu = fyne.NewMenu(
		"",
		fyne.NewMenuItem(words.T("Blouse, in cm"), func() { w.ifSafe(func() { w.demo(app.DemoBlouse, nil) }) }),
		fyne.NewMenuItem(words.T("Waistcoat, in inches"), func() { w.ifSafe(func() { w.demo(app.DemoWaistcoat, nil) }) }),
	)
	return fyne.NewMenu(
		"",
		fyne.NewMenuItem(words.T("Begin a new pattern"), w.newPattern),
		fyne.NewMenuItem(words.T("Bring in photos, a scan or an SVG ..."), w.bringIn),
		w.targetsMenu(),
		fyne.NewMenuItem(words.T("Open ..."), w.askOpen),
		recent,
		fyne.NewMenuItem(words.T("Size chart of your own ..."), w.askChart),
		fyne.NewMenuItemSeparator(),
		fyne.NewMenuItem(words.T("Save"), w.save),
		fyne.NewMenuItem(words.T("Save as ..."), w.saveAs),
		w.earlierMenu(),
		fyne.NewMenuItem(words.T("Save PDF ..."), w.savePDF),
		fyne.NewMenuItem(words.T("Increment sheets ..."), w.allSheets),
		fyne.NewMenuItem(words.T("Style change ..."), w.askStyle),
		fyne.NewMenuItem(words.T("Copy what the Table shows as text"), w.copyWords),
		fyne.NewMenuItemSeparator(),
		w.pieceMenu(),
		fyne.NewMenuItemSeparator(),
		fyne.NewMenuItem(words.T("Show me how"), w.beginTour),
		demos,
		w.textMenu(),
		w.languageMenu(),
		fyne.NewMenuItem(words.T("True size on this screen ..."), w.askScreen),
		fyne.NewMenuItemSeparator(),
		fyne.NewMenuItem(words.T("About Quarterstep"), w.about),
		fyne.NewMenuItem(words.T("Quit"), w.askAndClose),
	)
}

// demo opens a demo and then does then, which may be nil.
func (w *Window) demo(make func() (model.Pattern, error), then func()) {
	w.opening(words.T("Drawing the demo"), words.T("The demo cannot be drawn"), func(ctx context.Context) (*session.Session, error) {
		p, err := make()
		if err != nil {
			return nil, err
		}
		return session.NewUntil(ctx, p)
	}, func(doc *session.Session) {
		w.take(doc)
		w.demoOpen = true
		if then != nil {
			then()
		}
	})
}

// opening makes a document beside the window, which keeps the one it has as long, and
// then does then with it, unless she lets go; title says what is done, and failing
// what cannot be.
func (w *Window) opening(title, failing string, make func(context.Context) (*session.Session, error), then func(*session.Session)) {
	x := w.wait(title)
	serial := w.docSerial
	besideWindow(func() {
		var doc *session.Session
		err := guarded(func() (err error) {
			doc, err = make(x.ctx)
			return err
		})
		fyne.Do(func() {
			if !x.end() {
				return
			}
			switch {
			case err != nil:
				w.fail(failing, err)
			case w.docSerial != serial: // she has worked on meanwhile
				w.ifSafe(func() { then(doc) })
			default:
				then(doc)
			}
		})
	})
}

// show opens p as a new document, looks for links in it, and then does then.
func (w *Window) show(p model.Pattern, then func()) {
	var found []propose.Proposal
	var took time.Duration
	w.opening(words.T("Working out the sizes"), words.T("This pattern cannot be graded"), func(ctx context.Context) (*session.Session, error) {
		doc, err := session.NewUntil(ctx, p)
		if err == nil {
			began := time.Now()
			found = propose.Links(p)
			took = time.Since(began)
		}
		return doc, err
	}, func(doc *session.Session) {
		w.take(doc)
		w.foundLinks(found, took)
		then()
	})
}

// fail says in a dialog what could not be done.
func (w *Window) fail(what string, err error) {
	said := widget.NewLabel(capital(err.Error()))
	said.Wrapping = fyne.TextWrapWord
	w.tell(what, said, nil, fyne.NewSize(460, 0))
}

// open reads a project file and makes it the document; one that another window
// has is opened as a copy.
func (w *Window) open(path string) {
	w.say(words.F("Opening %s", filepath.Base(path)))
	w.opening(words.F("Opening %s", filepath.Base(path)), words.T("This file cannot be opened"), func(ctx context.Context) (*session.Session, error) {
		safekeeping.Know(path)
		return session.OpenUntil(ctx, path)
	}, func(doc *session.Session) {
		w.remember(path)
		w.take(doc)
		w.sayCopy(path)
	})
}

// remember keeps path among the recent files.
func (w *Window) remember(path string) {
	w.settings = w.settings.WithRecent(path)
	w.keepSettings()
}

// ifSafe does f, asking first where work would be lost. It waits for a save under
// way.
func (w *Window) ifSafe(f func()) {
	if w.dialogOpen {
		return
	}
	if w.saves.under {
		w.afterSave(f)
		return
	}
	if !w.doc.Dirty() {
		f()
		return
	}
	w.question(
		words.T("Save your work first?"), words.F("%s has changes that are not saved.", cmp.Or(w.doc.Pattern().Name, words.T("This pattern"))),
		answer{word: words.T("Stay here")},
		answer{word: words.T("Do not save"), then: f},
		answer{word: words.T("Save"), then: func() { w.saveThen(f) }, best: true},
	)
}

// afterSave is ifSafe once the save under way has come to its end, or she no longer
// waits for it.
func (w *Window) afterSave(f func()) {
	x := w.wait(words.F("Saving %s", filepath.Base(w.saves.path)))
	x.saying = words.T("This takes a while. Cancel does not wait for it any longer; the file may then not be saved.")
	x.letGo = func() {
		if w.letSaveGo(); !w.saves.under {
			w.ifSafe(f)
		}
	}
	w.whenSaved(func() {
		if x.end() {
			w.ifSafe(f)
		}
	})
}

// saveThen saves and then does f, which may be nil; f waits until the file is safe.
func (w *Window) saveThen(f func()) {
	w.doc.After(func() { w.whenSaved(func() { w.saveNamed(f) }) })
}

func (w *Window) saveNamed(f func()) {
	path := w.doc.Path()
	if path == "" {
		w.askSave(func(path string) { w.saveTo(path, f) })
		return
	}
	w.savingTo(path, false, f)
}

// askSaveOver asks before what another program wrote into the file is lost.
func (w *Window) askSaveOver(path string, f func()) {
	w.question(
		words.T("Save over it?"), words.F("%s was changed by another program, or on another machine, since it was opened here. Saving over it loses what was changed there.", filepath.Base(path)),
		answer{word: words.T("Do not save yet")},
		answer{word: words.T("Save over it"), then: func() { w.saveTo(path, f) }},
		answer{word: words.T("Save under another name"), then: func() { w.askSave(func(path string) { w.saveTo(path, f) }) }, best: true},
	)
}

func (w *Window) save() { w.saveThen(nil) }

func (w *Window) saveAs() {
	w.letSaveGo()
	w.askSave(func(path string) { w.saveTo(path, nil) })
}

// askAndClose closes the window, asking first where work would be lost.
func (w *Window) askAndClose() {
	if w.waits != nil {
		w.waits.cancel()
	}
	w.ifSafe(func() {
		quit := sync.OnceFunc(func() {
			w.closeSafe()
			w.app.Quit()
		})
		w.whenKept(quit)
		afterAMoment(quit) // where the habits have no disk to be kept on
	})
}

func (w *Window) askOpen() {
	w.ifSafe(func() {
		w.askFile(words.T("Open a pattern"), []folders.Kind{patternKind()}, w.open)
	})
}

// bringIn asks for a photo, a scan or a drawing and brings it in.
func (w *Window) bringIn() {
	if !w.dialogOpen {
		w.askFiles(words.T("Bring in photos, a scan or an SVG"), bringInKinds(), w.bringInFiles)
	}
}

// askSave asks where to save the project.
func (w *Window) askSave(then func(path string)) {
	w.askWhere(fileName(w.doc.Pattern().Name)+projectExt, projectExt, then)
}

// fileName is name without what a file name must not have; a pattern without a
// name is called so.
func fileName(name string) string {
	if name == "" {
		return words.T("Pattern")
	}
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, r) || r < ' ' {
			return '-'
		}
		return r
	}, name)
}
