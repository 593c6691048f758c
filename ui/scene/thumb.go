package scene

import (
	"quarterstep/model"
	"quarterstep/model/geom"
)

// Widths of the lines of a thumbnail, px: thin, for they lie close there.
const (
	thumbPrinted = 0.8
	thumbLine    = 1.6
)

// Thumb is the pieces as pictures too small for marks and words: their new line
// and, within it, the smallest and the largest printed size.
func Thumb(in Input) Layer {
	var l Layer
	for i, q := range in.Pattern.Pieces {
		edges := in.Edges(i)
		if len(edges) == 0 {
			continue
		}
		whole := geom.Join(edges...)
		for _, k := range ends(q) {
			l.Lines = append(l.Lines, Line{
				Path: geom.Join(q.Nest[k].Edges...).Transform(in.place(q)), Width: thumbPrinted, Ink: NestInk(k, len(q.Nest)), Alpha: 1,
			})
		}
		if _, graded := in.graded(i); graded {
			l.Lines = append(l.Lines, Line{Path: whole, Width: thumbLine, Round: true, Ink: InkAccent, Alpha: 1})
		}
	}
	return l
}

// ends are the places of the smallest and the largest printed size of q, one
// where it was printed in one.
func ends(q model.Piece) []int {
	switch n := len(q.Nest); n {
	case 0:
		return nil
	case 1:
		return []int{0}
	default:
		return []int{0, n - 1}
	}
}
