package ui

import (
	"io"
	"path/filepath"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"quarterstep/app"
	"quarterstep/app/edit"
	"quarterstep/printing/tile"
)

// pieceMenu is what can be done to the piece in hand; greyed where there is
// none.
func (w *Window) pieceMenu() *fyne.MenuItem {
	p := w.doc.Pattern()
	i := p.PieceIndex(w.hand.Piece)
	item := fyne.NewMenuItem("Piece in hand", nil)
	if i < 0 {
		item.Disabled = true
		return item
	}
	q := p.Pieces[i]
	item.Label = q.Name
	lay := fyne.NewMenuItem("Lay the sizes on", nil)
	lay.ChildMenu = fyne.NewMenu(
		"",
		fyne.NewMenuItem("Centre or fold line", func() { w.do("lay the sizes on the centre", edit.Stack(q.ID, edit.OnCentre)) }),
		fyne.NewMenuItem("Hem", func() { w.do("lay the sizes on the hem", edit.Stack(q.ID, edit.OnHem)) }),
		fyne.NewMenuItem("Grade point in hand", w.layOnPoint),
	)
	lay.Disabled = len(q.Nest) < 2
	share := fyne.NewMenuItem("Sizes that share a line ...", w.askShared)
	all := fyne.NewMenuItem("Same in all sizes", func() {
		w.do("the same in all sizes", edit.OneForAll(q.ID, !q.OneForAll))
	})
	all.Checked = q.OneForAll
	all.Disabled = len(q.Nest) > 1
	item.ChildMenu = fyne.NewMenu(
		"",
		fyne.NewMenuItem("Rename ...", w.rename), lay, share, all,
		fyne.NewMenuItem("Take back all corrections", func() { w.do("take back all corrections", edit.TakeBackAll(q.ID)) }),
		fyne.NewMenuItem("Increment sheet ...", func() { w.saveSheets([]string{q.ID}, q.Name) }),
	)
	return item
}

func (w *Window) layOnPoint() {
	if w.hand.Point == "" {
		w.say("Take a grade point in hand first.")
		return
	}
	w.do("lay the sizes on a grade point", edit.Stack(w.hand.Piece, edit.OnPoint(w.hand.Point)))
}

// askShared asks which printed line of the piece in hand serves other sizes
// too.
func (w *Window) askShared() {
	p := w.doc.Pattern()
	i := p.PieceIndex(w.hand.Piece)
	if i < 0 || w.dialogOpen {
		return
	}
	q := p.Pieces[i]
	var sizes []string
	for _, o := range q.Nest {
		sizes = append(sizes, o.Size)
	}
	line := widget.NewSelect(sizes, nil)
	line.SetSelected(sizes[len(sizes)-1])
	also := widget.NewEntry()
	also.SetPlaceHolder("44, 46")
	w.dialogOpen = true
	d := dialog.NewForm("Sizes that share a line", "That is so", "Leave it", []*widget.FormItem{
		widget.NewFormItem("The line of", line),
		widget.NewFormItem("serves also", also),
	}, func(yes bool) {
		w.dialogOpen = false
		if yes {
			w.do("sizes that share a line", edit.SharedLine(q.ID, line.Selected, sizeNames(also.Text)))
		}
	}, w.win)
	d.Show()
	w.win.Canvas().Focus(also)
}

// sizeNames is the sizes of a list as typed: "44, 46".
func sizeNames(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' || r == ' ' })
}

// saveSheets writes the increment sheets of pieces, all where none is named.
func (w *Window) saveSheets(pieces []string, name string) {
	if w.dialogOpen {
		return
	}
	p := w.doc.Pattern()
	sheets, err := app.HandSheets(&w.grader, p, pieces, time.Now().Format("2 January 2006"))
	if err != nil {
		w.fail("The increment sheet cannot be made", err)
		return
	}
	paper := w.print.setup.Paper
	if paper.Name != "Letter" {
		paper = tile.Papers()[0]
	}
	w.askWhere(fileName(name)+" increments.pdf", ".pdf", func(path string) {
		err := app.WriteFile(path, func(to io.Writer) error { return app.WriteHandSheets(to, sheets, paper, p.Unit) })
		if err != nil {
			w.fail("The increment sheet cannot be written", err)
			return
		}
		w.say("Wrote " + filepath.Base(path) + ". Print it at 100 %, and measure its square.")
	})
}

// allSheets writes the increment sheets of every piece.
func (w *Window) allSheets() {
	name := w.doc.Pattern().Name
	if name == "" {
		name = "Pattern"
	}
	w.saveSheets(nil, name)
}
