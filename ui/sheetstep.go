package ui

import (
	"io"
	"path/filepath"
	"time"

	"quarterstep/app"
	"quarterstep/assets/words"
	"quarterstep/grading"
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
		w.say(words.T("Bring in a pattern first: there is nothing to write on an increment sheet yet."))
		return
	}
	n := len(pieces)
	if n == 0 {
		n = len(p.Pieces)
	}
	w.askWhere(words.F("%s increments %s", fileName(name), fileName(w.doc.Result().Size))+".pdf", ".pdf", func(path string) {
		w.writing(path, words.T("The increment sheet cannot be written"), w.sheetsOf(pieces), func() {
			w.say(words.F("Wrote %s, for %s.", filepath.Base(path), count(n, "piece")))
		})
	})
}

// sheetsOf writes the increment sheets of pieces as they are now, all where none
// is named.
func (w *Window) sheetsOf(pieces []string) writer {
	p, paper := w.doc.Pattern(), sheetPaper(w.print.setup.Paper)
	return func(_ app.Watch, to io.Writer) error {
		sheets, err := app.HandSheets(&grading.Grader{}, p, pieces, day(time.Now()))
		if err != nil {
			return err
		}
		return app.WriteHandSheets(to, sheets, paper, p.Unit)
	}
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
		name = words.T("Pattern")
	}
	w.saveSheets(nil, name)
}
