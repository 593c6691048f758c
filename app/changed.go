package app

import (
	"slices"
	"strings"

	"quarterstep/printing/pdf"
	"quarterstep/printing/tile"
)

// PrintedPage is the name of a page that was printed and a mark of what was on
// it.
type PrintedPage struct {
	Page string `json:"page"`
	Mark string `json:"mark"`
}

// Marks tell of every page what is on it. The date is left out: a page is the
// same tomorrow, as long as dates are written equally long ("2026-03-01"), so that
// they take the same room.
func (j Job) Marks() ([]PrintedPage, error) {
	marks, err := pdf.Marks(j.undated(), j.options())
	if err != nil {
		return nil, err
	}
	out := make([]PrintedPage, len(marks))
	for i, m := range marks {
		out[i] = PrintedPage{m.Page, m.Print}
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
func (j Job) Changed(before []PrintedPage) ([]string, error) {
	now, err := j.Marks()
	if err != nil {
		return nil, err
	}
	var out []string
	for _, m := range now {
		if !slices.Contains(before, m) {
			out = append(out, m.Page)
		}
	}
	return out, nil
}
