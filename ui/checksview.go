package ui

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"fyne.io/fyne/v2"

	"quarterstep/app"
	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/grading/check"
	"quarterstep/model"
	"quarterstep/ui/panel"
	"quarterstep/ui/scene"
)

// checksView is the Checks panel: what to look at, what was doubtful when the
// nest was brought in, then every check that found nothing. looked is the
// finding in hand.
func checksView(p model.Pattern, report app.Report, doubts []string, looked string) panel.ChecksView {
	v := panel.ChecksView{Empty: words.T("Nothing to check yet."), Chosen: -1}
	if len(p.Pieces) == 0 {
		return v
	}
	for i, f := range ordered(report) {
		if looked == keyOf(f) {
			v.Chosen = i
		}
		view := panel.FindingView{What: f.What, HowMuch: f.Much, Help: f.Help}
		if f.Found.Action.Do != check.Show {
			view.Do = f.Action.Label
		}
		if strings.TrimSuffix(view.Help, ".") == view.Do {
			view.Help = "" // its button says it
		}
		v.Findings = append(v.Findings, view)
	}
	for _, d := range doubts {
		v.Findings = append(v.Findings, panel.FindingView{
			What: d, Help: words.T("Add a grade point with the Point tool, or take the one in hand out with Delete."),
		})
	}
	for _, k := range report.Checks {
		if !k.Look {
			v.Fine = append(v.Fine, panel.FineView{Title: k.Title, Say: k.Say})
		}
	}
	for _, l := range check.Limits() {
		now := check.LimitOf(p, l.Name)
		view := panel.LimitView{
			Title: l.Title, Figure: app.LimitFigure(p, l, now), Unit: app.LimitUnit(p, l),
			Source: fmt.Sprintf("%s (%s)", l.Source, l.Status),
		}
		if now != l.Default {
			view.Usual = app.LimitShown(p, l, l.Default)
		}
		v.Limits = append(v.Limits, view)
	}
	return v
}

// ordered is the findings that want looking at. What is only said for
// information stays out of the panel, and so does a second word on a girth:
// that the chart outgrows the steps is why its ease is lost.
func ordered(report app.Report) []app.Finding {
	var out []app.Finding
	said := map[string]bool{}
	for _, f := range report.Findings {
		if !f.Look || f.Girth != "" && said[f.Girth] {
			continue
		}
		said[f.Girth] = true
		out = append(out, f)
	}
	return out
}

// keyOf tells a finding from all others, as long as it is found.
func keyOf(f app.Finding) string {
	g := f.Found
	return strings.Join([]string{g.Code, g.Piece, g.Edge, g.Point, g.Link, string(g.Measure)}, "/")
}

// faults is where the Table marks what to look at, numbered as in the panel.
func faults(report app.Report) []scene.Fault {
	var out []scene.Fault
	for i, f := range ordered(report) {
		g := f.Found
		if g.Piece == "" {
			continue
		}
		mark := scene.Fault{
			Ref: scene.Ref{Piece: g.Piece, Edge: g.Edge, Point: g.Point}, At: g.Where, Number: i + 1,
		}
		for _, b := range g.Along {
			mark.Along = append(mark.Along, scene.Along{Edge: b.Edge, Line: b.Line})
		}
		out = append(out, mark)
	}
	return out
}

// faultsOn counts what to look at on a piece.
func faultsOn(report app.Report, piece string) int {
	n := 0
	for _, f := range ordered(report) {
		if f.Found.Piece == piece {
			n++
		}
	}
	return n
}

func (w *Window) connectChecks() {
	w.checks.OnShow = w.showFinding
	w.checks.OnDo = w.doFinding
	w.checks.OnCopy = func(text string) { w.app.Clipboard().SetContent(text) }
	w.checks.OnLimit = w.typedLimit
	w.checks.OnUsual = func(i int) {
		l := check.Limits()[i]
		w.do(words.T("set a limit as usual"), edit.ResetLimit(l.Name))
	}
	w.checks.OnGrown = w.relaySide
}

// showFinding brings the place of a finding into sight and puts it in hand; a
// finding about the whole pattern shows all of it.
func (w *Window) showFinding(n int) {
	found := ordered(w.report())
	if n >= len(found) {
		return
	}
	g := found[n].Found
	w.looked = keyOf(found[n])
	p := w.doc.Pattern()
	i := p.PieceIndex(g.Piece)
	if i < 0 {
		w.refresh()
		w.table.Fit()
		return
	}
	w.hand = scene.Ref{Piece: g.Piece, Edge: g.Edge, Point: g.Point}
	w.refresh()
	w.table.Centre(w.placeOnTable(p.Pieces[i].ID, g.Where))
}

// showNext shows the finding after the one in hand, the first after the last.
func (w *Window) showNext() {
	found := ordered(w.report())
	next := 0
	for i, f := range found {
		if keyOf(f) == w.looked {
			next = (i + 1) % len(found)
		}
	}
	w.showFinding(next)
}

// doFinding does what a finding offers.
func (w *Window) doFinding(n int) {
	found := ordered(w.report())
	if n >= len(found) {
		return
	}
	w.do(lower(found[n].Action.Label), edit.Act(found[n].Found.Action))
}

// lower is words without their capital, for "Undo ...".
func lower(text string) string {
	if text == "" || words.Capitals() {
		return text
	}
	r, n := utf8.DecodeRuneInString(text)
	return string(unicode.ToLower(r)) + text[n:]
}

// typedLimit sets a limit to what was typed; the usual figure sets it free.
func (w *Window) typedLimit(i int, text string) error {
	p := w.doc.Pattern()
	l := check.Limits()[i]
	v, err := app.ReadLimit(p, l, text)
	if err != nil {
		return err
	}
	if app.LimitFigure(p, l, v) == app.LimitFigure(p, l, l.Default) {
		return w.doc.Do(words.T("set a limit as usual"), edit.ResetLimit(l.Name))
	}
	return w.doc.Do(words.T("set a limit"), edit.SetLimit(l.Name, v))
}

// showsChecks answers Enter where the Checks panel is open.
func (w *Window) showsChecks(e *fyne.KeyEvent) bool {
	if e.Name != fyne.KeyReturn && e.Name != fyne.KeyEnter || !w.folds["Checks"].Open() {
		return false
	}
	w.showNext()
	return true
}
