package girth

import (
	"quarterstep/grading"
	"quarterstep/model"
)

// Tape measures patterns and remembers what it measured of their print, so that
// measuring again for a new target or after a correction is quick. The zero
// Tape is ready; it is not safe for use from two goroutines at once.
type Tape struct {
	pieces  []model.Piece
	links   []model.Link
	chart   *model.ChartSize
	printed map[model.Measure][]Sized
	lacks   map[model.Measure][]Missing
}

// Table compares p, graded as r, with its print: a row for each girth that can
// be measured at the target. What could not be measured is in missing; a
// printed size that lacks a figure is named there only if no other has one.
// It fails as Of does.
func (t *Tape) Table(p model.Pattern, r grading.Result) (rows []Row, missing []Missing, err error) {
	return t.TableSewn(p, r, nil)
}

// TableSewn is Table for a caller who has the stitching lines already.
func (t *Tape) TableSewn(p model.Pattern, r grading.Result, sewn Stitching) (rows []Row, missing []Missing, err error) {
	target, missing, err := of(p, r, sewn)
	if err != nil {
		return nil, nil, err
	}
	if err := t.measurePrint(p); err != nil {
		return nil, nil, err
	}
	for _, g := range target {
		row := Row{Measure: g.Measure, Target: g, Printed: t.printed[g.Measure]}
		row.Carried, row.Compared = carried(row.Printed, g.Body)
		if !row.Compared {
			missing = append(missing, t.lacks[g.Measure]...)
		}
		rows = append(rows, row)
	}
	return rows, missing, nil
}

// measurePrint measures every printed size of p, unless it is remembered.
func (t *Tape) measurePrint(p model.Pattern) error {
	if t.printed != nil && t.remembers(p) {
		return nil
	}
	printed, lacks, err := printedGirths(p)
	if err != nil {
		return err
	}
	*t = Tape{p.Pieces, p.Links, firstSize(p), printed, lacks}
	return nil
}

// remembers reports that p's print is the one measured last: edits replace
// slices and never write into them.
func (t *Tape) remembers(p model.Pattern) bool {
	if t.chart != firstSize(p) || !same(t.links, p.Links) || len(t.pieces) != len(p.Pieces) {
		return false
	}
	for i, q := range p.Pieces {
		if !samePrint(t.pieces[i], q) {
			return false
		}
	}
	return true
}

func firstSize(p model.Pattern) *model.ChartSize {
	if len(p.Chart.Sizes) == 0 {
		return nil
	}
	return &p.Chart.Sizes[0]
}

// samePrint reports that two pieces differ at most in their corrections and in
// where they lie on the Table.
func samePrint(a, b model.Piece) bool {
	return a.ID == b.ID && a.Name == b.Name && a.Cut == b.Cut && a.OneForAll == b.OneForAll &&
		same(a.Points, b.Points) && same(a.Edges, b.Edges) && same(a.Nest, b.Nest) && same(a.Lines, b.Lines) &&
		same(a.Darts, b.Darts) && same(a.Gaps, b.Gaps) && same(a.Cuts, b.Cuts)
}

// same reports that two slices are the very same storage.
func same[T any](a, b []T) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}
