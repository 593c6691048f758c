package edit

import (
	"fmt"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/grading/spread"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// mostPerSize is the most, in mm, that a cut line may open, or a typed gap move
// a grade point, from one size to the next.
const mostPerSize = 100.0

// AddCut lays a cut line through a piece printed in one size, from one place to
// another (mm, the piece's own coordinates); its ends are carried on to the
// outline, so that the line seen is the line cut. The paper is spread there by share of what measure m grows, 0 to 1; for
// model.Steps share is the mm per size. A line along which paper cannot be cut
// is an error that says why.
func AddCut(piece string, from, to geom.Point, m model.Measure, share float64) func(model.Pattern) (model.Pattern, error) {
	return onCuts(piece, func(c model.SizeChart, cuts []model.Cut) ([]model.Cut, error) {
		return append(cuts, model.Cut{ID: newCutID(cuts), From: from, To: to, Measure: m, Share: share}), checkShare(c, m, share)
	})
}

// MoveCut lays a cut line from one place to another; its ends are carried on to
// the outline.
func MoveCut(piece, cut string, from, to geom.Point) func(model.Pattern) (model.Pattern, error) {
	return onCut(piece, cut, func(_ model.SizeChart, c model.Cut) (model.Cut, error) {
		c.From, c.To = from, to
		return c, nil
	})
}

// SetCut gives a cut line another measure and share, as for AddCut.
func SetCut(piece, cut string, m model.Measure, share float64) func(model.Pattern) (model.Pattern, error) {
	return onCut(piece, cut, func(chart model.SizeChart, c model.Cut) (model.Cut, error) {
		c.Measure, c.Share = m, share
		return c, checkShare(chart, m, share)
	})
}

// RemoveCut takes a cut line out.
func RemoveCut(piece, cut string) func(model.Pattern) (model.Pattern, error) {
	return onCuts(piece, func(_ model.SizeChart, cuts []model.Cut) ([]model.Cut, error) {
		i := slices.IndexFunc(cuts, func(c model.Cut) bool { return c.ID == cut })
		if i < 0 {
			return nil, errNoCut
		}
		return slices.Delete(cuts, i, i+1), nil
	})
}

// DefaultCuts gives a piece the cut lines that spread.Defaults proposes for it,
// in place of any it has.
func DefaultCuts(piece string) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			if err := inOneSize(q); err != nil {
				return q, err
			}
			all, err := spread.Defaults(q, p.Chart)
			if err != nil {
				return q, err
			}
			q.Cuts = nil
			for _, d := range all {
				q.Cuts = append(q.Cuts, d.Cut)
			}
			return q, nil
		})
	}
}

var errNoCut = words.Fault("it has no such cut line")

// onCut changes one cut line.
func onCut(piece, cut string, f func(model.SizeChart, model.Cut) (model.Cut, error)) func(model.Pattern) (model.Pattern, error) {
	return onCuts(piece, func(chart model.SizeChart, cuts []model.Cut) ([]model.Cut, error) {
		i := slices.IndexFunc(cuts, func(c model.Cut) bool { return c.ID == cut })
		if i < 0 {
			return nil, errNoCut
		}
		var err error
		cuts[i], err = f(chart, cuts[i])
		return cuts, err
	})
}

// onCuts changes the cut lines of a piece, of which f is given a copy, holds them
// to what can be cut, and carries them on to the outline.
func onCuts(piece string, f func(model.SizeChart, []model.Cut) ([]model.Cut, error)) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		return onPiece(p, piece, func(q model.Piece) (model.Piece, error) {
			if err := inOneSize(q); err != nil {
				return q, err
			}
			cuts, err := f(p.Chart, slices.Clone(q.Cuts))
			if err != nil {
				return q, words.Errorf("cut lines of %s: %w", q.Name, err)
			}
			q.Cuts = cuts
			s, err := spread.Read(q)
			if err != nil {
				return q, err
			}
			for i := range cuts {
				cuts[i].From, cuts[i].To = s.Reach(i)
			}
			return q, nil
		})
	}
}

// inOneSize is an error for a piece that says by itself how it grows.
func inOneSize(q model.Piece) error {
	switch {
	case q.OneForAll:
		return words.Errorf("%s is the same in all sizes; say first that it is not", q.Name)
	case len(q.Nest) != 1:
		return words.Errorf("%s is printed in several sizes, which say how it grows; cut lines and typed gaps are for a piece printed in one", q.Name)
	}
	return nil
}

func checkShare(c model.SizeChart, m model.Measure, share float64) error {
	most := 1.0
	if m == model.Steps {
		most = mostPerSize
	}
	switch {
	case !c.Has(m):
		return words.Errorf("the chart %s has no %s for all sizes", c.Name, m)
	case share >= 0 && share <= most:
		return nil
	case m == model.Steps:
		return words.Errorf("one opens by 0 to %g mm from size to size", mostPerSize)
	}
	return words.Errorf("one takes a share of 0 to 1 of what the %s grows, for example 1/16", m)
}

// newCutID is an ID that no cut line has.
func newCutID(cuts []model.Cut) string {
	for n := len(cuts) + 1; ; n++ {
		id := fmt.Sprintf("cut-%d", n)
		if !slices.ContainsFunc(cuts, func(c model.Cut) bool { return c.ID == id }) {
			return id
		}
	}
}
