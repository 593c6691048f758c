package ui

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/app"
	"quarterstep/app/safekeeping"
	"quarterstep/assets/words"
)

// writer writes something whole, unless she lets go of it.
type writer func(app.Watch, io.Writer) error

// plainly is a writer of what is soon written.
func plainly(write func(io.Writer) error) writer {
	return func(_ app.Watch, to io.Writer) error { return write(to) }
}

// pdfOf writes pages of a job, all where none is named.
func pdfOf(job app.Job, pages []string) writer {
	return func(watch app.Watch, to io.Writer) error { return watch.WritePages(job, to, pages) }
}

// withPages does then once the pages are at hand; where there is nothing to print
// it says so. Pages being worked out are waited for beside the window.
func (w *Window) withPages(then func()) {
	if w.dialogOpen {
		return
	}
	if w.step != stepPrint {
		w.goTo(stepPrint)
	}
	s := &w.print
	if s.under {
		s.then = then
		w.say(words.T("Laying the pieces on pages ..."))
		return
	}
	if s.why != "" {
		w.say(s.why)
		return
	}
	then()
}

// savePDF asks for a place and writes the pages there.
func (w *Window) savePDF() { w.savePDFThen(func(string) {}) }

// savePDFThen saves the pages and does something with the file.
func (w *Window) savePDFThen(then func(path string)) { w.withPages(func() { w.askPDF(then) }) }

func (w *Window) askPDF(then func(path string)) {
	p := w.doc.Pattern()
	name := fileName(p.Name) + " " + fileName(w.doc.Result().Size) + ".pdf"
	w.askWhere(name, ".pdf", func(path string) {
		job, pages := w.print.now(), w.wanted()
		w.writing(path, words.T("The PDF cannot be written"), pdfOf(job, pages), func() {
			w.rememberPrinted(job, pages, func() {
				w.refresh()
				w.say(words.F("Wrote %s, %s. Print at 100 %% and measure the square first.", filepath.Base(path), count(pagesOf(job, pages), "page")))
				then(path)
			})
		})
	})
}

// writing writes a file beside the window and then does then, unless she lets go of it:
// then there is no file, or the one from before. failing says what cannot be done.
func (w *Window) writing(path, failing string, write writer, then func()) {
	title := words.F("Writing %s", filepath.Base(path))
	w.say(title)
	x := w.goOn(title)
	besideWindow(func() {
		watch := x.watch()
		err := guarded(func() error {
			return app.WriteFile(path, func(to io.Writer) error {
				if err := write(watch, to); err != nil {
					return err
				}
				return watch.Context.Err()
			})
		})
		fyne.Do(func() {
			if !x.end() {
				if err != nil {
					w.say(words.F("%s was not written.", filepath.Base(path)))
				}
				return
			}
			if err != nil {
				w.fail(failing, err)
				return
			}
			then()
		})
	})
}

// viewPDF opens a PDF in the system's viewer and says what to choose there.
func (w *Window) viewPDF(path string) {
	ctx, stop := context.WithTimeout(context.Background(), 10*time.Second)
	paper := w.print.setup.Paper.Name
	var steps []string
	away(func() (err error) {
		defer stop()
		steps, err = app.ViewPDF(ctx, path, paper)
		return err
	}, func(err error) {
		say := strings.Join(steps, "\n")
		if err != nil {
			say = words.F("%s. Open %s yourself.", capital(err.Error()), filepath.Base(path)) + "\n" + say
		}
		w.question(words.T("Print it from the viewer"), say, answer{word: words.T("Good"), best: true})
	})
}

// printedFile is where what was last printed of this project is kept; empty for
// one that has no file.
func (w *Window) printedFile() string {
	if w.settingsDir == "" || w.doc.Path() == "" {
		return ""
	}
	return safekeeping.PrintedFile(w.settingsDir, w.doc.Path())
}

// printedIn is what was last printed of the project whose printedFile is at path.
// What cannot be read counts as nothing: all pages are printed then.
func printedIn(path string) app.Printed {
	if path == "" {
		return app.Printed{}
	}
	last, err := app.LoadPrinted(path)
	if err != nil {
		return app.Printed{}
	}
	return last
}

// rememberPrinted keeps what was on the pages, so that later only those that
// changed need printing, and then does then. The pages are drawn anew for it, beside
// the window.
func (w *Window) rememberPrinted(job app.Job, pages []string, then func()) {
	path := w.printedFile()
	if path == "" {
		then()
		return
	}
	away(func() error {
		now, err := job.Printed()
		if err == nil && pages != nil {
			before := printedIn(path).Pages
			for name := range now.Pages {
				if !slices.Contains(pages, name) {
					now.Pages[name] = before[name]
				}
			}
		}
		if err == nil {
			err = errors.Join(os.MkdirAll(filepath.Dir(path), 0o700), app.SavePrinted(path, now))
		}
		return err
	}, func(err error) {
		w.printers.only = false
		w.print.stale()
		then()
		if err != nil {
			w.say(words.F("What was printed could not be kept: %s. The next time all pages are printed.", err.Error()))
		}
	})
}

// otherWays is the menu of what else can be made of the pattern.
func (w *Window) otherWays() {
	p := w.doc.Pattern()
	if len(p.Pieces) == 0 || w.dialogOpen {
		return
	}
	name := fileName(p.Name) + " " + fileName(w.doc.Result().Size)
	chosen, paper := w.print.chosen(p), sheetPaper(w.print.setup.Paper)
	export := func(as string) writer {
		return func(watch app.Watch, to io.Writer) error { return watch.Export(to, p, chosen, as) }
	}
	items := []*fyne.MenuItem{
		fyne.NewMenuItem(words.T("Increment sheets, for ruler and pencil ..."), w.allSheets),
		fyne.NewMenuItem(words.T("Summary page ..."), func() {
			w.saveOther(words.F("%s summary", name), ".pdf", plainly(func(to io.Writer) error {
				return app.WriteSummary(to, p, day(time.Now()), paper)
			}))
		}),
		fyne.NewMenuItem(words.T("Laid pieces for a cutter or copy shop (SVG) ..."), func() {
			w.withPages(func() { w.saveOther(words.F("%s laid", name), ".svg", plainly(w.print.now().WriteSVG)) })
		}),
		fyne.NewMenuItem(words.T("Pieces as a drawing (SVG) ..."), func() { w.saveOther(name, ".svg", export("svg")) }),
		fyne.NewMenuItem(words.T("Measures as a table (CSV) ..."), func() { w.saveOther(words.F("%s measures", name), ".csv", export("measures")) }),
		fyne.NewMenuItem(words.T("Increments as a table (CSV) ..."), func() { w.saveOther(words.F("%s increments", name), ".csv", export("csv")) }),
	}
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(w.pages)
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), w.win.Canvas(), at.AddXY(8, 40))
}

// saveOther asks for a place and writes something there.
func (w *Window) saveOther(name, ending string, write writer) {
	w.askWhere(name+ending, ending, func(path string) {
		w.writing(path, words.F("%s cannot be written", filepath.Base(path)), write, func() {
			w.say(words.F("Wrote %s.", filepath.Base(path)))
		})
	})
}
