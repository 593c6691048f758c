package ui

import (
	"time"

	"fyne.io/fyne/v2"

	"quarterstep/app"
	"quarterstep/app/session"
	"quarterstep/assets/words"
	"quarterstep/ui/panel"
)

// checkAtOnce is how long checking may take to be done within a frame. What took
// longer the last time is done beside the window, and so is the first check of a
// document, of which nothing is known yet.
var checkAtOnce = 10 * time.Millisecond

// reported is the report on a document as it was kept.
type reported struct {
	of      *session.Session
	serial  int // the window's count of the document's changes then; 0 for never
	report  app.Report
	took    time.Duration // the longer of the last two checks
	under   bool          // a check is under way beside the window
	checker *app.Checker  // belongs to the check under way
}

// report is what checking says of the document, or said before a drag under way.
// While a check is under way beside the window it is what the last one said; the
// window is shown anew at its end.
func (w *Window) report() app.Report {
	r := &w.reported
	if r.of != w.doc {
		under := r.under
		*r = reported{of: w.doc, checker: &app.Checker{}, under: under}
	}
	if r.serial == w.docSerial || w.doc.Previewing() || r.under {
		return r.report
	}
	if r.serial > 0 && r.took < checkAtOnce {
		began := time.Now()
		r.report = r.checker.ReportOf(w.doc.Pattern(), w.doc.Result())
		r.serial, r.took = w.docSerial, time.Since(began)
		return r.report
	}
	w.checkBeside()
	return w.reported.report
}

// checking reports that the report is not yet that of the document as it is.
func (w *Window) checking() bool { return w.reported.under }

// checkingLong reports that the report is not that of the document as it is, and will
// not be before she could have read it.
func (w *Window) checkingLong() bool {
	const atAGlance = 200 * time.Millisecond
	return w.reported.under && (w.reported.serial == 0 || w.reported.took > atAGlance)
}

// checksShown is the Checks panel of the document as it is.
func (w *Window) checksShown() panel.ChecksView {
	report := w.report()
	v := checksView(w.doc.Pattern(), report, w.doubts, w.looked)
	switch {
	case w.checking() && len(report.Checks) == 0:
		v.Empty = words.T("Checking ...")
	case w.checkingLong():
		v.Waits = words.T("Checking again. This is how it was before:")
	}
	return v
}

func (w *Window) checkBeside() {
	r := &w.reported
	r.under = true
	doc, serial, checker, p, graded := w.doc, w.docSerial, r.checker, w.doc.Pattern(), w.doc.Result()
	atOnce := true
	besideWindow(func() {
		var report app.Report
		began := time.Now()
		err := guarded(func() error {
			report = checker.ReportOf(p, graded)
			return nil
		})
		took := time.Since(began)
		fyne.Do(func() {
			w.reported.under = false
			if w.reported.of == doc {
				w.reported.serial, w.reported.took = serial, took
				if err == nil {
					w.reported.report = report
				} else {
					w.reported.checker = &app.Checker{} // what it remembers may be half done
				}
			}
			if !atOnce {
				w.refreshAside()
			}
		})
	})
	atOnce = false
}
