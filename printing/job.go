package printing

import "quarterstep/model/geom"

// Drawing is what goes on paper: pieces with their strokes and words, in mm.
type Drawing struct {
	Title  string // pattern name
	Note   string // "size 48", "for Maren"
	Pieces []Piece
}

// Piece is one piece to print, in its own coordinates.
type Piece struct {
	Name    string
	Outline geom.Path // closed; what is arranged and kept clear of other pieces
	Grain   geom.Vec  // unit; pieces are turned only so that their grain runs down the sheet, one way or the other
	Strokes []Stroke
	Labels  []Label
}

// Stroke is one line to draw. Path may be open or closed.
type Stroke struct {
	Path  geom.Path
	Width float64   // mm
	Dash  []float64 // mm on, off, ...; empty is solid
	Ink   Ink
	Layer string // name of the PDF layer it belongs to, such as a size; empty: always shown
	Cut   bool   // the line to cut along, for machines that cut
}

// Ink is a grey or coloured ink, each part 0 to 1. The zero Ink is black.
type Ink struct{ R, G, B float64 }

// Label is a line of words; At is the middle of its baseline.
type Label struct {
	Text string
	At   geom.Point
	Size float64 // letter height (font size) in mm
	Bold bool
	// Turn is the direction the words run, radians clockwise on the paper.
	Turn  float64
	Ink   Ink
	Layer string // as for Stroke
}
