// words: none, these are of the command qstep.
package trace

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"quarterstep/model"
)

// check refuses clicks that cannot be traced whatever the picture is.
func (c Clicks) check() error {
	switch {
	case c.Unit != "" && c.Unit != "mm" && c.Unit != "px":
		return fmt.Errorf("unit is mm or px, not %q", c.Unit)
	case !(c.Reach >= 0 && c.Reach <= 50):
		return fmt.Errorf("reach is between 0 and 50 mm, not %v", c.Reach)
	case len(c.Pieces) == 0:
		return errors.New("it has no pieces")
	case len(c.Pieces) > mostPieces:
		return fmt.Errorf("it has more than %d pieces", mostPieces)
	}
	for i, q := range c.Pieces {
		if err := q.check(); err != nil {
			return fmt.Errorf("%s, %w", cmp.Or(q.Name, fmt.Sprintf("piece %d", i+1)), err)
		}
	}
	return nil
}

func (q Clicked) check() error {
	switch {
	case len(q.Sizes) == 0:
		return errors.New("no size is clicked")
	case len(q.Sizes) > mostSizes:
		return fmt.Errorf("more than %d sizes", mostSizes)
	case q.Cut < 0 || q.Cut > 100:
		return fmt.Errorf("it cannot be cut %d times", q.Cut)
	case len(q.Lines) > mostMarks || len(q.Notches) > mostMarks || len(q.Darts) > mostMarks:
		return fmt.Errorf("more than %d marks of a kind", mostMarks)
	case len(q.Gaps) > 0 && len(q.Sizes) > 1:
		return errors.New("gaps are typed for a piece clicked in one size only")
	}
	met := map[string]bool{}
	for i, s := range q.Sizes {
		if met[s.Size] {
			return fmt.Errorf("size %s is clicked twice", s.Size)
		}
		met[s.Size] = true
		if err := s.check(i == 0); err != nil {
			return fmt.Errorf("size %s: %w", s.Size, err)
		}
	}
	return q.checkMarks(met, len(q.Sizes[0].Corners))
}

func (s ClickedSize) check(first bool) error {
	switch {
	case s.Size == "":
		return errors.New("it has no name")
	case s.Propose && first:
		return errors.New("the first size cannot be proposed; click its corners")
	case !s.Propose && len(s.Corners) < 3:
		return fmt.Errorf("it has %d corners and needs three", len(s.Corners))
	case len(s.Corners) > mostCorners:
		return fmt.Errorf("it has more than %d corners", mostCorners)
	}
	for i, c := range s.Corners {
		switch {
		case s.Propose && c.Corner < 1:
			return fmt.Errorf(`correction %d does not say which "corner" it puts right`, i+1)
		case s.Propose && (len(c.Via) > 0 || c.Straight || c.Fold):
			return fmt.Errorf("corner %d: only the place of a proposed corner can be put right", c.Corner)
		case !s.Propose && c.Corner != 0 && c.Corner != i+1:
			return fmt.Errorf("corner %d stands in place %d", c.Corner, i+1)
		case len(c.Via) > mostVia:
			return fmt.Errorf("corner %d: more than %d points on the way", i+1, mostVia)
		}
	}
	return nil
}

// checkMarks looks at what is said beside the lines; met are the sizes clicked,
// corners those of the first.
func (q Clicked) checkMarks(met map[string]bool, corners int) error {
	for _, e := range q.Edges {
		if e.Edge < 1 || e.Edge > corners {
			return fmt.Errorf("edge %d: there are %d edges", e.Edge, corners)
		}
		if !slices.Contains([]model.EdgeKind{model.Plain, model.Fold, model.Centre, model.Hem}, e.Kind) {
			return fmt.Errorf("edge %d: its kind is fold, centre or hem, not %q", e.Edge, e.Kind)
		}
		if e.Allowance < 0 {
			return fmt.Errorf("edge %d: its allowance is below nothing", e.Edge)
		}
	}
	kinds := []model.LineKind{model.Grain, model.Lengthen, model.BustLine, model.WaistLine, model.HipLine}
	for i, l := range q.Lines {
		if !slices.Contains(kinds, l.Kind) {
			return fmt.Errorf("line %d is grain, lengthen, bust, waist or hip, not %q", i+1, l.Kind)
		}
		if l.From == l.To {
			return fmt.Errorf("line %d needs two ends that differ", i+1)
		}
		if l.Size != "" && !met[l.Size] {
			return fmt.Errorf("line %d is of size %s, which is not clicked", i+1, l.Size)
		}
	}
	for i, n := range q.Notches {
		if n.Size != "" && !met[n.Size] {
			return fmt.Errorf("notch %d is of size %s, which is not clicked", i+1, n.Size)
		}
	}
	for i, d := range q.Darts {
		if d.From == d.To || d.From == d.Apex || d.To == d.Apex {
			return fmt.Errorf("dart %d needs three places that differ", i+1)
		}
		if d.Size != "" && !met[d.Size] {
			return fmt.Errorf("dart %d is of size %s, which is not clicked", i+1, d.Size)
		}
	}
	for _, g := range q.Gaps {
		if g.Corner < 1 || g.Corner > corners {
			return fmt.Errorf("gap of corner %d: there are %d corners", g.Corner, corners)
		}
	}
	return nil
}
