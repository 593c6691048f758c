package edit

import (
	"quarterstep/assets/words"
	"quarterstep/grading/check"
	"quarterstep/model"
)

// Act does what a finding of a check offers. To show a place is no edit and an
// error, as is a deed not known here.
func Act(a check.Action) func(model.Pattern) (model.Pattern, error) {
	switch a.Do {
	case check.ByChart:
		return Method(model.ByChart)
	case check.TakeBack:
		return takeBackAt(a.Piece, a.Edges, a.Points)
	case check.RunSmooth:
		if len(a.Points) == 1 {
			return SmoothThrough(a.Piece, a.Points[0])
		}
	case check.TrueDart:
		return TrueDart(a.Piece, a.Dart, true)
	case check.EvenLength:
		return EvenLength(a.Length)
	case check.Unlink:
		return Unlink(a.Link)
	case check.Refit:
		return SetRefit(a.Link, a.Refit)
	}
	return func(p model.Pattern) (model.Pattern, error) {
		return p, words.Error("there is nothing to do but look")
	}
}

// takeBackAt removes what the hand did to some edges and grade points of a
// piece.
func takeBackAt(piece string, edges, points []string) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		var err error
		out := p
		for _, e := range edges {
			if out, err = TakeBackEdge(piece, e)(out); err != nil {
				return p, err
			}
		}
		for _, k := range points {
			if out, err = TakeBackPoint(piece, k)(out); err != nil {
				return p, err
			}
		}
		return out, nil
	}
}
