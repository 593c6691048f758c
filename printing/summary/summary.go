package summary

import (
	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/printing/tile"
)

// Summary is what is written. Empty parts are left out.
type Summary struct {
	Title string // of the pattern
	Line  string // what it is graded to, and for whom
	Date  string // shown as given; may be empty
	// Pieces are drawn small, side by side, all to one scale.
	Pieces []Drawing
	Parts  []Part
}

// Drawing is a piece as it is drawn: Outline strong, Lines thin, in mm of the
// piece, its grain down the page.
type Drawing struct {
	Name, Cut string
	Outline   geom.Path
	Lines     []geom.Path
}

// Part is a headed part: a table, then sentences, then numbered points.
type Part struct {
	Title  string
	Table  Table
	Text   []string
	Points []string
}

// Table is a table; every row has as many cells as the head, which is not shown
// where all of it is empty. The last Amounts
// columns hold amounts and end at their right. Of the others the last one takes
// what room is left, and words too long for it go on below.
type Table struct {
	Head    []string
	Rows    [][]string
	Amounts int
}

func (p Part) empty() bool { return len(p.Table.Rows) == 0 && len(p.Text) == 0 && len(p.Points) == 0 }

// Options are what the summary does not know.
type Options struct {
	Paper tile.Paper
	// Regular and Bold are the fonts' TrueType bytes; both are needed.
	Regular, Bold []byte
}

// check refuses what cannot be drawn.
func (s Summary) check() error {
	for _, q := range s.Pieces {
		if len(q.Outline) == 0 {
			return words.Errorf("%s has no line", q.Name)
		}
		for _, l := range append([]geom.Path{q.Outline}, q.Lines...) {
			if err := l.Validate(); err != nil {
				return words.Errorf("drawing %s: %w", q.Name, err)
			}
		}
	}
	for _, p := range s.Parts {
		for _, row := range p.Table.Rows {
			if len(row) != len(p.Table.Head) {
				return words.Errorf("the table of %s has a row of %d cells for %d columns", p.Title, len(row), len(p.Table.Head))
			}
		}
	}
	return nil
}
