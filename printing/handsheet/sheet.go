package handsheet

import (
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// Sheet is what is said about one piece. Lengths are in mm and the grain runs
// down the page: x across it to the right, y along it.
type Sheet struct {
	Pattern string
	Piece   string
	Cut     string // "Cut 2 on the fold"
	From    string // the printed size measured from: "40"
	To      string // what is wanted: "size 48", "bust 50, waist 48 1/2"; empty: the piece stays as printed
	For     string // the wearer's name; may be empty
	Method  string // "by chart"
	Date    string // as it is to be shown; may be empty

	Printed []geom.Path // the printed line measured from, edge by edge, closed
	Wanted  []geom.Path // the new line; edge k starts at point k
	Marks   []geom.Path // what is drawn inside the new line: grain, darts, notches

	Gaps   []string // between which printed sizes each gap lies: "38 to 40"
	Stages []string // the sizes drawn one after the other; the last is the one wanted
	Points []Point  // one per edge, then those inside, such as the points of darts
	Edges  []Edge   // one per edge of the new line
	Notes  []string // of this piece alone, whole sentences
}

// Point is a point of the piece and how far it goes.
type Point struct {
	Name  string     // may be empty
	At    geom.Point // on the new line, or inside it
	Right bool       // out of the piece is to the right
	Out   Moves      // across the grain; more than 0 is out, less is in
	Down  Moves      // along the grain; more than 0 is down, less is up
}

// Moves is how far a point goes in one direction, mm. A gap between sizes that
// do not both show the point is not a number.
type Moves struct {
	Gaps   []float64 // from each printed size to the next, as Sheet.Gaps
	Stages []float64 // from the printed line measured from, as Sheet.Stages
}

// Total is how far the point goes in all.
func (m Moves) Total() float64 { return m.Stages[len(m.Stages)-1] }

// Edge is how the line from its point to the next is drawn. Edges that are
// drawn the same way are listed together.
type Edge struct {
	Name string // may be empty
	How  string // "Rule a straight line"
	Mark string // its notches: "notch 92 mm from 3"; may be empty
}

// check holds a sheet to what can be drawn. The error names the piece.
func (s Sheet) check() error {
	n := len(s.Wanted)
	if n < 2 || len(s.Edges) != n || len(s.Points) < n || len(s.Printed) == 0 || len(s.Stages) == 0 {
		return words.Errorf("the sheet of %s has %d points, %d edges, %d lines and %d stages; they do not go together",
			s.Piece, len(s.Points), len(s.Edges), n, len(s.Stages))
	}
	for _, p := range s.Points {
		if !p.At.Finite() {
			return words.Errorf("the sheet of %s has a point that lies nowhere", s.Piece)
		}
		for _, m := range []Moves{p.Out, p.Down} {
			if len(m.Gaps) != len(s.Gaps) || len(m.Stages) != len(s.Stages) {
				return words.Errorf("the sheet of %s has a point with %d gaps and %d stages; it wants %d and %d",
					s.Piece, len(m.Gaps), len(m.Stages), len(s.Gaps), len(s.Stages))
			}
		}
	}
	for _, e := range slices.Concat(s.Printed, s.Wanted, s.Marks) {
		if err := e.Validate(); err != nil {
			return words.Errorf("drawing the sheet of %s: %w", s.Piece, err)
		}
	}
	return nil
}
