package model

// Lengthening is one amount of length, the same at every piece it names: put in
// at their lengthen lines, or added at their hems.
type Lengthening struct {
	ID   string  // unique in the pattern
	Name string  // "Above the waist"
	By   float64 // mm; below 0 is folded out
	// Lines are the lengthen lines the amount is put in at; Hems the stretches
	// of edge it is added at, parallel to themselves.
	Lines []PieceLine
	Hems  []Stretch
}

// PieceLine names a line of a piece.
type PieceLine struct {
	Piece string // piece ID
	Line  string // line ID
}

// MaxLengthening is the most, in mm, that one amount may put in or fold out.
const MaxLengthening = 1000

// LineIndex is the index of the line with that ID, or -1.
func (q Piece) LineIndex(id string) int {
	for i, l := range q.Lines {
		if l.ID == id {
			return i
		}
	}
	return -1
}
