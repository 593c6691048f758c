package ui

import (
	"fmt"
	"strings"

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
	if s.under {
		v.Summary = "Laying the pieces over the pages ..."
	}
	v.Print, v.Save, v.Busy = "Print "+pages, "Save PDF", s.why != "" || s.under
	v.Shown = []panel.ToggleView{
		{Word: "New line, " + r, On: s.target},
		{Word: "Printed nest", On: s.choice.Nest},
		{Word: "Seam line", On: s.choice.Stitching},
		{Word: "Notches, marks", On: s.choice.Marks},
	}
	s.choices(p, r, &v)
	return v
}

// choices shows which pieces and sizes are printed.
func (s *printStep) choices(p model.Pattern, r string, v *panel.PagesView) {
	for _, q := range p.Pieces {
		v.Pieces = append(v.Pieces, panel.ToggleView{Word: q.Name, On: !s.without[q.ID]})
	}
	v.PiecesState = fmt.Sprintf("all %d", len(p.Pieces))
	if n := len(s.without); n > 0 {
		v.PiecesState = fmt.Sprintf("%d of %d", len(p.Pieces)-n, len(p.Pieces))
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
		v.SizesState = r + " only"
	case len(sizes) == 0:
		v.SizesState = "none"
	default:
		if s.target {
			sizes = append(sizes, "the new line")
		}
		v.SizesState = strings.Join(sizes, ", ")
	}
}

func paperText(paper tile.Paper, u model.Unit) string {
	if paper.Free {
		return paper.Name
	}
	if u == model.Inches {
		return fmt.Sprintf("%s, %s × %s in", paper.Name, measure.Format(paper.Width, measure.Sixteenths), measure.Format(paper.Height, measure.Sixteenths))
	}
	return fmt.Sprintf("%s, %.0f × %.0f mm", paper.Name, paper.Width, paper.Height)
}

// pagesSummary is "6 across, 3 down. C5 and C6 left out."
func pagesSummary(plan tile.Plan) string {
	if len(plan.Sheets) == 0 {
		return ""
	}
	out := fmt.Sprintf("%d across, %d down.", plan.Cols, plan.Rows)
	var blank []string
	for row := range plan.Rows {
		for col := range plan.Cols {
			if _, there := plan.At(row, col); !there {
				blank = append(blank, tile.SheetName(row, col))
			}
		}
	}
	switch {
	case len(blank) == 1:
		out += " " + blank[0] + " left out."
	case len(blank) > 4:
		out += fmt.Sprintf(" %d left out.", len(blank))
	case len(blank) > 1:
		out += " " + strings.Join(blank[:len(blank)-1], ", ") + " and " + blank[len(blank)-1] + " left out."
	}
	if plan.Cover() {
		out += " A page to measure by comes first."
	}
	return out
}

// pagesLine is the Print step's one-line state.
func (w *Window) pagesLine() string {
	switch {
	case w.step != stepPrint || w.print.of < 0:
		return "pages for your printer"
	case w.print.why != "":
		return "nothing to print yet"
	case w.print.under:
		return "laying out ..."
	}
	return count(w.print.now().Pages(), "page")
}
