package seam

import (
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
)

// ErrGone says that a link names a piece or an edge that is not there.
var ErrGone = words.Fault("names a piece or an edge that is not there")

// Sheet is one piece in one size: its lines as they are sewn, and where on
// their edges its notches are, in mm from the edge's start.
type Sheet struct {
	Piece   model.Piece
	Tape    *Tape
	Notches []Spot // as Piece.Notches
}

// Spot is where a notch is: mm from the start of its edge; not Marked in a size
// it was not printed in.
type Spot struct {
	S      float64
	Marked bool
}

// Printed is piece q as printed in a size; false where it was not.
func Printed(q model.Piece, size string) (Sheet, bool) {
	o, ok := q.Printed(size)
	if !ok {
		return Sheet{}, false
	}
	s := Sheet{Piece: q, Tape: NewTape(q, o.Edges), Notches: make([]Spot, len(q.Notches))}
	for i, n := range q.Notches {
		for _, at := range n.Spots {
			if at.Size == "" || at.Size == size || at.Size == o.Size {
				s.Notches[i] = Spot{at.S, true}
			}
		}
	}
	return s, true
}

// Kind is what a mark is.
type Kind string

// The kinds of mark along a seam.
const (
	End    Kind = "end"
	Join   Kind = "join" // where the next piece of the leader's side begins
	Corner Kind = "corner"
	Notch  Kind = "notch"
)

// Mark is a place along one side of a seam.
type Mark struct {
	At     float64 // mm along the stitching line from the seam's start
	Kind   Kind
	Name   string // of the grade point; empty for a notch
	Double bool   // of a notch
	Piece  string // ID
	// Point is the ID of the grade point, for all but notches; Index counts the
	// piece's notches.
	Point string
	Index int
	edge  run // of a notch
}

// run is one edge of a side: its index, where it begins along the seam, how
// long it is sewn, and whether it is walked backwards.
type run struct {
	piece      string // ID
	edge       int
	from, long float64
	back       bool
}

// place is mm along the edge's own stitching line of the place x along the seam.
func (r run) place(x float64) float64 {
	x = min(max(x-r.from, 0), r.long)
	if r.back {
		return r.long - x
	}
	return x
}

// Side is one side of a seam, walked from its start.
type Side struct {
	Length float64
	Marks  []Mark
	runs   []run // its edges, as walked
}

// walkSide walks stretches one after the other. Every one has its sheet.
func walkSide(stretches []model.Stretch, sheets []Sheet) (Side, error) {
	var out Side
	for i, s := range stretches {
		if err := out.add(s, sheets[i], i > 0); err != nil {
			return Side{}, err
		}
	}
	out.Marks[len(out.Marks)-1].Kind = End
	return out, nil
}

// add walks one stretch on; joined says that another came before.
func (d *Side) add(s model.Stretch, sheet Sheet, joined bool) error {
	q := sheet.Piece
	for i, id := range s.Edges {
		j := q.EdgeIndex(id)
		if j < 0 {
			return ErrGone
		}
		long, err := sheet.Tape.Length(j)
		if err != nil {
			return err
		}
		if i == 0 && !joined {
			d.corner(q, j, s.Reverse, End)
		}
		on := run{q.ID, j, d.Length, long, s.Reverse}
		d.runs = append(d.runs, on)
		marks := len(d.Marks)
		for k, n := range q.Notches {
			if n.Edge != id || !sheet.Notches[k].Marked {
				continue
			}
			at, err := sheet.Tape.Along(j, sheet.Notches[k].S)
			if err != nil {
				return words.Errorf("finding the notches of %s: %w", q.Name, err)
			}
			if s.Reverse {
				at = long - at
			}
			d.Marks = append(d.Marks, Mark{
				At: d.Length + at, Kind: Notch, Double: n.Double, Piece: q.ID, Index: k,
				edge: on,
			})
		}
		slices.SortStableFunc(d.Marks[marks:], func(a, b Mark) int {
			if a.At < b.At {
				return -1
			}
			return 1
		})
		d.Length += long
		kind := Corner
		if i == len(s.Edges)-1 {
			kind = Join
		}
		d.corner(q, j, !s.Reverse, kind)
	}
	return nil
}

// corner marks the grade point at the start of edge j, or at its far end.
func (d *Side) corner(q model.Piece, j int, far bool, kind Kind) {
	if far {
		j = (j + 1) % len(q.Points)
	}
	d.Marks = append(d.Marks, Mark{At: d.Length, Kind: kind, Name: q.Points[j].Name, Piece: q.ID, Point: q.Points[j].ID})
}
