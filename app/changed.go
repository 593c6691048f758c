package app

import (
	"slices"
	"strings"

	"quarterstep/printing/pdf"
	"quarterstep/printing/tile"
)

// Marks tell of every page, by its name, what is on it. The date is left out: a page is the
// same tomorrow, as long as dates are written equally long ("2026-03-01"), so that
// they take the same room.
func (j Job) Marks() (map[string]string, error) {
	marks, err := pdf.Marks(j.undated(), j.options())
	if err != nil {
		return nil, err
	}
	out := make(map[string]string, len(marks))
	for _, m := range marks {
		out[m.Page] = m.Print
	}
	return out, nil
}

// undated is the plan without the date on its pieces.
func (j Job) undated() tile.Plan {
	plan := j.Plan
	if j.date == "" {
		return plan
	}
	plan.Pieces = slices.Clone(plan.Pieces)
	for i := range plan.Pieces {
		labels := slices.Clone(plan.Pieces[i].Piece.Labels)
		for k, l := range labels {
			labels[k].Text = strings.ReplaceAll(l.Text, j.date, "")
		}
		plan.Pieces[i].Piece.Labels = labels
	}
	return plan
}

// Changed names the pages that were not printed as they are now, in the plan's
// order.
func (j Job) Changed(before map[string]string) ([]string, error) {
	now, err := j.Marks()
	if err != nil {
		return nil, err
	}
	var out []string
	for _, page := range j.Plan.PageNames() {
		if before[page] != now[page] {
			out = append(out, page)
		}
	}
	return out, nil
}
