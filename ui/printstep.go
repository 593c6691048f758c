package ui

import (
	"fmt"
	"slices"
	"strings"

	"quarterstep/app"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/printing/tile"
	"quarterstep/ui/board"
	"quarterstep/ui/panel"
	"quarterstep/ui/scene"
)

// printStep is the Print step: how the sewist wants the pages, and the pages
// worked out for the pattern as it was last shown.
type printStep struct {
	setup   tile.Setup
	choice  app.PrintChoice
	target  bool            // print the size wanted
	sizes   map[string]bool // sizes chosen besides
	buttons bool
	page    string

	ids   []string // of the job's pieces, in its order
	job   app.Job
	why   string // what keeps it from printing
	of    int    // serial of the pattern the job is of; -1 for none
	moved bool   // pieces were moved by hand since
	shown *app.Job
}

// the printed sizes of A4 with the usual margin; see app.PrintSetup.
const firstPaper = "A4"

func newPrintStep(paper string) printStep {
	s, err := app.PrintSetup(paper, "", "")
	if err != nil {
		s, _ = app.PrintSetup(firstPaper, "", "")
	}
	return printStep{
		setup: s, of: -1, buttons: true, target: true, sizes: map[string]bool{},
		choice: app.PrintChoice{Marks: true, Stitching: true},
	}
}

// stale drops the pages worked out so far.
func (s *printStep) stale() { s.of, s.moved, s.shown = -1, false, nil }

// plan works the pages out for p unless they are at hand.
func (s *printStep) plan(p model.Pattern, serial int) {
	if s.of == serial {
		return
	}
	s.stale()
	c := s.choice
	c.Sizes, c.WithTarget = s.chosen(p), s.target
	if len(c.Sizes) == 0 && !s.target {
		s.job, s.of, s.why, s.ids = app.Job{}, serial, "Choose at least one size to print.", nil
		return
	}
	job, err := app.Plan(p, c, s.setup)
	s.job, s.of, s.why, s.ids = job, serial, "", nil
	for _, q := range p.Pieces {
		s.ids = append(s.ids, q.ID)
	}
	if err != nil {
		s.why = err.Error()
	}
}

// now is the job as shown: with a piece under way between pages.
func (s *printStep) now() app.Job {
	if s.shown != nil {
		return *s.shown
	}
	return s.job
}

// dragPiece moves a piece between the pages.
func (s *printStep) dragPiece(piece string, by geom.Vec, ph board.Phase) {
	i := slices.Index(s.ids, piece)
	if i < 0 || s.why != "" {
		return
	}
	if ph == board.DragCancel {
		s.shown = nil
		return
	}
	next, err := s.job.Relay(i, by)
	if err != nil {
		return
	}
	s.shown = &next
	if ph == board.DragEnd {
		s.job, s.shown, s.moved = next, nil, true
	}
}

// onTable adds the pages and the pieces' places on them to what the Table
// shows.
func (s *printStep) onTable(in *scene.Input) {
	if s.why != "" {
		return
	}
	plan := s.now().Plan
	in.Names, in.Glue, in.Page = true, s.buttons, s.page
	in.Nest, in.Seam, in.Select = s.choice.Nest, s.choice.Stitching, scene.Ref{Piece: in.Select.Piece}
	in.Placement = map[string]geom.Affine{}
	for i, pl := range plan.Pieces {
		if i < len(s.ids) {
			in.Placement[s.ids[i]] = pl.At
		}
	}
	for _, sheet := range plan.Sheets {
		in.Sheets = append(in.Sheets, scene.Page{Name: sheet.Name, Box: sheet.Window})
		for _, b := range sheet.Buttons {
			in.Buttons = append(in.Buttons, b.At)
		}
	}
}

// pagesView is the Pages panel.
func (s *printStep) pagesView(p model.Pattern, r string) panel.PagesView {
	plan := s.now().Plan
	v := panel.PagesView{
		Columns: max(1, plan.Cols), Page: -1, Unit: smallUnit(p.Unit), Wide: s.setup.Landscape,
		Overlap: amount(s.setup.Overlap, p.Unit), Margin: amount(s.setup.Margin, p.Unit), Paper: -1,
		Square: "Measure the 5 cm square before you cut.",
		Note:   s.why,
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
	v.Save = "Save PDF, " + pages
	v.Second = "Increment sheet ..."
	v.Shown = []panel.ToggleView{
		{Word: "New line, " + r, On: s.target},
		{Word: "Printed nest", On: s.choice.Nest},
		{Word: "Seam line", On: s.choice.Stitching},
		{Word: "Notches, marks", On: s.choice.Marks},
		{Word: "Joining buttons", On: s.buttons},
	}
	for _, size := range p.Chart.Sizes {
		v.Sizes = append(v.Sizes, panel.ToggleView{Word: size.Name, On: s.sizes[size.Name]})
	}
	return v
}

// chosen is the sizes chosen by name, in chart order.
func (s *printStep) chosen(p model.Pattern) []string {
	var out []string
	for _, size := range p.Chart.Sizes {
		if s.sizes[size.Name] {
			out = append(out, size.Name)
		}
	}
	return out
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
	if w.step != stepPrint || w.print.of < 0 {
		return "pages for your printer"
	}
	if w.print.why != "" {
		return "choose other paper"
	}
	return count(w.print.now().Pages(), "page")
}

func (w *Window) showPages(p model.Pattern) {
	if w.step != stepPrint {
		return
	}
	w.pages.SetView(w.print.pagesView(p, p.Target.NameOn(p.Chart)))
}

// connectPages turns the Pages panel's choices into new pages.
func (w *Window) connectPages() {
	anew := func() { w.print.stale(); w.refresh(); w.table.Fit() }
	length := func(to func(*tile.Setup, float64)) func(string) error {
		return func(text string) error {
			l, err := measure.Parse(text, bareUnit(w.doc.Pattern().Unit))
			if err != nil {
				return err
			}
			next := w.print.setup
			to(&next, l.MM())
			if err := next.Validate(); err != nil {
				return err
			}
			w.print.setup = next
			anew()
			return nil
		}
	}
	w.pages.OnPage = func(i int) {
		plan := w.print.now().Plan
		if plan.Cols > 0 {
			w.print.page = tile.SheetName(i/plan.Cols, i%plan.Cols)
			w.refresh()
		}
	}
	w.pages.OnPaper = func(i int) {
		w.print.setup.Paper = tile.Papers()[i]
		w.settings.Paper = w.print.setup.Paper.Name
		w.keepSettings()
		anew()
	}
	w.pages.OnWide = func(wide bool) { w.print.setup.Landscape = wide; anew() }
	w.pages.OnOverlap = length(func(s *tile.Setup, mm float64) { s.Overlap = mm })
	w.pages.OnMargin = length(func(s *tile.Setup, mm float64) { s.Margin = mm })
	w.pages.OnShown = func(i int, on bool) {
		*[]*bool{&w.print.target, &w.print.choice.Nest, &w.print.choice.Stitching, &w.print.choice.Marks, &w.print.buttons}[i] = on
		anew()
	}
	w.pages.OnSize = func(i int, on bool) {
		w.print.sizes[w.doc.Pattern().Chart.Sizes[i].Name] = on
		anew()
	}
	w.pages.OnSave = w.savePDF
	w.pages.OnSecond = w.allSheets
}
