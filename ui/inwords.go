package ui

import (
	"fmt"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/measure"
)

// copyWords puts in the clipboard what the window shows, in words, for those who
// read with something else than their eyes, or want to keep it.
func (w *Window) copyWords() {
	w.app.Clipboard().SetContent(w.inWords())
	w.say(words.T("Copied in words: the pieces, the size, what is in hand, the checks."))
}

// inWords is what the window shows: the step, the pieces with their size, what
// is in hand with its figures, and every check.
func (w *Window) inWords() string {
	p, r := w.doc.Pattern(), w.doc.Result()
	var b strings.Builder
	line := func(text string) { fmt.Fprintln(&b, text) }
	rail := w.railView(p, r, len(ordered(w.report()))+len(w.doubts))
	line(strings.TrimSpace(rail.Pattern + " " + rail.Wearer))
	for i, s := range rail.Steps {
		if i == w.step {
			line(words.F("Step %d, %s: %s (here)", i+1, s.Name, s.State))
		} else {
			line(words.F("Step %d, %s: %s", i+1, s.Name, s.State))
		}
	}
	if len(p.Pieces) == 0 {
		return b.String()
	}
	if len(p.Chart.Sizes) > 0 {
		line(sizeLine(p, r))
	}
	line("\n" + words.T("Pieces on the Table"))
	for i, q := range p.Pieces {
		size := r.Pieces[i].Outline().Bounds()
		line(words.F("%s: %s, %s wide, %s high", q.Name, pieceLine(p, q, r.Pieces[i]),
			measure.FormatPlace(size.Width(), p.Unit), measure.FormatPlace(size.Height(), p.Unit)))
	}
	w.printInWords(p, line)
	w.handInWords(p, r, line)
	line("\n" + words.T("Checks") + "\n" + strings.TrimSpace(w.checks.Text()))
	return b.String()
}

// printInWords says what goes on paper at the Print step, and what is left out.
func (w *Window) printInWords(p model.Pattern, line func(string)) {
	if w.step != stepPrint {
		return
	}
	v := w.print.pagesView(p, p.Target.NameOn(p.Chart))
	line("\n" + words.T("Pages") + "\n" + v.Count)
	var pages, pieces []string
	for _, page := range v.Pages {
		if page.Blank {
			pages = append(pages, page.Name)
		}
	}
	if len(pages) > 0 {
		line(words.F("Pages left out: %s", listed(pages)))
	}
	for _, q := range v.Pieces {
		if !q.On {
			pieces = append(pieces, q.Word)
		}
	}
	if len(pieces) > 0 {
		line(words.F("Pieces left out: %s", listed(pieces)))
	}
	for _, s := range v.Shown {
		if !s.On {
			line(words.F("Not printed: %s", s.Word))
		}
	}
	if w.print.page != "" {
		line(words.F("Page in hand: %s", w.print.page))
	}
}

// handInWords says what is in hand: the edge with its increments and the grade
// points at its ends.
func (w *Window) handInWords(p model.Pattern, r grading.Result, line func(string)) {
	i, j, k := w.inHand(p)
	if i < 0 {
		return
	}
	line("\n" + words.F("In hand: %s of %s", w.refName(w.hand), p.Pieces[i].Name))
	v := incrementsView(p, r, i, j, k)
	if v.Empty != "" {
		return
	}
	line(v.Edges[v.Edge] + ": " + v.EdgeNote)
	for _, g := range v.Gaps {
		line(words.F("Printed gap %s: %s %s", g.Between, g.Gap, v.Unit))
	}
	line(v.Past + ": " + v.Total + " " + v.Unit)
	for _, c := range v.Choices {
		line(c.Name + ": " + strings.Trim(c.How+", "+c.Figure, ", "))
	}
	for _, pt := range v.Points {
		line(words.F("%s: out %s %s, down %s %s", pt.Name, pt.Out, v.Unit, pt.Down, v.Unit))
	}
}
