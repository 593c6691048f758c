package grading

import (
	"quarterstep/grading/nest"
	"quarterstep/grading/seam"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// Result is a whole pattern at its target.
type Result struct {
	Size   string // the target's name on the chart: "48"
	Pieces []Piece
	// Short is what grading by steps leaves short against the chart at the
	// target, in mm of body girth by measure; empty within the printed sizes.
	// It is reported whichever method is in force.
	Short []Shortfall
	// Unlinked lists the links that could not be kept or walked.
	Unlinked []Unlinked
	// Seams is every sewn link that could be walked, in the pattern's order.
	Seams []Seam
}

// Seam is a sewn link at the target: its lengths on the stitching line in mm,
// and how its follower gave way for it.
type Seam struct {
	Link         string // ID
	Lead, Follow float64
	Printed      []seam.SizeEase // the ease of every printed size
	Aim          float64         // the ease it was given, where it gives way; else that of the print
	Wanted       seam.Range
	Gave         float64 // by how much the follower gave way, mm; see model.Refit
	Why          string  // why it could not give way, in plain words; empty where it did or need not
}

// Ease is by how many mm the follower is longer than its leader.
func (s Seam) Ease() float64 { return s.Follow - s.Lead }

// Off is by how many mm the ease lies above what is wanted, or below 0 under it.
func (s Seam) Off() float64 { return s.Ease() - s.Wanted.Hold(s.Ease()) }

// Unlinked is a link that could not be kept, and why, in plain words.
type Unlinked struct{ Link, Why string }

// Shortfall compares, for one girth, what the printed gaps repeated give with
// what the chart asks, in mm of whole girth from the nearest printed size.
type Shortfall struct {
	Measure model.Measure
	From    string  // the printed size counted from
	BySteps float64 // growth by repeating the mean printed step
	ByChart float64 // growth the chart asks
	Per     float64 // mean printed step of the chart's measure
	EqSteps float64 // ByChart / Per: how many printed steps it would take
}

// Missing is ByChart less BySteps, in mm: positive where steps fall short.
func (s Shortfall) Missing() float64 { return s.ByChart - s.BySteps }

// Piece is one piece at the target; indices are those of the model.Piece.
type Piece struct {
	ID    string
	Name  string
	Edges []geom.Path // the new line, edge by edge, closed
	// Base is the computed line before hand corrections and links, its length
	// put in; a handle's "by eye" amount is measured from it.
	Base []geom.Path
	// Before is the line before anything was put into its length; nil where
	// nothing was.
	Before []geom.Path
	// Put is what was put into its length, in the order of model.Pattern.Lengths.
	Put []Put
	// Handles is where the control points of an edge are shown that edit.MoveControl
	// counts, where they are no longer those of Edges because the edge, or its
	// neighbour, was shifted parallel; nil where they are.
	Handles [][]geom.Point
	// Unlaid says why the cut lines could not be spread, the edges shifted by
	// hand could not be, or the length could not be put in, in plain words; none
	// of them is then.
	Unlaid string
	// Opens is by how many mm each of the piece's cut lines opens, below 0 where
	// it is overlapped; nil where it is not cut and spread.
	Opens   []float64
	Lines   []Line
	Notches []Notch
	Darts   []Dart
	Points  []Increment // one per grade point
	// Printed is true where the target is a printed size of this piece and no
	// hand or link changed it: the line is exactly the printed one.
	Printed bool
	// Frozen is true where the piece was printed in one size only, or has no
	// nest to extend: it stays as printed.
	Frozen bool
}

// Unlengthened is the line as it would be with nothing put into its length.
func (p Piece) Unlengthened() []geom.Path {
	if p.Before != nil {
		return p.Before
	}
	return p.Edges
}

// Put is what one lengthening put into a piece.
type Put struct {
	Length, Name string // of the model.Lengthening: its ID and name
	By           float64
	Line         string // the ID of the lengthen line; empty where it is a hem
}

// Outline is the whole closed line of the piece as one path.
func (p Piece) Outline() geom.Path {
	var out geom.Path
	for _, e := range p.Edges {
		out = append(out, e...)
	}
	return out
}

// Line is a model.Line at the target.
type Line struct {
	ID, Name string
	Kind     model.LineKind
	Path     geom.Path
}

// Notch is a notch at the target: where on the outline, and the unit vector
// pointing into the piece.
type Notch struct {
	ID     string
	Edge   int
	Double bool
	S      float64 // mm along its edge
	At     geom.Point
	In     geom.Vec
}

// Dart is a dart at the target.
type Dart struct {
	ID, Name         string
	Leg1, Apex, Leg2 geom.Point
	TakeUp           float64 // between the leg ends, mm
	// LegsDiffer is how much longer the first leg is than the second, mm, from
	// the apex to the stitching line; to the cutting line where the stitching
	// line does not reach the legs.
	LegsDiffer float64
	Kink       float64 // by how many degrees the seam turns at the closed dart
	// Moved is how far, in mm, keeping its width and truing moved a leg end, and
	// Why in plain words why it could not be kept or trued.
	Moved float64
	Why   string
}

// Increment says how one grade point got from the nearest printed size to the
// new line, split across and along the grain, all in mm.
type Increment struct {
	Point  string // grade point ID
	Name   string
	From   string // the printed size counted from, across
	Across Share
	Along  Share
}

// Share is one direction of an Increment.
type Share struct {
	Follows model.Measure
	From    string    // the printed size counted from
	Gaps    []float64 // printed gap between neighbouring printed sizes
	Step    float64   // mean printed gap per chart step
	ByChart float64   // total by chart from the printed size counted from
	BySteps float64   // total by steps
	Hand    float64   // by eye and by links, on top
	Total   float64   // what the line has before its length: the method's total plus Hand
	Length  float64   // what was put into the piece's length moves it, on top of Total
	// Residual is how far the printed gaps are from following the measure,
	// worst printed size, mm.
	Residual float64
	// Proposed is what the point follows unless the pattern says otherwise, and
	// Fits how well the printed gaps follow each measure of the chart, best
	// first; empty where the print is of fewer than three lines.
	Proposed model.Measure
	Fits     []Fits
}

// Fits is how well printed gaps follow a measure: Residual is the largest
// distance, in mm, of a printed place from where the measure has it.
type Fits = nest.Fits
