package exchange

import (
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
	// OneForAll marks a piece drawn once for all sizes of a nest.
	OneForAll bool
}

// RawOutline is the closed line of one size, or of several that share it; Ring
// ends exactly where it starts.
type RawOutline struct {
	Size string   // a size of the chart, by its first name
	Also []string // the sizes above it that share the line
	Ring geom.Path
}

// Sizes is every size the line is drawn for, smallest first.
func (o RawOutline) Sizes() []string { return append([]string{o.Size}, o.Also...) }

// RawLine is a line on a piece. Size "" serves all sizes.
type RawLine struct {
	Kind model.LineKind
	Size string
	Also []string // the sizes above it that share the line
	Path geom.Path
	Name string
}

// Sizes is every size the line is drawn for, smallest first; none where it
// serves all.
func (l RawLine) Sizes() []string {
	if l.Size == "" {
		return nil
	}
	return append([]string{l.Size}, l.Also...)
}

// Unusable says why a file cannot be used, in one sentence for the sewist.
type Unusable struct{ Say string }

func (u Unusable) Error() string { return u.Say }

func unusable(say string) error { return Unusable{say} }
