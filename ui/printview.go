package ui

import (
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/measure"
	"quarterstep/printing/tile"
	"quarterstep/ui/panel"
)

// pagesView is the Pages panel but for the printers and the scale check.
func (s *printStep) pagesView(p model.Pattern, r string) panel.PagesView {
	plan := s.now().Plan
	v := panel.PagesView{
		Columns: max(1, plan.Cols), Page: -1, Unit: smallUnit(p.Unit), Wide: s.setup.Landscape, NoTurn: s.setup.Paper.Free,
		Overlap: amount(s.setup.Overlap, p.Unit), Margin: amount(s.setup.Margin, p.Unit), Paper: -1,
		Note: s.why, Moved: s.moved,
	}
	if s.setup.Paper.Projected() {
		v.Beam = &panel.BeamView{Dark: s.setup.Projector.Dark, Line: amount(s.setup.Projector.Line, p.Unit), Unit: smallUnit(p.Unit)}
	}
	for i, paper := range tile.Papers() {
		v.Papers = append(v.Papers, paperText(paper, p.Unit))
		if paper.Name == s.setup.Paper.Name {
			v.Paper = i
		}
	}
	for row := range plan.Rows {
		for col := range plan.Cols {
			name := tile.SheetName(row, col)
			_, there := plan.At(row, col)
			if there && name == s.page {
				v.Page = len(v.Pages)
			}
			v.Pages = append(v.Pages, panel.PageView{Name: name, Blank: !there})
		}
	}
	pages := count(s.now().Pages(), "page")
	v.Count, v.Summary = pages, pagesSummary(plan)
	v.Print, v.Save, v.Busy = words.F("Print %s", pages), words.T("Save PDF"), s.why != "" || s.under
	if s.under { // how many pages it comes to is not known yet
		v.Count, v.Summary = words.T("laying out ..."), words.T("Laying the pieces over the pages ...")
		v.Print = words.T("Print")
	}
	v.Shown = []panel.ToggleView{
		{Word: words.F("New line, %s", r), On: s.target},
		{Word: words.T("Printed nest"), On: s.choice.Nest},
		{Word: words.T("Seam line"), On: s.choice.Stitching},
		{Word: words.T("Notches, marks"), On: s.choice.Marks},
	}
	s.choices(p, r, &v)
	return v
}

// choices shows which pieces and sizes are printed.
func (s *printStep) choices(p model.Pattern, r string, v *panel.PagesView) {
	for _, q := range p.Pieces {
		v.Pieces = append(v.Pieces, panel.ToggleView{Word: q.Name, On: !s.without[q.ID]})
	}
	v.PiecesState = words.F("all %d", len(p.Pieces))
	if n := len(s.without); n > 0 {
		v.PiecesState = words.F("%d of %d", len(p.Pieces)-n, len(p.Pieces))
	}
	var sizes []string
	for _, size := range p.Chart.Sizes {
		v.Sizes = append(v.Sizes, panel.ToggleView{Word: size.Name, On: s.sizes[size.Name]})
		if s.sizes[size.Name] {
			sizes = append(sizes, size.Name)
		}
	}
	switch {
	case len(sizes) == 0 && s.target:
		v.SizesState = words.F("%s only", r)
	case len(sizes) == 0:
		v.SizesState = words.T("none")
	default:
		if s.target {
			sizes = append(sizes, words.T("the new line"))
		}
		v.SizesState = strings.Join(sizes, ", ")
	}
}

func paperText(paper tile.Paper, u model.Unit) string {
	if paper.Free {
		return paper.Said()
	}
	if u == model.Inches {
		return words.F("%s, %s × %s in", paper.Said(), measure.Format(paper.Width, measure.Sixteenths), measure.Format(paper.Height, measure.Sixteenths))
	}
	return words.F("%s, %.0f × %.0f mm", paper.Said(), paper.Width, paper.Height)
}

// pagesSummary is "6 across, 3 down. C5 and C6 left out."
func pagesSummary(plan tile.Plan) string {
	if len(plan.Sheets) == 0 {
		return ""
	}
	out := words.F("%d across, %d down.", plan.Cols, plan.Rows)
	var blank []string
	for row := range plan.Rows {
		for col := range plan.Cols {
			if _, there := plan.At(row, col); !there {
				blank = append(blank, tile.SheetName(row, col))
			}
		}
	}
	switch {
	case len(blank) > 4:
		out += " " + words.F("%d left out.", len(blank))
	case len(blank) > 0:
		out += " " + words.F("%s left out.", listed(blank))
	}
	if plan.Cover() {
		out += " " + words.T("A page to measure by comes first.")
	}
	return out
}

// pagesLine is the Print step's one-line state.
func (w *Window) pagesLine() string {
	switch {
	case w.step != stepPrint || w.print.of < 0:
		return words.T("for your printer")
	case w.print.why != "":
		return words.T("nothing to print yet")
	case w.print.under:
		return words.T("laying out ...")
	}
	return count(w.print.now().Pages(), "page")
}
