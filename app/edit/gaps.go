package edit

import (
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// SetGap types by how many mm a grade point of a piece printed in one size moves
// to the next size up, along the grain or across it (to the right where the
// grain points down). With 0 both ways the gap is gone. A gap that would move a
// fold or centre edge off its line is an error.
func SetGap(piece, point string, along bool, mm float64) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			k := q.PointIndex(point)
			if k < 0 {
				return q, words.Errorf("%s has no such grade point", q.Name)
			}
			if err := inOneSize(q); err != nil {
				return q, err
			}
			g := model.Gap{Point: point}
			i := slices.IndexFunc(q.Gaps, func(g model.Gap) bool { return g.Point == point })
			if i >= 0 {
				g = q.Gaps[i]
			}
			if along {
				g.Along = mm
			} else {
				g.Across = mm
			}
			if err := checkGap(q, k, g, mm); err != nil {
				return q, err
			}
			q.Gaps = withGap(q.Gaps, i, g)
			return q, nil
		})
	}
}

// withGap is gaps with g in place of the i-th, or added where i is below 0; a
// gap of nought is left out.
func withGap(gaps []model.Gap, i int, g model.Gap) []model.Gap {
	out := slices.Clone(gaps)
	none := g.Across == 0 && g.Along == 0
	switch {
	case i < 0 && none:
	case i < 0:
		out = append(out, g)
	case none:
		out = slices.Delete(out, i, i+1)
	default:
		out[i] = g
	}
	return out
}

// checkGap looks whether grade point k may move by g, of which mm was typed.
func checkGap(q model.Piece, k int, g model.Gap, mm float64) error {
	if !(math.Abs(mm) <= mostPerSize) {
		return words.Errorf("a gap between two sizes is at most %g mm", mostPerSize)
	}
	move := q.FromAcrossAlong(g.Across, g.Along)
	for _, j := range []int{k, (k + len(q.Edges) - 1) % len(q.Edges)} {
		kind := q.Edges[j].Kind
		if kind == model.Fold || kind == model.Centre {
			edge := q.Nest[0].Edges[j]
			if leaves(edge.End().Sub(edge.Start()), move) {
				return words.Errorf("the %s of %s lies on the fold or centre, which keeps to its line", pointName(q, k), q.Name)
			}
		}
	}
	return nil
}

// leaves reports that move leaves the direction of line by more than a degree.
func leaves(line, move geom.Vec) bool {
	return math.Abs(move.Cross(line.Unit())) > 0.02*move.Len()
}
