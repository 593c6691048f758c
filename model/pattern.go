package model

import "quarterstep/model/geom"

// Pattern is all pieces of one garment with what they are graded by. The zero
// Pattern is an empty document.
type Pattern struct {
	Name   string
	Note   string // where it came from, cautions of its own; free text
	Unit   Unit   // how lengths are shown; stored values are mm
	Chart  SizeChart
	Pieces []Piece
	Links  []Link
	// Lengths is what the sewist lengthens or shortens.
	Lengths []Lengthening
	// Limits is how far the checks let things go, where the sewist set it
	// herself: by the name of the limit (package grading/check), in its unit.
	Limits map[string]float64
	// Pictures is the photos and scans of the paper, Tracings what is not yet a
	// piece.
	Pictures []Picture
	Tracings []Tracing
	Target   Target
}

// Unit is how a pattern's lengths are shown and typed.
type Unit string

// The two units; the zero Unit reads as Centimetres.
const (
	Centimetres Unit = "cm"
	Inches      Unit = "in"
)

// Method is how the line goes past the printed sizes.
type Method string

// ByChart moves each grade point as its body measure grows on the chart;
// BySteps repeats the mean printed gap, as a ruler on paper does. The zero
// Method reads as ByChart.
const (
	ByChart Method = "chart"
	BySteps Method = "steps"
)

// Target is the size wanted.
type Target struct {
	// Place on the chart: 0 is the chart's first size, 1 its second; halves
	// and other fractions lie between, interpolated.
	Place  float64
	Method Method
	// Wearer is the name of the person it is for; may be empty.
	Wearer string
	// Body is the wearer's own measurements, in mm, in place of the chart's; a
	// measure she did not give is that of Place.
	Body map[Measure]float64
	// Stages keeps each new hand correction with the size it was made at:
	// sizes beyond go on from the corrected one.
	Stages bool
}

// Piece is one paper piece with its printed nest.
//
// Its outline has n grade points and n edges: Edges[i] runs from Points[i] to
// Points[(i+1) % n], in the order walked on the paper.
type Piece struct {
	ID   string // unique in the pattern, never shown
	Name string
	Cut  int // how many to cut in cloth; 0 reads as 1
	// Lining is how many more of it to cut in lining.
	Lining int

	Points  []GradePoint
	Edges   []Edge
	Nest    []Outline // the printed lines, smallest size first
	Lines   []Line    // grain, lengthen, bust line, internal lines
	Notches []Notch
	Darts   []Dart

	// OneForAll marks a piece that is the same in all sizes, such as a pocket.
	OneForAll bool
	// Gaps and Cuts say how a piece printed in one size grows; a nest of
	// several sizes says it by itself, and they are then left aside.
	Gaps []Gap
	Cuts []Cut

	Picture string // ID of the picture it was traced from, in its coordinates; empty for none

	Hand Hand     // the sewist's own corrections
	At   geom.Vec // where the piece lies on the Table, added to its coordinates
}

// GradePoint is a corner or match point that exists in every size.
type GradePoint struct {
	ID   string // unique in the piece
	Name string // "underarm"; may be empty
	// Smooth marks a match point on a curve rather than a corner.
	Smooth bool
	// Across and Along name the measure the point follows in each direction;
	// empty means: by the defaults of package grading.
	Across, Along Measure
	Locked        bool // hand corrections leave it alone
}

// EdgeKind says what an edge is, as far as grading and printing care.
type EdgeKind string

// The kinds of edge; the zero kind is a plain seam or finished edge.
const (
	Plain  EdgeKind = ""
	Fold   EdgeKind = "fold"   // placed on the fold of the cloth: never moves across itself
	Centre EdgeKind = "centre" // centre front or back: never moves across itself
	Hem    EdgeKind = "hem"
)

// Edge is a stretch of outline between two grade points.
type Edge struct {
	ID   string // unique in the piece
	Name string // "side seam"; may be empty
	Kind EdgeKind
	// Allowance is the seam allowance in mm already inside the printed line;
	// 0 where the printed line is the stitching line.
	Allowance float64
}

// Outline is the printed line of one size, or of neighbouring sizes that share
// one line: one path per edge of the piece, each starting where the one before
// ends and the last closing the ring.
type Outline struct {
	Size  string   // a size of the chart
	Also  []string // the sizes above it that were printed on the same line
	Edges []geom.Path
}

// Gap is how far a grade point of a piece printed in one size moves to the
// next size up on the chart, in mm, as typed by the sewist.
type Gap struct {
	Point         string // grade point ID
	Across, Along float64
}

// Cut is a straight line across a piece printed in one size, at which the
// paper is cut and spread, square to the line, by Share of what Measure grows.
type Cut struct {
	ID       string // unique in the piece
	From, To geom.Point
	Measure  Measure
	Share    float64 // mm of spread per mm of the measure: 1/16 at each of four cuts in a quarter
}

// LineKind says what a line on the piece is for.
type LineKind string

// The kinds of line a piece can carry.
const (
	Grain     LineKind = "grain"
	Lengthen  LineKind = "lengthen"
	BustLine  LineKind = "bust"
	WaistLine LineKind = "waist"
	HipLine   LineKind = "hip"
	FoldLine  LineKind = "fold"
	DartLine  LineKind = "dart"
	Inner     LineKind = "inner" // any other mark or line
)

// Line is a line or mark drawn on the piece.
type Line struct {
	ID    string // unique in the piece
	Name  string
	Kind  LineKind
	Drawn []SizedPath // one per size it was printed in; Size "" serves all sizes
}

// SizedPath is a path as printed for one size.
type SizedPath struct {
	Size string
	Path geom.Path
}

// Notch is a match mark on an edge.
type Notch struct {
	ID     string // unique in the piece
	Edge   string // edge ID
	Double bool
	Spots  []Spot // one per size it was printed in; Size "" serves all sizes
}

// Spot is a place on an edge: mm of edge length from the edge's start.
type Spot struct {
	Size string
	S    float64
}

// Dart is a fold taken out of a piece at its outline: the edges from one leg
// end to the other are the dart's cap.
type Dart struct {
	ID, Name string
	From, To string // grade point IDs of the two leg ends, in outline order
	Apex     []SizedPoint
	// Across and Along name the measure the apex follows; empty means bust
	// across and the default along.
	Across, Along Measure
	// TakeUpKept keeps the dart as wide at the outline as the nearest printed
	// size has it, instead of letting it grow as its leg ends do.
	TakeUpKept bool
	// Trued makes the legs equal and draws the seam across the closed dart
	// smooth, in every size.
	Trued bool
}

// SizedPoint is a point as printed for one size; Size "" serves all sizes.
type SizedPoint struct {
	Size string
	At   geom.Point
}
