package ui

import (
	"strings"
	"time"

	"quarterstep/app"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/printing/scale"
	"quarterstep/printing/spool"
	"quarterstep/printing/tile"
	"quarterstep/ui/panel"
)

// scaleStep is a scale check under way: the test page in the sewist's hand and
// what she read on it.
type scaleStep struct {
	with         *tile.Printer // the correction her test page was printed with; nil for the one in force
	across, down string
	verdict      *scale.Verdict
	say          string
	look         bool
}

// scaleCheck is the test page for the printer and paper chosen.
func (w *Window) scaleCheck() app.ScaleCheck {
	p, _ := w.printer()
	with := w.correction()
	if w.scale.with != nil {
		with = *w.scale.with
	}
	return app.ScaleCheck{
		Paper: w.print.setup.Paper, Unit: w.doc.Pattern().Unit, Printer: p.Words,
		Date: time.Now().Format(time.DateOnly), With: with, Margin: p.Margin,
	}
}

// scaleView is the scale check of the Pages panel.
func (w *Window) scaleView(p model.Pattern) panel.ScaleView {
	v := panel.ScaleView{Across: w.scale.across, Down: w.scale.down, Unit: smallUnit(p.Unit), Say: w.scale.say, Look: w.scale.look}
	if w.print.setup.Paper.Projected() {
		v.Ask = words.T("Set the projector by the squares on its page: lay a ruler along them.")
		return v
	}
	across, down, err := w.scaleCheck().Lengths()
	if err != nil {
		v.Ask = sentence(err.Error())
		return v
	}
	v.Square = unitless(across) + " × " + unitless(down)
	v.Ask = words.F("Print the test page and measure its rectangle, %s across and %s down. Type what you read.", across, down)
	known, ok := w.settings.PrinterNamed(w.printerName())
	v.Forget = ok && (known.Across != 1 || known.Down != 1)
	if v.Say == "" && ok && known.Date != "" {
		v.Say = words.F("Checked on %s.", shownDate(known.Date))
		if v.Forget {
			v.Say = words.F("Checked on %s: pages are corrected for this printer.", shownDate(known.Date))
		}
	}
	v.Insist = w.scale.verdict != nil && w.scale.verdict.Kind == scale.Setting && w.scale.verdict.CanInsist
	return v
}

// unitless is a length as written, without its unit.
func unitless(length string) string { return length[:max(strings.LastIndex(length, " "), 0)] }

// shownDate is a date as settings keep it, as it is shown.
func shownDate(kept string) string {
	t, err := time.Parse(time.DateOnly, kept)
	if err != nil {
		return kept
	}
	return t.Format(words.T("2006-01-02"))
}

// measured takes a length read on the test page; once both are there it says
// what they mean, and goes by them from now on where they are the printer's own.
func (w *Window) measured(to *string) func(string) error {
	return func(text string) error {
		*to = strings.TrimSpace(text)
		w.scale.verdict, w.scale.say, w.scale.look = nil, "", false
		if w.scale.across == "" || w.scale.down == "" {
			w.showPages(w.doc.Pattern())
			return nil
		}
		v, err := w.scaleCheck().Judge(w.scale.across, w.scale.down)
		if err != nil {
			w.scale.say, w.scale.look = sentence(err.Error()), true
			w.showPages(w.doc.Pattern())
			return nil
		}
		w.scale.verdict, w.scale.say = &v, strings.Join(v.Says, " ")
		w.scale.look = v.Kind != scale.Fine
		if v.Kind == scale.Fine || v.Kind == scale.Correct {
			w.rememberScale(false)
			return nil
		}
		w.showPages(w.doc.Pattern())
		return nil
	}
}

// rememberScale goes by the verdict from now on.
func (w *Window) rememberScale(insist bool) {
	if w.scale.verdict == nil {
		return
	}
	with := w.scaleCheck().With
	next, err := app.RememberScale(w.settings, w.printerName(), *w.scale.verdict, insist, time.Now())
	if err != nil {
		w.scale.say, w.scale.look = sentence(err.Error()), true
		w.showPages(w.doc.Pattern())
		return
	}
	w.settings = next
	w.keepSettings()
	w.scale.with = &with // the page in her hand stays as it was printed
	if insist {
		w.scale.verdict, w.scale.say = nil, words.T("Pages are corrected by these figures from now on.")
	}
	w.pagesAnew()
}

// forgetScale drops the correction of the printer chosen.
func (w *Window) forgetScale() {
	w.settings = w.settings.WithoutPrinter(w.printerName())
	w.keepSettings()
	w.scale = scaleStep{}
	w.pagesAnew()
}

// testPage prints the test page on the printer chosen, or saves it as a PDF.
func (w *Window) testPage() {
	if w.dialogOpen || w.print.setup.Paper.Projected() {
		return
	}
	w.scale = scaleStep{}
	with := w.correction()
	check := w.scaleCheck()
	made := func() { w.scale.with = &with }
	if p, ok := w.printer(); ok {
		w.send(p, spool.Job{Title: words.T("Quarterstep test page"), Paper: check.Sheet()}, plainly(check.WritePDF), words.T("the test page"), func(say func(string)) {
			made()
			say(words.T("The test page is printed. Measure it and type what you read."))
		})
		return
	}
	w.askWhere(words.T("Quarterstep test page")+".pdf", ".pdf", func(path string) {
		w.writing(path, words.T("The test page cannot be written"), plainly(check.WritePDF), func() {
			made()
			w.viewPDF(path)
		})
	})
}
