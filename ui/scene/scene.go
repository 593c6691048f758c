package scene

import "quarterstep/model/geom"

// Scene is what to draw, in the order to draw it. Static holds still while a
// piece is in hand; Active is that piece, with what changes along with it.
type Scene struct {
	Static, Active Layer
}

// Layer is drawn in the order of its fields, each list from its first entry.
type Layer struct {
	Photos  []Photo
	Fills   []Fill
	Lines   []Line
	Dots    []Dot
	Texts   []Text
	Handles []Handle
}

// Fill is the inside of a closed line, even-odd.
type Fill struct {
	Outline geom.Path
	Ink     Ink
	Alpha   float64 // 0 to 1
}

// Line is a line as wide on screen whatever the zoom.
type Line struct {
	Path  geom.Path
	Width float64   // px
	Dash  []float64 // px drawn, px left out, ...; empty is solid
	Round bool      // round ends instead of cut ones
	Ink   Ink
	Alpha float64 // 0 to 1
	// Shift is by how many px the line is drawn to the right of its path as it
	// is walked.
	Shift float64
	Arrow bool // an arrow head at either end
	// Reach turns Path into a mere place and direction: a tick of this many px
	// from its start towards its end. 0 draws the path itself.
	Reach float64
}

// Dot is a mark of fixed size on screen.
type Dot struct {
	At     geom.Point
	DX, DY float64 // px from At
	Radius float64 // px
	Ink    Ink
	Mark   Mark
}

// Mark is the shape of a Dot.
type Mark uint8

// Plain is a round dot, Button a joining mark, a four-hole button, LookAt a
// diamond with a stroke in it, Numbered one left free for a number; these two
// take their own inks.
const (
	Plain Mark = iota
	Button
	LookAt
	Numbered
)

// Text is one line of words; At is the middle of its height.
type Text struct {
	Words  string
	At     geom.Point
	DX, DY float64 // px from At
	Size   float64 // px
	Bold   bool
	Ink    Ink
	Anchor Anchor
	Turn   float64 // radians clockwise
	// Halo is the ink of a rim round the letters, so that lines break round the
	// words; the zero Ink is no rim.
	Halo Ink
	// Sign stands before the words, as a letter of theirs would.
	Sign Sign
}

// Sign is a small drawing before words.
type Sign uint8

// The signs; the zero Sign is none.
const (
	_         Sign = iota
	LinkSign       // two rings
	MatchSign      // a tick
)

// Anchor says which part of the words lies at their place.
type Anchor uint8

// The three anchors; the zero Anchor is the middle.
const (
	Middle Anchor = iota
	Left
	Right
)

// HandleShape is what a handle stands for.
type HandleShape uint8

// Corner is a grade point at a corner, Curve one on a curve, Bend a handle that
// shapes the edge in hand.
const (
	Corner HandleShape = iota
	Curve
	Bend
)

// HandleState is how a handle is drawn. Under the pointer it also has a ring,
// which is the board's.
type HandleState uint8

// The states of a handle.
const (
	Idle HandleState = iota
	Selected
	Linked
	Locked
)

// Handle is a place that can be taken hold of.
type Handle struct {
	Ref   Ref
	At    geom.Point
	Shape HandleShape
	State HandleState
	// Stem is the place on the line that a Bend hangs on; Stemmed says that
	// there is one.
	Stem    geom.Point
	Stemmed bool
}

// Ref names what a handle or a line belongs to. Control is used with Edge: one
// more than the index in model.EdgeShape.By, and 0 for the edge as a whole. With
// Cut it is CutStart or CutEnd, else all of the cut line. Dart is a dart's ID.
type Ref struct {
	Piece, Edge, Point, Cut, Dart, Line string
	Control                             int
}
