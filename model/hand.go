package model

import "quarterstep/model/geom"

// Hand is what the sewist changed by eye on the computed line. It is kept
// beside the line and laid on again whatever the target, in the order of the
// fields. Shifts come after Shapes, for a line parallel to another has other
// control points.
type Hand struct {
	Curves  []EdgeCurve
	Moves   []PointMove
	Shapes  []EdgeShape
	Shifts  []EdgeShift
	Through []string // grade points the line is made to run smoothly through
}

// IsZero reports that there is no correction.
func (h Hand) IsZero() bool {
	return len(h.Curves) == 0 && len(h.Moves) == 0 && len(h.Shifts) == 0 && len(h.Shapes) == 0 && len(h.Through) == 0
}

// CurveKind says where an edge takes its curve from, when not from the printed
// trend.
type CurveKind string

// NearestCurve keeps the curve of the nearest printed size, PrintedCurve that
// of a printed size named; StraightCurve joins the ends straight.
const (
	NearestCurve  CurveKind = "nearest"
	PrintedCurve  CurveKind = "printed"
	StraightCurve CurveKind = "straight"
)

// EdgeCurve gives an edge another curve between its computed ends.
type EdgeCurve struct {
	Edge string // edge ID
	Kind CurveKind
	Size string // the printed size, for PrintedCurve
}

// PointMove shifts a grade point of the computed line, in mm. Moves of one
// point with different Stage or Style stand beside each other and add up.
type PointMove struct {
	Point string // grade point ID
	By    geom.Vec
	// Stage is the size the move was made at, when it is to be carried on from
	// there: nothing of it at the printed sizes, all of it at Stage and beyond,
	// a share between. Empty means: whatever the target.
	Stage string
	// Style names the style change the move is part of: "Narrower shoulder".
	Style string
}

// EdgeShift moves a whole edge parallel to itself by Out mm, out of the piece
// or, below 0, into it.
type EdgeShift struct {
	Edge  string // edge ID
	Out   float64
	Stage string // as for PointMove
}

// EdgeShape shifts the inner control points of an edge's computed path, in mm:
// By[k] belongs to control point k+1 of geom.Path.Controls. A shorter list
// leaves the rest alone.
type EdgeShape struct {
	Edge  string // edge ID
	By    []geom.Vec
	Stage string // as for PointMove
}
