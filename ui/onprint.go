package ui

import (
	"maps"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/measure"
	"quarterstep/printing/tile"
	"quarterstep/ui/panel"
)

func (w *Window) showPages(p model.Pattern) {
	if w.step != stepPrint {
		return
	}
	w.askPrinters()
	v := w.print.pagesView(p, p.Target.NameOn(p.Chart))
	v.Scale = w.scaleView(p)
	for _, p := range w.printers.all {
		v.Printers = append(v.Printers, p.Words)
	}
	v.Printer = w.printerAt()
	v.Sending = w.printers.sending
	if v.Note == "" {
		v.Note = w.printerCaution()
	}
	if n := len(w.print.changed); n > 0 && n < w.print.now().Pages() {
		v.Changed = panel.ToggleView{Word: words.N(n, "Only the %d page that changed", "Only the %d pages that changed", n), On: w.printers.only}
		if w.printers.only {
			v.Print = words.F("Print %s", count(n, "page"))
		}
	}
	w.pages.SetView(v)
}

// connectPages turns the Pages panel's choices into new pages.
func (w *Window) connectPages() {
	w.pages.OnGrown = w.relaySide
	w.pages.OnPage = func(i int) {
		plan := w.print.now().Plan
		if plan.Cols > 0 {
			w.print.page = tile.SheetName(i/plan.Cols, i%plan.Cols)
			w.refresh()
		}
	}
	w.pages.OnPaper = func(i int) {
		w.print.setup.Paper = tile.Papers()[i]
		w.settings.Paper = w.print.setup.Paper.Name
		w.keepSettings()
		w.pagesAnew()
	}
	w.pages.OnWide = func(wide bool) { w.print.setup.Landscape = wide; w.pagesAnew() }
	w.pages.OnOverlap = w.pagesLength(func(s *tile.Setup, mm float64) { s.Overlap = mm })
	w.pages.OnMargin = w.pagesLength(func(s *tile.Setup, mm float64) { s.Margin = mm })
	w.pages.OnDark = func(dark bool) { w.print.setup.Projector.Dark = dark; w.pagesAnew() }
	w.pages.OnLine = w.pagesLength(func(s *tile.Setup, mm float64) { s.Projector.Line = mm })
	w.pages.OnShown = func(i int, on bool) {
		*[]*bool{&w.print.target, &w.print.choice.Nest, &w.print.choice.Stitching, &w.print.choice.Marks}[i] = on
		w.pagesAnew()
	}
	w.pages.OnPiece = func(i int, on bool) {
		w.print.leaveOut(w.doc.Pattern(), i, !on)
		w.pagesAnew()
	}
	w.pages.OnSize = func(i int, on bool) {
		w.print.sizes = maps.Clone(w.print.sizes)
		w.print.sizes[w.doc.Pattern().Chart.Sizes[i].Name] = on
		w.pagesAnew()
	}
	w.pages.OnSave = w.savePDF
	w.pages.OnTestPage = w.testPage
	w.pages.OnAcross = w.measured(&w.scale.across)
	w.pages.OnDown = w.measured(&w.scale.down)
	w.pages.OnInsist = func() { w.rememberScale(true) }
	w.pages.OnForget = w.forgetScale
	w.pages.OnPrinter = w.choosePrinter
	w.pages.OnChanged = func(on bool) {
		w.printers.only = on
		w.showPages(w.doc.Pattern())
	}
	w.pages.OnPrint, w.pages.OnCancel = w.printPages, w.takeBack
	w.pages.OnOther, w.pages.OnAnew = w.otherWays, w.pagesAnew
}

// pagesAnew lays the pages out anew.
func (w *Window) pagesAnew() {
	w.print.stale()
	w.refresh()
}

// pagesLength is a callback that puts a typed length into the setup.
func (w *Window) pagesLength(to func(*tile.Setup, float64)) func(string) error {
	return func(text string) error {
		l, err := measure.Parse(text, bareUnit(w.doc.Pattern().Unit))
		if err != nil {
			return err
		}
		next := w.print.setup
		to(&next, l.MM())
		if err := next.Validate(); err != nil {
			return err
		}
		w.print.setup = next
		w.pagesAnew()
		return nil
	}
}
