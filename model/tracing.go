package model

import "quarterstep/model/geom"

// Picture is a photo or scan of paper, made flat and to scale.
type Picture struct {
	ID    string   // unique in the pattern
	Name  string   // as the sewist knows it: "front.jpg"
	File  string   // its name among the pictures of the project file
	PerMM float64  // pixels to a millimetre
	At    geom.Vec // where its upper left corner lies on the Table
	Faded float64  // how far it is dimmed: 0 as taken, 1 gone
	Off   float64  // how far, in mm, it was off at worst when it was made flat
}

// Tracing is a piece on its way from a picture to the Shelf: the lines of its
// sizes, corner by corner, in mm from the picture's upper left corner.
type Tracing struct {
	ID      string // unique in the pattern
	Picture string // ID of the picture it is traced from
	Name    string // of the piece: "Back bodice"
	Cut     int
	Printed [2]string // the smallest and the largest size printed, as they were said; empty where not
	Edges   []Edge    // names and kinds, as far as they are said; the first size's order
	Sizes   []TracedSize
	Lines   []Line // marks for all sizes
	Notches []TracedNotch
	Darts   []TracedDart
}

// TracedSize is the line of one size: Edges[i] runs from Corners[i] to the next
// corner, and once Closed the last back to the first.
type TracedSize struct {
	Size    string // of the chart
	Corners []geom.Point
	Edges   []geom.Path
	Closed  bool
}

// TracedNotch is a notch as marked on the picture, on the line of a size or, if
// Size is empty, of all that pass there.
type TracedNotch struct {
	At     geom.Point
	Size   string
	Double bool
}

// TracedDart is a dart as marked: its two leg ends are the corners nearest to
// From and To.
type TracedDart struct {
	Name           string
	From, Apex, To geom.Point
	Size           string
}

// PictureIndex is the index of the picture with that ID, or -1.
func (p Pattern) PictureIndex(id string) int {
	for i, q := range p.Pictures {
		if q.ID == id {
			return i
		}
	}
	return -1
}

// TracingIndex is the index of the tracing with that ID, or -1.
func (p Pattern) TracingIndex(id string) int {
	for i, t := range p.Tracings {
		if t.ID == id {
			return i
		}
	}
	return -1
}
