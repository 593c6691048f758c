package grading

import (
	"quarterstep/assets/words"
	"quarterstep/grading/seam"
	"quarterstep/model"
)

// Walk lays the two sides of a sewn link of p along each other as graded. It
// fails where the link names something gone, its pieces share no printed size,
// or a seam allowance does not fit.
func Walk(p model.Pattern, r Result, l model.Link) (seam.Walk, error) {
	pr, err := seam.Read(p, l)
	if err != nil {
		return seam.Walk{}, words.Errorf("walking a seam: %w", err)
	}
	w, err := pr.Walk(sheets(p, r), p.Target.Place)
	if err != nil {
		return seam.Walk{}, words.Errorf("walking a seam: %w", err)
	}
	return w, nil
}

// sheets is every piece as graded.
func sheets(p model.Pattern, r Result) []seam.Sheet {
	out := make([]seam.Sheet, len(p.Pieces))
	for i, q := range r.Pieces {
		out[i] = seam.Sheet{Piece: p.Pieces[i], Tape: seam.NewTape(p.Pieces[i], q.Edges), Notches: make([]seam.Spot, len(q.Notches))}
		for k, n := range q.Notches {
			out[i].Notches[k] = seam.Spot{S: n.S, Marked: true}
		}
	}
	return out
}
