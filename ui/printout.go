package ui

import (
	"fmt"
	"path/filepath"

	"quarterstep/app"
)

// ready has the pages at hand, worked out now if need be; false, with a word to
// the sewist, where there is nothing to print.
func (w *Window) pagesReady() bool {
	p := w.doc.Pattern()
	if w.dialogOpen {
		return false
	}
	if w.step != stepPrint {
		w.goTo(stepPrint)
	}
	s := &w.print
	if s.under {
		s.asked++ // what is under way is not waited for
		s.take(planOf(p, s.chosen(p), s.setup))
		w.refresh()
	}
	if s.why != "" {
		w.say(s.why)
	}
	return s.why == ""
}

// savePDF asks for a place and writes the pages there.
func (w *Window) savePDF() {
	if !w.pagesReady() {
		return
	}
	p := w.doc.Pattern()
	name := fmt.Sprintf("%s %s.pdf", fileName(p.Name), fileName(w.doc.Result().Size))
	w.askWhere(name, ".pdf", func(path string) {
		job := w.print.now()
		if err := app.WriteFile(path, job.WritePDF); err != nil {
			w.fail("The PDF cannot be written", err)
			return
		}
		w.say(fmt.Sprintf("Wrote %s, %s. Print at 100 %% and measure the square first.", filepath.Base(path), count(job.Pages(), "page")))
	})
}
