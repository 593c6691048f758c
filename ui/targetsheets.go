package ui

import (
	"io"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

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
		w.tellTargets(set, path)
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

// tellTargets says what to do with a sheet of targets that was written.
func (w *Window) tellTargets(set target.Set, path string) {
	if w.dialogOpen {
		return
	}
	lay := words.T("3. Cut the strips apart and lay one at each of the four sides of the piece, flat beside the paper.")
	if set == target.Corners {
		lay = words.T("3. Cut the cards apart and lay one at each of the four corners of the piece, flat beside the paper.")
	}
	said := widget.NewLabel(strings.Join([]string{
		words.F("The sheet is in %s.", path),
		"",
		words.T("1. Print it at 100 %, with no fitting to the page."),
		words.T("2. Measure its square with a ruler."),
		lay,
		words.T("4. Take the photo from straight above, with all of them in it, and bring it in."),
	}, "\n"))
	said.Wrapping = fyne.TextWrapWord
	w.tell(words.T("Targets for your photo"), said, nil, fyne.NewSize(520, 0))
}
