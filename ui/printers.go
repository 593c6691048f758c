package ui

import (
	"context"
	"errors"
	"io"
	"slices"
	"time"

	"fyne.io/fyne/v2"

	"quarterstep/app"
	"quarterstep/assets/words"
	"quarterstep/printing/spool"
	"quarterstep/printing/tile"
)

// printerStep is what the Print step knows of the printers.
type printerStep struct {
	all    []app.Printer
	asked  bool   // the system was asked for its printers
	why    string // why there is none to print on
	system spool.System

	only    bool // print only the pages that changed
	sending string
	cancel  context.CancelFunc
}

// anyPrinter stands for the printer of a computer whose printers Quarterstep
// cannot see: its scale is remembered all the same.
const anyPrinter = "My printer"

// listPrinters asks the system; tests have printers of their own.
var listPrinters = app.Printers

// askPrinters asks the system for its printers beside the window.
func (w *Window) askPrinters() {
	s := &w.printers
	if s.asked {
		return
	}
	s.asked = true
	settings, system := w.settings, s.system
	besideWindow(func() {
		ctx, stop := context.WithTimeout(context.Background(), 20*time.Second)
		defer stop()
		var all []app.Printer
		err := guarded(func() (err error) {
			all, err = listPrinters(ctx, system, settings)
			return err
		})
		fyne.Do(func() {
			s.all, s.why = all, ""
			if err != nil {
				s.why = capital(err.Error())
			}
			w.print.stale() // their corrections are known now
			w.refresh()
		})
	})
}

// printerAt is the place of the printer chosen among all; 0, the usual one, where
// none is chosen.
func (w *Window) printerAt() int {
	return max(slices.IndexFunc(w.printers.all, func(p app.Printer) bool { return p.Name == w.settings.Printer }), 0)
}

// printer is the printer chosen; false where the system has none.
func (w *Window) printer() (app.Printer, bool) {
	if len(w.printers.all) == 0 {
		return app.Printer{}, false
	}
	p := w.printers.all[w.printerAt()]
	p.Scale = app.PrinterScale(w.settings, p.Name)
	return p, true
}

// printerName is the name its scale is remembered by.
func (w *Window) printerName() string {
	if p, ok := w.printer(); ok {
		return p.Name
	}
	return anyPrinter
}

// correction is what pages for the printer chosen are corrected by, upright.
func (w *Window) correction() tile.Printer { return app.PrinterScale(w.settings, w.printerName()) }

// printerCaution says what of the printer needs a look before printing.
func (w *Window) printerCaution() string {
	p, ok := w.printer()
	if !ok {
		return ""
	}
	if err := p.Ready(); err != nil {
		return sentence(err.Error())
	}
	return app.MarginCaution(p, w.print.setup)
}

// choosePrinter prints on another printer from now on.
func (w *Window) choosePrinter(i int) {
	if i >= len(w.printers.all) {
		return
	}
	w.settings.Printer = w.printers.all[i].Name
	w.keepSettings()
	w.scale = scaleStep{}
	w.pagesAnew()
}

// printPages prints the pages: on the printer chosen, or where there is none by
// saving a PDF and opening it with what to choose.
func (w *Window) printPages() { w.withPages(w.printNow) }

func (w *Window) printNow() {
	p, ok := w.printer()
	if !ok || w.print.setup.Paper.Projected() {
		w.savePDFThen(w.viewPDF)
		return
	}
	job, pages := w.print.now(), w.wanted()
	title := job.Title()
	w.send(p, spool.Job{Title: title, Paper: job.Plan.Setup.Paper}, pdfOf(job, pages), count(pagesOf(job, pages), "page"), func(say func(string)) {
		w.rememberPrinted(job, pages, func() {
			say(words.F("Printed on %s. Measure the square before you cut.", p.Words))
		})
	})
}

// wanted names the pages to print; nil for all.
func (w *Window) wanted() []string {
	if w.printers.only && len(w.print.changed) > 0 {
		return w.print.changed
	}
	return nil
}

func pagesOf(job app.Job, pages []string) int {
	if pages == nil {
		return job.Pages()
	}
	return len(pages)
}

// send prints something beside the window and tells how it fares; done has what is
// to be said at the end said.
func (w *Window) send(p app.Printer, job spool.Job, write writer, what string, done func(say func(string))) {
	s := &w.printers
	if s.cancel != nil {
		return
	}
	ctx, stop := context.WithCancel(context.Background())
	s.cancel, s.sending = stop, words.F("Sending %s to %s ...", what, p.Words)
	w.showPages(w.doc.Pattern())
	system := s.system
	besideWindow(func() {
		var ticket spool.Ticket
		watch := func(is spool.Progress) {
			ticket = is.Ticket
			fyne.Do(func() {
				if ctx.Err() == nil {
					s.sending = progressWords(is, what)
					w.showPages(w.doc.Pattern())
				}
			})
		}
		err := guarded(func() error {
			return app.PrintPages(ctx, system, p, job, func(to io.Writer) error { return write(app.Watch{Context: ctx}, to) }, watch)
		})
		if ctx.Err() != nil && ticket.ID != 0 {
			back, end := context.WithTimeout(context.Background(), 10*time.Second)
			defer end()
			err = errors.Join(ctx.Err(), app.TakeBack(back, system, ticket))
		}
		fyne.Do(func() {
			stop()
			s.cancel, s.sending = nil, ""
			w.sent(err, done)
		})
	})
}

// sent says how printing ended.
func (w *Window) sent(err error, done func(say func(string))) {
	say := func(sentence string) {
		w.refresh()
		w.say(sentence)
	}
	switch {
	case err == nil:
		done(say)
	case errors.Is(err, context.Canceled):
		say(words.T("Printing was taken back. Pages that are out already are good."))
	case errors.Is(err, spool.ErrUnseen):
		done(func(string) { say(sentence(err.Error())) })
	default:
		w.fail(words.T("The pages cannot be printed"), err)
		w.refresh()
	}
}

// progressWords is "Kitchen prints: page 3 of 17 pages."
func progressWords(is spool.Progress, what string) string {
	say := ""
	switch printer := is.Ticket.Words; {
	case is.State == spool.Waiting:
		say = words.F("%s waits for its turn", printer)
	case is.Pages > 0:
		say = words.F("%s prints: page %d of %s", printer, is.Pages, what)
	default:
		say = words.F("%s prints %s", printer, what)
	}
	if is.Says != "" {
		say += ", " + is.Says
	}
	return say + "."
}

// takeBack takes back what is being printed.
func (w *Window) takeBack() {
	if w.printers.cancel != nil {
		w.printers.cancel()
	}
}
