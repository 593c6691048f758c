package ui

import (
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"quarterstep/app"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/ui/panel"
)

// bringInFile brings in the nest in an SVG by the chart that knows its sizes.
// Matching a traced nest takes its time, so it is done beside the window, which
// says so and waits.
func (w *Window) bringInFile(path string) {
	charts := w.charts()
	w.bringing(path, func(watch app.Watch) func() {
		got, err := watch.BringInByAnyChart(path, charts)
		asOne := err != nil && watch.Context.Err() == nil && isOneSize(path, charts)
		return func() {
			if asOne {
				w.askOneSize(path)
				return
			}
			w.broughtIn(path, got, err)
		}
	})
}

// bringing says that path is being brought in, and how far that is, while read
// does so; what read returns is then done by the window, if nobody cancelled it.
func (w *Window) bringing(path string, read func(app.Watch) func()) {
	x := w.wait(words.F("Bringing in %s", filepath.Base(path)))
	x.saying = words.T("Finding the corners of every piece in every size.")
	besideWindow(func() {
		var then func()
		err := guarded(func() error { then = read(x.watch()); return nil })
		fyne.Do(func() {
			if !x.end() {
				return
			}
			if err == nil {
				err = guarded(func() error { then(); return nil })
			}
			if err != nil {
				w.fail(words.T("This drawing cannot be used"), err)
			}
		})
	})
}

// isOneSize reports that a drawing is without size layers and can be read when
// it is told which size it is.
func isOneSize(path string, charts []model.SizeChart) bool {
	if len(charts) == 0 {
		return false
	}
	_, err := app.BringInOneSize(path, charts[0], charts[0].Sizes[0].Name)
	return err == nil
}

// broughtIn makes what was brought in the document and says what was read of
// it, or says why it cannot be used.
func (w *Window) broughtIn(path string, got app.Brought, err error) {
	if err != nil {
		w.fail(words.T("This drawing cannot be used"), err)
		return
	}
	w.show(got.Pattern, func() { w.nowBroughtIn(path, got) })
}

func (w *Window) nowBroughtIn(path string, got app.Brought) {
	w.doubts = got.Remarks
	switch {
	case w.sayHow():
		w.unfold("How it grows") // words: none
	case len(w.finds.found) > 0:
		w.unfold("Links")
	}
	w.refresh()
	w.settings = w.settings.WithFolder(filepath.Dir(path))
	w.keepSettings()
	w.tellRead(words.F("Brought in %s", filepath.Base(path)), readWords(got, len(w.finds.found)))
}

// sayHow reports that nothing says yet how the piece in hand grows.
func (w *Window) sayHow() bool {
	i := w.doc.Pattern().PieceIndex(w.hand.Piece)
	return i >= 0 && w.doc.Result().Pieces[i].Frozen
}

// readWords is what was understood of a drawing: its pieces, what is to be
// looked at, and what to do next; links is how many were found.
func readWords(got app.Brought, links int) []string {
	p := got.Pattern
	lines := []string{words.F("%s, by the chart %s.", count(len(p.Pieces), "piece"), p.Chart.Name)}
	lines = append(lines, app.Understood(p)...)
	if len(got.Remarks) > 0 {
		lines = append(lines, "", words.T("To look at:"))
		lines = append(lines, got.Remarks...)
	}
	if links > 0 {
		lines = append(lines, "", words.F("%s between edges found: accept them in the Links panel.", count(links, "link")))
	}
	if slices.ContainsFunc(p.Pieces, func(q model.Piece) bool { return printedOnce(q) && !q.OneForAll }) {
		lines = append(lines, "", words.T("A piece printed in one size stays as it is until the panel How it grows is told by how much."))
	}
	return lines
}

// tellRead shows what was read in a dialog that scrolls.
func (w *Window) tellRead(title string, lines []string) {
	text := widget.NewLabel(strings.Join(lines, "\n"))
	text.Wrapping = fyne.TextWrapWord
	const wide, line, rest, most = 560, 24, 120, 560
	scroll := container.NewVScroll(text)
	w.tell(title, scroll, scroll, fyne.NewSize(wide, min(float32(rest+line*len(lines)), most)))
}

// askOneSize asks of a drawing without size layers which size all of it is.
func (w *Window) askOneSize(path string) {
	charts := w.charts()
	if w.dialogOpen {
		return
	}
	var names []string
	for _, c := range charts {
		names = append(names, chartWords(c))
	}
	size := panel.NewListed(nil, nil)
	size.PlaceHolder = words.T("Choose the size")
	chart := panel.NewListed(names, nil)
	text := widget.NewLabel(words.F("No layer of %s is named after a size. If all of it is one size, say which: it can then grow by gaps you type or by cut lines. For a nest, leave it, name each size's layer after the size, and bring it in again.", filepath.Base(path)))
	text.Wrapping = fyne.TextWrapWord
	d := dialog.NewCustomWithoutButtons(words.T("One size only: which?"), container.NewVBox(text, widget.NewForm(
		widget.NewFormItem(words.T("Chart"), chart), widget.NewFormItem(words.T("Size"), size))), w.win)
	done := func(then func()) func() {
		return func() {
			d.Hide()
			w.dialogOpen = false
			then()
		}
	}
	yes := panel.NewPush(words.T("Bring it in"), done(func() { w.bringInOne(path, charts[chart.SelectedIndex()], size.Selected) }))
	yes.Importance = widget.HighImportance
	yes.Disable()
	chart.OnChanged = func(string) {
		size.ClearSelected()
		size.SetOptions(sizeNamesOf(charts[chart.SelectedIndex()]))
		yes.Disable()
	}
	size.OnChanged = func(s string) {
		if s != "" {
			yes.Enable()
		}
	}
	chart.SetSelectedIndex(max(0, slices.Index(names, chartWords(w.doc.Pattern().Chart))))
	leave := done(func() {})
	d.SetButtons([]fyne.CanvasObject{panel.NewPush(words.T("Leave it"), leave), yes})
	w.hasDialog(asked{no: leave})
	d.Resize(fyne.NewSize(520, 300))
	d.Show()
	w.win.Canvas().Focus(size)
}

func sizeNamesOf(c model.SizeChart) []string {
	var out []string
	for _, s := range c.Sizes {
		out = append(out, s.Name)
	}
	return out
}

// bringInOne brings in a drawing all of which is one size of a chart.
func (w *Window) bringInOne(path string, c model.SizeChart, size string) {
	w.bringing(path, func(watch app.Watch) func() {
		got, err := watch.BringInOneSize(path, c, size)
		return func() { w.broughtIn(path, got, err) }
	})
}
