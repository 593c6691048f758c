package model

// LinkKind says what a link promises.
type LinkKind string

// SameLine: the follower's stretch is the leader's line (facing to neckline).
// Sewn: the two stretches are sewn together, with Ease.
// words: none
const (
	SameLine LinkKind = "same line"
	Sewn     LinkKind = "sewn together"
)

// Link is a promise between two stretches of edge.
type Link struct {
	ID     string
	Kind   LinkKind
	Lead   Stretch
	And    []Stretch // the leader's line goes on along these: back armhole after front armhole; Sewn only
	Follow Stretch
	// Ease is by how many mm the follower is wanted longer than the leader on
	// the stitching line, and Room by how much more it may be; used by Sewn
	// only, and only when EaseFixed. Else the ease is that of the print.
	Ease      float64
	Room      float64 // never below 0
	EaseFixed bool
	Refit     Refit // what the follower gives way by; Sewn only
}

// Leads is every stretch of the leader's line, in the order walked.
func (l Link) Leads() []Stretch { return append([]Stretch{l.Lead}, l.And...) }

// Refit says what of a sewn link's follower may change so that it keeps its
// ease. The zero Refit changes nothing: a check says how far the seam is off.
type Refit string

// The ways a follower gives way. Across and along are those of its grain;
// start and end those of its stretch as walked.
// words: none
const (
	NoRefit     Refit = ""
	CapHeight   Refit = "cap height" // the stretch rises or falls between its ends
	CapWidth    Refit = "cap width"  // its ends come apart
	CapBoth     Refit = "cap height and width"
	StartAcross Refit = "start across" // one end moves
	StartAlong  Refit = "start along"
	EndAcross   Refit = "end across"
	EndAlong    Refit = "end along"
	WholePiece  Refit = "whole piece" // the piece is stretched along the seam: cuff, collar, band
)

// Refits is every way a follower may give way.
var Refits = []Refit{NoRefit, CapHeight, CapWidth, CapBoth, StartAcross, StartAlong, EndAcross, EndAlong, WholePiece}

// Stretch is one or several edges of one piece, in the order they are walked.
type Stretch struct {
	Piece   string   // piece ID
	Edges   []string // edge IDs
	Reverse bool     // walked against the outline's own direction
}
