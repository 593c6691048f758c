package ui

import (
	"io"
	"path/filepath"
	"time"

	"quarterstep/app"
	"quarterstep/printing/tile"
)

// saveSheets asks for a place and writes the increment sheets of pieces there,
// of all where none is named; name is what the file is called after.
func (w *Window) saveSheets(pieces []string, name string) {
	if w.dialogOpen {
		return
	}
	p := w.doc.Pattern()
	if len(p.Pieces) == 0 {
		w.say("Bring in a pattern first: there is nothing to write on an increment sheet yet.")
		return
	}
	n := len(pieces)
	if n == 0 {
		n = len(p.Pieces)
	}
	w.askWhere(fileName(name)+" increments "+fileName(w.doc.Result().Size)+".pdf", ".pdf", func(path string) {
		if err := w.writeSheets(path, pieces); err != nil {
			w.fail("The increment sheet cannot be written", err)
			return
		}
		w.say("Wrote " + filepath.Base(path) + ", for " + count(n, "piece") + ".")
	})
}

// writeSheets writes the increment sheets of pieces to path.
func (w *Window) writeSheets(path string, pieces []string) error {
	p := w.doc.Pattern()
	sheets, err := app.HandSheets(w.doc.Grader(), p, pieces, time.Now().Format("2 January 2006"))
	if err != nil {
		return err
	}
	return app.WriteFile(path, func(to io.Writer) error {
		return app.WriteHandSheets(to, sheets, sheetPaper(w.print.setup.Paper), p.Unit)
	})
}

// sheetPaper is the small sheet of the same make as the pages' paper, which an
// increment sheet is written on: Letter, or A4.
func sheetPaper(pages tile.Paper) tile.Paper {
	want := "A4"
	switch pages.Name {
	case "Letter", "Legal", "Tabloid":
		want = "Letter"
	}
	for _, p := range tile.Papers() {
		if p.Name == want {
			return p
		}
	}
	return pages
}

// allSheets writes the increment sheets of every piece.
func (w *Window) allSheets() {
	name := w.doc.Pattern().Name
	if name == "" {
		name = "Pattern"
	}
	w.saveSheets(nil, name)
}
