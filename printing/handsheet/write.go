package handsheet

import (
	"io"
	"time"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/printing/page"
	"quarterstep/printing/tile"
)

// Options are what the sheets do not know.
type Options struct {
	Paper tile.Paper
	Unit  measure.Unit // amounts are in inches, or else in mm
	// Regular and Bold are the fonts' TrueType bytes; both are needed.
	Regular, Bold []byte
}

// The page, mm. Common practice: printers leave 6 to 10 white.
const (
	margin    = 12.0
	gutter    = 6.0 // between blocks
	leastWide = 200.0
	leastHigh = 270.0
	headHigh  = 22.0
	edgesWide = 64.0
	// The drawing's height: beside the two test squares on the first page, and
	// repeated small where more of the table follows.
	firstHigh  = squareMetric + squareInch + squareApart
	repeatHigh = 82.0
)

// Write writes the sheets as a PDF, each from a new page on. Errors name the
// piece that cannot be drawn, the paper that is too small, or the font that
// cannot be read.
func Write(w io.Writer, sheets []Sheet, o Options) error {
	if err := write(w, sheets, o); err != nil {
		return words.Errorf("writing the increment sheet: %w", err)
	}
	return nil
}

func write(w io.Writer, sheets []Sheet, o Options) error {
	if len(sheets) == 0 {
		return words.Errorf("there is no piece to write about")
	}
	if o.Paper.Width < leastWide || o.Paper.Height < leastHigh {
		return words.Errorf("paper %s is too small: use A4 or Letter", o.Paper.Said())
	}
	f, err := page.New(page.Options{
		Title: words.F("%s, increments", sheets[0].Pattern), Date: time.Time{},
		Wide: o.Paper.Width, High: o.Paper.Height, Regular: o.Regular, Bold: o.Bold,
	})
	if err != nil {
		return err
	}
	for _, s := range sheets {
		if err := s.check(); err != nil {
			return err
		}
		d := &document{Document: f, s: s, ruler: RulerFor(s, o.Unit), paper: o.Paper}
		d.draw()
	}
	return f.Output(w)
}

// document is one sheet being drawn on the pages of a PDF.
type document struct {
	*page.Document
	s     Sheet
	ruler Ruler
	paper tile.Paper
	p     *page.Page
}

// draw draws the sheet's pages: the first with the test squares, then as many
// as the table and the list of edges still need.
func (d *document) draw() {
	room := d.newPage(1)
	edges, table := d.edgeList(), d.newTable()
	upper, below := cutBelow(room, firstHigh)
	left, right := cutBeside(upper, squareInch)
	d.drawing(left)
	d.squares(right)
	done := 0
	edges, done = d.below(below, table, edges, done)
	d.p.Flush()
	for n := 2; done < len(d.s.Points) || len(edges) > 0; n++ {
		room := d.newPage(n)
		high := repeatHigh
		if done == len(d.s.Points) {
			high = firstHigh
		}
		upper, below := cutBelow(room, high)
		left, right := cutBeside(upper, edgesWide)
		d.drawing(left)
		if done == len(d.s.Points) {
			right.Max.Y = room.Max.Y
		}
		edges = d.writeEdges(right, edges)
		edges, done = d.below(below, table, edges, done)
		d.p.Flush()
	}
}

// below draws the table from row done on, and below it, once it is whole, the
// list of edges where that fits. It returns what is left.
func (d *document) below(room geom.Box, t table, edges []edgeLine, done int) ([]edgeLine, int) {
	rows, y := t.draw(room, done)
	room.Min.Y = y + gutter
	done += rows
	if done == len(d.s.Points) && rows > 0 && d.edgesAbreast(room, edges) {
		edges = nil
	}
	return edges, done
}

// newPage begins the sheet's page n and gives the room below its head.
func (d *document) newPage(n int) geom.Box {
	d.p = d.AddPage()
	room := geom.Box{Min: geom.Pt(margin, margin), Max: geom.Pt(d.paper.Width-margin, d.paper.Height-margin)}
	d.head(room, n)
	room.Min.Y += headHigh
	return room
}

// cutBelow divides room into an upper part that high and the rest.
func cutBelow(room geom.Box, high float64) (upper, lower geom.Box) {
	upper, lower = room, room
	upper.Max.Y = room.Min.Y + high
	lower.Min.Y = upper.Max.Y + gutter
	return upper, lower
}

// cutBeside divides room into a right part that wide and the rest.
func cutBeside(room geom.Box, wide float64) (left, right geom.Box) {
	left, right = room, room
	right.Min.X = room.Max.X - wide
	left.Max.X = right.Min.X - gutter
	return left, right
}

// text writes words with their left end at (x, y), no wider than wide.
func (d *document) text(x, y, wide, size float64, bold bool, s string) {
	d.Write(d.p, page.Words{
		Text: s, At: geom.Pt(x, y), Size: d.Fit(s, wide, size, bold), Bold: bold, Left: true,
	})
}

// head writes the piece's name and what the sheet is for.
func (d *document) head(room geom.Box, n int) {
	s := d.s
	x, y, wide := room.Min.X, room.Min.Y, room.Width()
	const dateWide = 42
	d.text(x, y+6, wide-dateWide, 7.5, true, s.Piece)
	size := words.F("As printed in size %s", s.From)
	if s.To != "" {
		size = words.F("From printed size %s to %s, %s", s.From, s.To, s.Method)
	}
	if s.For != "" {
		size = words.F("%s, for %s", size, s.For)
	}
	d.text(x, y+12, wide, 4.2, false, size)
	d.text(x, y+17, wide, 3.4, false, s.Pattern+". "+s.Cut+".")
	d.right(room.Max.X, y+3, dateWide, 3.2, words.T("Increment sheet"))
	if s.Date != "" {
		d.right(room.Max.X, y+7, dateWide, 3.2, s.Date)
	}
	if n > 1 {
		d.right(room.Max.X, y+17, dateWide, 3.4, words.F("page %d of this piece", n))
	}
	d.p.Line(geom.Pt(x, y+19), geom.Pt(room.Max.X, y+19), 0.2, page.Grey(0.5))
}

// right writes words that end at x.
func (d *document) right(x, y, wide, size float64, s string) {
	size = d.Fit(s, wide, size, false)
	d.Write(d.p, page.Words{Text: s, At: geom.Pt(x-d.Width(s, size, false), y), Size: size, Left: true, Ink: page.Grey(0.3)})
}
