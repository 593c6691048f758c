package ui

import (
	"time"

	"fyne.io/fyne/v2"

	"quarterstep/app"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/ui/panel"
	"quarterstep/ui/stopwatch"
)

// The panels are shown part by part: what the sewist looks at with the Table, the
// rest in the frames that follow, so that no frame keeps her waiting. What waits is
// the same document as it is by then; while she drags it goes on waiting.

// inOneFrame is how long panels are shown before the frame is drawn; what waits
// then, waits for the next.
var inOneFrame = 12 * time.Millisecond

// nextFrame does work after a frame has been drawn. Tests, whose toolkit has no
// thread of its own for the window, do it at once.
var nextFrame = func(work func()) {
	time.AfterFunc(time.Second/50, func() { fyne.Do(work) })
}

// part is one panel, or what is as quickly shown. The content of a folded panel
// can wait, and so can what has folds nil but waits set.
type part struct {
	name  string
	fold  *panel.Fold
	waits bool
	show  func(now document)
}

// document is the document as shown, with what checking it says.
type document struct {
	model.Pattern
	grading.Result
	app.Report
}

// soon reports that a part is looked at with the Table.
func (p part) soon() bool {
	if p.fold != nil {
		return p.fold.Open() && p.fold.Visible()
	}
	return !p.waits
}

// showPanels shows what is looked at now, and has the rest wait.
func (w *Window) showPanels() {
	all := w.panelParts()
	w.rest = w.rest[:0]
	for _, p := range all {
		if p.soon() {
			w.rest = append(w.rest, p)
		}
	}
	first := len(w.rest)
	for _, p := range all {
		if !p.soon() {
			w.rest = append(w.rest, p)
		}
	}
	w.showParts(first)
}

// showParts shows the first parts that wait, and of those after them what a frame
// has room for.
func (w *Window) showParts(first int) {
	began := time.Now()
	now := document{w.doc.Pattern(), w.doc.Result(), w.report()}
	w.showing = true
	for len(w.rest) > 0 && (first > 0 || time.Since(began) < inOneFrame) {
		p := w.rest[0]
		w.rest = w.rest[1:]
		end := stopwatch.Lap(p.name)
		p.show(now)
		end()
		first--
	}
	w.showing = false
	w.relaySide()
	if len(w.rest) > 0 && !w.restAsked {
		w.restAsked = true
		nextFrame(w.showRest)
	}
}

// showRest goes on with what waits, unless a drag is under way: what follows it
// shows all anew.
func (w *Window) showRest() {
	w.restAsked = false
	if len(w.rest) > 0 && !w.doc.Previewing() {
		defer stopwatch.Lap("rest")()
		w.showParts(0)
	}
}

// settle shows all that waits, before something is done to it by its number.
func (w *Window) settle() {
	if len(w.rest) > 0 && !w.doc.Previewing() {
		w.showParts(len(w.rest))
	}
}

// panelParts are the panels, in the order in which they are looked at.
func (w *Window) panelParts() []part {
	hand := func() (int, int, int) { return w.inHand(w.doc.Pattern()) }
	return []part{
		{name: "increments", fold: w.folds["Increments"], show: func(now document) {
			i, j, k := hand()
			w.increments.SetView(w.withMate(incrementsView(now.Pattern, now.Result, i, j, k)))
		}},
		{name: "pages", fold: w.folds["Pages"], show: func(now document) { w.showPages(now.Pattern) }},
		{name: "length", show: func(document) { w.showLength() }},
		{name: "growth", show: func(document) { w.showGrowth() }},
		{name: "dart", show: func(now document) { w.showDart(now.Pattern, now.Result) }},
		{name: "photo", show: func(document) { w.showPhoto() }},
		{name: "strip", show: func(now document) {
			w.strip.SetView(w.withTraced(stripView(now.Pattern, now.Result, w.charts())))
		}},
		{name: "tools", show: func(document) { w.tools.SetView(w.toolsView()) }},
		{name: "start", show: func(now document) {
			w.showStart(now.Pattern)
			w.showTour(now.Pattern)
		}},
		{name: "folds", show: func(now document) {
			i, _, _ := hand()
			w.foldStates(now.Pattern, now.Result, w.toLookAt(now.Report), i)
		}},
		{name: "links", fold: w.folds["Links"], show: func(now document) {
			w.proposals.SetView(w.proposalsView(now.Pattern))
			w.links.SetView(w.linksView(now.Pattern, now.Result))
		}},
		{name: "checks", fold: w.folds["Checks"], show: func(document) { w.checks.SetView(w.checksShown()) }},
		{name: "byEye", fold: w.folds["By eye"], show: func(now document) {
			i, j, k := hand()
			w.byEye.SetView(byEyeView(now.Pattern, now.Result, i, j, k))
		}},
		{name: "wearer", fold: w.folds["Wearer"], show: func(now document) {
			w.wearer.SetView(wearerView(now.Pattern, now.Result, now.Report, w.checkingLong(), w.body.own))
		}},
		{name: "rail", waits: true, show: func(now document) {
			w.rail.SetView(w.railView(now.Pattern, now.Result, w.toLookAt(now.Report)))
		}},
		{name: "shelf", waits: true, show: func(now document) {
			w.shelf.SetView(w.shelfView(now.Pattern, now.Result, now.Report))
		}},
	}
}

// toLookAt counts what the sewist is asked to look at.
func (w *Window) toLookAt(report app.Report) int { return len(ordered(report)) + len(w.doubts) }
