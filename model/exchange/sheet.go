package exchange

import (
	"fmt"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// Notch is the kind of an open line that marks a notch. It is a kind of
// RawLine only; a piece keeps its notches apart from its lines.
const Notch model.LineKind = "notch"

// Sheet is what a drawing holds: pieces as they were drawn, in mm, and plain
// sentences about what was left out or guessed.
type Sheet struct {
	Pieces   []RawPiece
	Warnings []string
}

// RawPiece is one piece as drawn, before its corners are known. Its outlines
// are in the order of the chart, at most one per size.
type RawPiece struct {
	Name     string
	Outlines []RawOutline
	Lines    []RawLine
}

// RawOutline is the closed line of one size; Ring ends exactly where it
// starts.
type RawOutline struct {
	Size string // a size of the chart, by its first name
	Ring geom.Path
}

// RawLine is a line on a piece. Size "" serves all sizes.
type RawLine struct {
	Kind model.LineKind
	Size string
	Path geom.Path
	Name string
}

// Unusable says why a file cannot be used, in one sentence for the sewist.
type Unusable struct{ Say string }

func (u Unusable) Error() string { return u.Say }

func unusable(format string, a ...any) error { return Unusable{fmt.Sprintf(format, a...)} }
