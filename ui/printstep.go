package ui

import (
	"context"
	"maps"
	"slices"
	"time"

	"fyne.io/fyne/v2"

	"quarterstep/app"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/printing/tile"
	"quarterstep/ui/board"
	"quarterstep/ui/scene"
)

// printStep is the Print step: how the sewist wants the pages, and the pages
// worked out for the pattern as it was last shown.
type printStep struct {
	setup   tile.Setup
	choice  app.PrintChoice
	target  bool            // print the size wanted
	sizes   map[string]bool // sizes chosen besides
	without map[string]bool // pieces left out, by ID
	page    string
	noNames bool // the Table leaves out the pages' names
	noGlue  bool // and where they lie over each other

	planned
	of    int                // serial of the pattern the job is of; -1 for none
	asked int                // counts the plans asked for
	under bool               // a plan is being worked out
	stop  context.CancelFunc // working it out
	then  func()             // what is to be done with it
	moved bool               // pieces were moved by hand since
	shown *app.Job
}

// newPrintStep is for the paper last printed on, or the usual one, with the usual
// margin; see app.PrintSetup.
func newPrintStep(paper string) printStep {
	s, err := app.PrintSetup(paper, "", "")
	if err != nil {
		s, _ = app.PrintSetup(atHome.paper, "", "")
	}
	return printStep{
		setup: s, of: -1, target: true, sizes: map[string]bool{}, without: map[string]bool{},
		choice: app.PrintChoice{Marks: true, Stitching: true},
	}
}

// stale drops the pages worked out so far; they show until the new ones are
// there.
func (s *printStep) stale() { s.of, s.shown = -1, nil }

// chosen is what goes on paper.
func (s *printStep) chosen(p model.Pattern) app.PrintChoice {
	c := s.choice
	c.WithTarget, c.Date = s.target, time.Now().Format(time.DateOnly)
	for _, size := range p.Chart.Sizes {
		if s.sizes[size.Name] {
			c.Sizes = append(c.Sizes, size.Name)
		}
	}
	for _, q := range p.Pieces {
		if len(s.without) > 0 && !s.without[q.ID] {
			c.Pieces = append(c.Pieces, q.ID)
		}
	}
	return c
}

// nothing says what is missing for anything to be printed; empty for nothing.
func (s *printStep) nothing(p model.Pattern, c app.PrintChoice) string {
	switch {
	case len(p.Pieces) == 0:
		return words.T("Bring in a pattern first.")
	case len(c.Sizes) == 0 && !s.target:
		return words.T("Choose at least one size to print.")
	case len(s.without) > 0 && len(c.Pieces) == 0:
		return words.T("Choose at least one piece to print.")
	}
	return ""
}

// planned is pages worked out.
type planned struct {
	job     app.Job
	ids     []string // of the job's pieces, in its order
	changed []string // pages that were not printed so before; nil where none was printed
	why     string   // what keeps it from printing
}

// planOf works pages out, like those printed before as far as they serve, and
// holds them against them.
func planOf(watch app.Watch, p model.Pattern, c app.PrintChoice, setup tile.Setup, before app.Printed) planned {
	job, err := watch.PlanLike(p, c, setup, before)
	if err != nil {
		return planned{why: sentence(err.Error())}
	}
	out := planned{job: job, ids: job.Pieces()}
	if len(before.Pages) > 0 {
		if out.changed, err = job.ChangedPages(before); err != nil {
			return planned{why: sentence(err.Error())}
		}
	}
	return out
}

// setup is how the sheets lie, corrected for the printer chosen.
func (w *Window) setup() tile.Setup {
	return app.SetupFor(w.settings, w.printerName(), w.print.setup)
}

// planPages works the pages out for the document beside the window, unless they
// are at hand.
func (w *Window) planPages() {
	s := &w.print
	if s.of == w.docSerial {
		return
	}
	p := w.doc.Pattern()
	for id := range s.without {
		if p.PieceIndex(id) < 0 {
			delete(s.without, id)
		}
	}
	c, setup, before := s.chosen(p), w.setup(), w.printedFile()
	s.of, s.shown = w.docSerial, nil
	s.asked++
	s.leave()
	if why := s.nothing(p, c); why != "" {
		s.take(planned{why: why})
		return
	}
	s.under = true
	ctx, stop := context.WithCancel(context.Background())
	s.stop = stop
	asked := s.asked
	besideWindow(func() {
		var got planned
		if err := guarded(func() error { got = planOf(app.Watch{Context: ctx}, p, c, setup, printedIn(before)); return nil }); err != nil {
			got = planned{why: sentence(err.Error())}
		}
		fyne.Do(func() {
			if w.print.asked != asked {
				return
			}
			w.print.take(got)
			w.refresh()
			w.table.Fit()
			if then := w.print.then; then != nil {
				w.print.then = nil
				if w.step == stepPrint {
					w.withPages(then)
				}
			}
		})
	})
}

// leave stops a plan that is being worked out, which nobody waits for any more.
func (s *printStep) leave() {
	if s.stop != nil {
		s.stop()
		s.stop = nil
	}
}

// besideWindow does work that takes longer than a frame while the window goes
// on. Tests, whose toolkit has no thread of its own for the window, do it at once.
var besideWindow = func(work func()) { go work() }

func (s *printStep) take(got planned) {
	s.planned, s.under, s.moved, s.shown = got, false, false, nil
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
	if i < 0 || s.why != "" || s.under {
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

// turnPiece turns the piece in hand the other way up on the pages.
func (w *Window) turnPiece() {
	s := &w.print
	i := slices.Index(s.ids, w.hand.Piece)
	if i < 0 || s.why != "" || s.under {
		w.say(words.T("Pick a piece on the pages first, then turn it."))
		return
	}
	next, err := s.job.Turn(i)
	if err != nil {
		w.say(sentence(err.Error()))
		return
	}
	s.job, s.moved = next, true
	w.compare()
	w.refresh()
}

// compare holds the pages, arranged by hand, against those printed before.
func (w *Window) compare() {
	s := &w.print
	job, file, asked := s.job, w.printedFile(), s.asked
	if file == "" {
		return
	}
	changed, printed := []string(nil), false
	away(func() (err error) {
		before := printedIn(file)
		if printed = len(before.Pages) > 0; printed {
			changed, err = job.ChangedPages(before)
		}
		return err
	}, func(err error) {
		if err == nil && printed && w.print.asked == asked {
			w.print.changed = changed
			w.showPages(w.doc.Pattern())
		}
	})
}

// onTable adds the pages and the pieces' places on them to what the Table
// shows.
func (s *printStep) onTable(in *scene.Input) {
	if s.why != "" {
		return
	}
	plan := s.now().Plan
	in.Names, in.Glue, in.Page = !s.noNames, !s.noGlue, s.page
	in.Nest, in.Seam, in.Select = s.choice.Nest, s.choice.Stitching, scene.Ref{Piece: in.Select.Piece}
	in.Placement = map[string]geom.Affine{}
	for i, pl := range plan.Pieces {
		if i < len(s.ids) {
			in.Placement[s.ids[i]] = pl.At
		}
	}
	*in = in.Only(s.ids)
	for _, sheet := range plan.Sheets {
		in.Sheets = append(in.Sheets, scene.Page{Name: sheet.Name, Box: sheet.Window})
		for _, b := range sheet.Buttons {
			in.Buttons = append(in.Buttons, b.At)
		}
	}
	for row := range plan.Rows {
		for col := range plan.Cols {
			if _, there := plan.At(row, col); !there {
				in.Sheets = append(in.Sheets, scene.Page{Name: tile.SheetName(row, col), Box: plan.Blank(row, col), Blank: true})
			}
		}
	}
}

// pageSay says which page is in hand and which lie beside it; empty for none.
func (s *printStep) pageSay() string {
	if s.page == "" || s.why != "" {
		return ""
	}
	for _, sheet := range s.now().Plan.Sheets {
		if sheet.Name != s.page {
			continue
		}
		beside := slices.DeleteFunc(slices.Clone(sheet.Beside[:]), func(name string) bool { return name == "" })
		if len(beside) == 0 {
			return words.F("Page *%s*", s.page)
		}
		return words.F("Page *%s*, joins %s", s.page, listed(beside))
	}
	return ""
}

// leaveOut leaves piece i out of what is printed, or takes it in again.
func (s *printStep) leaveOut(p model.Pattern, i int, out bool) {
	s.without = maps.Clone(s.without)
	if out {
		s.without[p.Pieces[i].ID] = true
	} else {
		delete(s.without, p.Pieces[i].ID)
	}
}
