package ui

import (
	"io"
	"path/filepath"

	"fyne.io/fyne/v2"

	"quarterstep/app"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/trace/target"
	"quarterstep/printing/tile"
)

// targetsMenu offers the sheets of targets that make a photo flat.
func (w *Window) targetsMenu() *fyne.MenuItem {
	item := fyne.NewMenuItem(words.T("Print targets for photos"), nil)
	item.ChildMenu = fyne.NewMenu(
		"",
		fyne.NewMenuItem(words.T("Target strips ..."), func() { w.saveTargets(target.Strips) }),
		fyne.NewMenuItem(words.T("Corner targets ..."), func() { w.saveTargets(target.Corners) }),
	)
	return item
}

// saveTargets asks for a place and writes a sheet of targets there.
func (w *Window) saveTargets(set target.Set) {
	if w.dialogOpen {
		return
	}
	on := w.targetPaper()
	name := map[target.Set]string{target.Strips: words.T("Target strips"), target.Corners: words.T("Corner targets")}[set]
	w.askWhere(name+" "+on.Name+".pdf", ".pdf", func(path string) { w.writeTargets(path, set, on) })
}

func (w *Window) writeTargets(path string, set target.Set, on tile.Paper) {
	printer := w.print.setup.Printer
	write := func(out io.Writer) error { return app.WriteTargetSheet(out, set, on, printer) }
	w.writing(path, words.T("The targets cannot be written"), plainly(write), func() {
		w.say(words.F("Wrote %s. Print it at 100 %%, measure its square, and cut it apart.", filepath.Base(path)))
	})
}

// targetPaper is the paper the sewist prints on, where that is a page, else the
// usual one of her unit.
func (w *Window) targetPaper() tile.Paper {
	if on := w.print.setup.Paper; !on.Free && on.Width > 0 {
		return on
	}
	name := "A4"
	if w.doc.Pattern().Unit == model.Inches {
		name = "Letter"
	}
	on, err := tile.ParsePaper(name)
	if err != nil {
		panic("a usual paper is not known: " + name)
	}
	return on
}
