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

// writer writes something whole.
type writer func(io.Writer) error

// pdfOf writes pages of a job, all where none is named.
func pdfOf(job app.Job, pages []string) writer {
	return func(to io.Writer) error { return job.WritePages(to, pages) }
}

// pagesReady has the pages at hand, worked out now if need be; false, with a
// word to the sewist, where there is nothing to print.
func (w *Window) pagesReady() bool {
	if w.dialogOpen {
		return false
	}
	if w.step != stepPrint {
		w.goTo(stepPrint)
	}
	s := &w.print
	if s.under {
		p := w.doc.Pattern()
		s.asked++ // what is under way is not waited for
		s.take(planOf(p, s.chosen(p), w.setup(), w.printedBefore()))
		w.refresh()
	}
	if s.why != "" {
		w.say(s.why)
	}
	return s.why == ""
}

// savePDF asks for a place and writes the pages there.
func (w *Window) savePDF() {
	if w.pagesReady() {
		w.savePDFThen(func(string) {})
	}
}

// savePDFThen saves the pages and does something with the file.
func (w *Window) savePDFThen(then func(path string)) {
	p := w.doc.Pattern()
	name := fileName(p.Name) + " " + fileName(w.doc.Result().Size) + ".pdf"
	w.askWhere(name, ".pdf", func(path string) {
		job, pages := w.print.now(), w.wanted()
		if err := app.WriteFile(path, pdfOf(job, pages)); err != nil {
			w.fail(words.T("The PDF cannot be written"), err)
			return
		}
		w.rememberPrinted(job, pages)
		w.refresh()
		w.say(words.F("Wrote %s, %s. Print at 100 %% and measure the square first.", filepath.Base(path), count(pagesOf(job, pages), "page")))
		then(path)
	})
}

// viewPDF opens a PDF in the system's viewer and says what to choose there.
func (w *Window) viewPDF(path string) {
	ctx, stop := context.WithTimeout(context.Background(), 10*time.Second)
	defer stop()
	steps, err := app.ViewPDF(ctx, path, w.print.setup.Paper.Name)
	say := strings.Join(steps, "\n")
	if err != nil {
		say = words.F("%s. Open %s yourself.", capital(err.Error()), filepath.Base(path)) + "\n" + say
	}
	w.question(words.T("Print it from the viewer"), say, answer{word: words.T("Good"), best: true})
}

// printedFile is where what was last printed of this project is kept; empty for
// one that has no file.
func (w *Window) printedFile() string {
	if w.settingsDir == "" || w.doc.Path() == "" {
		return ""
	}
	return safekeeping.PrintedFile(w.settingsDir, w.doc.Path())
}

// printedBefore is what was last printed of this project. What cannot be read
// counts as nothing: all pages are printed then.
func (w *Window) printedBefore() app.Printed {
	path := w.printedFile()
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
// changed need printing.
func (w *Window) rememberPrinted(job app.Job, pages []string) {
	path := w.printedFile()
	if path == "" {
		return
	}
	now, err := job.Printed()
	if err == nil && pages != nil {
		before := w.printedBefore().Pages
		for name := range now.Pages {
			if !slices.Contains(pages, name) {
				now.Pages[name] = before[name]
			}
		}
	}
	if err == nil {
		err = errors.Join(os.MkdirAll(filepath.Dir(path), 0o700), app.SavePrinted(path, now))
	}
	if err != nil {
		w.say(words.F("What was printed could not be kept: %s. The next time all pages are printed.", err.Error()))
	}
	w.printers.only = false
	w.print.stale()
}

// otherWays is the menu of what else can be made of the pattern.
func (w *Window) otherWays() {
	p := w.doc.Pattern()
	if len(p.Pieces) == 0 || w.dialogOpen {
		return
	}
	name := fileName(p.Name) + " " + fileName(w.doc.Result().Size)
	export := func(as string) writer {
		return func(to io.Writer) error { return app.Export(to, p, w.print.chosen(p), as) }
	}
	items := []*fyne.MenuItem{
		fyne.NewMenuItem(words.T("Increment sheets, for ruler and pencil ..."), w.allSheets),
		fyne.NewMenuItem(words.T("Summary page ..."), func() {
			w.saveOther(words.F("%s summary", name), ".pdf", func(to io.Writer) error {
				return app.WriteSummary(to, p, day(time.Now()), sheetPaper(w.print.setup.Paper))
			})
		}),
		fyne.NewMenuItem(words.T("Laid pieces for a cutter or copy shop (SVG) ..."), func() {
			if w.pagesReady() {
				w.saveOther(words.F("%s laid", name), ".svg", w.print.now().WriteSVG)
			}
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
		if err := app.WriteFile(path, write); err != nil {
			w.fail(words.F("%s cannot be written", filepath.Base(path)), err)
			return
		}
		w.say(words.F("Wrote %s.", filepath.Base(path)))
	})
}
