package edit

import (
	"quarterstep/grading/match"
	"quarterstep/model"
)

// StackOn is where the sizes of a nest are laid on each other.
type StackOn = match.StackOn

// OnCentre is the piece's fold or centre line, OnHem its hem.
var (
	OnCentre = StackOn{Line: model.Centre}
	OnHem    = StackOn{Line: model.Hem}
)

// OnPoint is the grade point with that ID.
func OnPoint(id string) StackOn { return StackOn{Point: id} }

// Stack lays the printed sizes of a piece, with their marks, on the largest at
// its centre or fold line, its hem or a grade point; no line changes shape.
func Stack(piece string, on StackOn) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) { return match.Stack(q, on) })
	}
}
