package check

import (
	"quarterstep/model"
	"quarterstep/model/geom"
)

// Finding is one thing the check found.
type Finding struct {
	Code  string // stable short name of the fault, for programs
	Piece string // piece ID; empty for the whole pattern
	Edge  string // edge ID, may be empty
	Point string // grade point ID, may be empty
	Link  string // link ID, where it speaks of a link; else empty
	// Measure is the girth a finding about a girth speaks of; else empty.
	Measure model.Measure
	Where   geom.Point
	// Along is the stretch of Piece's line that is worst; empty where that is all of
	// Edge, or the neighbourhood of Point.
	Along  []Bit
	What   string  // what, in few words and without a full stop; may be empty
	Much   string  // by how much, in few words
	Say    string  // what, and by how much, as a sentence
	By     float64 // the amount, in mm or for angles in degrees; 0 where there is none
	Help   string  // what would help
	Look   bool    // something to look at; false: for information
	Action Action  // the one thing offered; the zero Action shows the place
}

// Deed is what an Action does: its stable name, for programs.
type Deed string

// The deeds; app/edit does all but Show.
const (
	Show       Deed = ""            // shows Piece, Edge and Where of the finding
	ByChart    Deed = "by-chart"    // grades by chart
	TakeBack   Deed = "take-back"   // takes the corrections of Piece at Edges and Points back
	RunSmooth  Deed = "smooth"      // runs the line of Piece smoothly through Points[0]
	TrueDart   Deed = "true-dart"   // trues the dart of Piece named Dart
	Unlink     Deed = "unlink"      // takes Link off
	EvenLength Deed = "even-length" // puts what lengthening Length puts in into all pieces that go together there
	Refit      Deed = "refit"       // has the follower of Link give way by Refit
)

// Action is the one thing offered to do about a finding.
type Action struct {
	Do     Deed
	Label  string // what the button says: "Grade by chart"; empty for Show
	Piece  string
	Edges  []string
	Points []string
	Dart   string
	Link   string
	Length string // ID of a model.Lengthening
	Refit  model.Refit
}

// Checked is one check or link looked at, with what was found.
type Checked struct {
	Check    string // stable name: "square"; links have "link"
	Link     string // the ID of the link, of the first where several are one row
	Title    string // "Side seam"
	Say      string // how it stands, with its figures; empty where findings say it
	Findings []Finding
}

// Look reports that something was found to look at.
func (c Checked) Look() bool {
	for _, f := range c.Findings {
		if f.Look {
			return true
		}
	}
	return false
}

// Thresholds that cannot be set.
const (
	// followsWithin is how far a follower may lie from its leader, mm: they are
	// drawn from one line.
	followsWithin = 0.05
	// shortEdge is an edge too short to sew, mm; by our own trial.
	shortEdge = 3.0
	// arcTol and lineTol are how exactly lengths and lines are measured, mm.
	arcTol  = 1e-3
	lineTol = 0.01
)
