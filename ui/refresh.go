package ui

import (
	"fmt"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/panel"
	"quarterstep/ui/scene"
	"quarterstep/ui/stopwatch"
	"quarterstep/ui/theme"
)

// refresh shows the document as it is now, everywhere: the Table first, the panels
// as frames have room for them.
func (w *Window) refresh() {
	defer stopwatch.Lap("refresh")()
	p, r := w.doc.Pattern(), w.doc.Result()
	w.keepHand(p)
	w.keepLink(p, r)
	w.keepMaking(p)
	w.keepPhotos(p)
	w.keepTracing(p)
	w.restPhotos(w.doc.Pattern())
	if w.step == stepPrint {
		w.planPages()
	}
	w.table.SetUnit(p.Unit)
	w.showTable(p, r)
	w.showTrue(p, r)
	w.win.SetTitle(w.title())
	w.showPanels()
	w.showStatus()
}

// refreshAside is refresh for what was worked out beside the window: the hand did
// nothing, so what the status bar says stays.
func (w *Window) refreshAside() {
	says := w.says
	w.refresh()
	if says != "" && w.says == "" {
		w.say(says)
	}
}

// relaySide stacks the side panels anew when one of them grew or shrank. While
// all of them are shown anew it waits until they have been.
func (w *Window) relaySide() {
	if w.showing {
		return
	}
	var high float32
	for _, f := range w.folds {
		if f.Visible() {
			high += f.MinSize().Height
		}
	}
	if high == w.sideHigh {
		return
	}
	w.sideHigh = high
	w.side.Resize(w.side.Size().AddWidthHeight(0, 1))
	w.side.Resize(w.side.Size().SubtractWidthHeight(0, 1))
	for _, f := range w.folds {
		if f.Visible() {
			f.Relay()
		}
	}
}

// quick shows a preview under way: the Table and the figures, not the rest.
func (w *Window) quick() {
	defer stopwatch.Lap("preview")()
	p, r := w.doc.Pattern(), w.doc.Result()
	w.showTable(p, r)
	if w.step == stepTrue {
		w.showTrue(p, r)
		w.links.SetView(w.linksView(p, r))
	}
	i, j, k := w.inHand(p)
	w.increments.SetView(w.withMate(incrementsView(p, r, i, j, k)))
	w.strip.SetView(w.withTraced(stripView(p, r, w.charts())))
	w.showDart(p, r)
	w.showLength()
}

func (w *Window) showTable(p model.Pattern, r grading.Result) {
	w.table.SetScene(w.sceneOf(p, r))
}

// sceneOf is what the Table shows.
func (w *Window) sceneOf(p model.Pattern, r grading.Result) scene.Input {
	defer stopwatch.Lap("input")()
	in := scene.Input{Pattern: p, Result: r, Select: w.hand, Nest: w.nest, Seam: w.seam, Sewn: w.sewn, Rooms: w.rooms}
	if w.step == stepPrint {
		w.print.onTable(&in)
		return in
	}
	if w.photoOnTable(&in) {
		return in
	}
	w.photosUnder(&in)
	in.Closed = w.closedDarts(p, r)
	if !w.doc.Busy() { // the grader is at work elsewhere
		w.others = others{ghost: w.ghost(p), guides: w.guides(p)}
	}
	in.Ghost, in.Guides, in.Lengthen = w.others.ghost, w.others.guides, w.lengthens(p)
	if !w.doc.Previewing() { // what to look at waits for the end of a drag
		w.faults = faults(w.report())
	}
	in.Look = w.faults
	if !w.proposalOnTable(&in) && w.step == stepTrue {
		in.Ghost, in.Guides = nil, nil
		w.trueOnTable(&in)
	}
	return in
}

// ghost is the line of the method not in force, for the piece in hand.
func (w *Window) ghost(p model.Pattern) map[string][]geom.Path {
	other := p
	other.Target.Method = model.BySteps
	if p.Target.Method == model.BySteps {
		other.Target.Method = model.ByChart
	}
	r, err := w.doc.Grader().Grade(other)
	if err != nil || len(r.Short) == 0 {
		return nil
	}
	i := p.PieceIndex(w.hand.Piece)
	if i < 0 {
		return nil
	}
	return map[string][]geom.Path{w.hand.Piece: r.Pieces[i].Edges}
}

// keepHand lets go of what is no longer there.
func (w *Window) keepHand(p model.Pattern) {
	i := p.PieceIndex(w.hand.Piece)
	if i < 0 {
		w.hand = scene.Ref{}
		return
	}
	q := p.Pieces[i]
	if cutIndex(q, w.hand.Cut) < 0 {
		w.hand.Cut = ""
	}
	if !hasLine(q, w.hand.Line) {
		w.hand.Line = ""
	}
	if q.EdgeIndex(w.hand.Edge) < 0 && w.hand.Cut == "" && w.hand.Line == "" {
		w.hand.Edge, w.hand.Control = "", 0
	}
	if dartOf(q, scene.Ref{Dart: w.hand.Dart}) < 0 {
		w.hand.Dart = ""
	}
	if q.PointIndex(w.hand.Point) < 0 {
		w.hand.Point = ""
	}
}

// inHand is the piece, edge and point in hand as indices, -1 for none. A point
// in hand without an edge brings the edge that starts there.
func (w *Window) inHand(p model.Pattern) (piece, edge, point int) {
	piece = p.PieceIndex(w.hand.Piece)
	if piece < 0 {
		return -1, -1, -1
	}
	q := p.Pieces[piece]
	edge, point = q.EdgeIndex(w.hand.Edge), q.PointIndex(w.hand.Point)
	if edge < 0 && point >= 0 {
		edge = point
	}
	return piece, edge, point
}

func (w *Window) foldStates(p model.Pattern, r grading.Result, look, piece int) {
	name := words.T("after Sizes")
	switch {
	case piece >= 0:
		name = p.Pieces[piece].Name
	case len(p.Pieces) > 0:
		name = words.T("pick an edge")
	}
	w.folds["Increments"].SetState(name, false)
	w.folds["By eye"].SetState(correctedLine(p), false)
	w.folds["Wearer"].SetState(ownLine(p))
	linked, off := linkedLine(p, r)
	if n := len(w.finds.found); n > 0 && !off {
		linked = words.F("%d found", n)
	}
	w.folds["Links"].SetState(linked, off)
	checks := words.T("all fine")
	if len(p.Pieces) == 0 {
		checks = words.T("nothing to check yet")
	}
	if look > 0 {
		checks = words.F("%d to look at", look)
	}
	if w.checking() {
		checks = words.T("checking ...")
	}
	w.folds["Checks"].SetState(checks, look > 0)
	w.folds["Pages"].SetState(w.pagesLine(), false)
}

func percent(v float64) string { return fmt.Sprintf("%.0f %%", v) }

func (w *Window) title() string {
	name := w.doc.Pattern().Name
	if name == "" {
		name = words.T("New pattern")
	}
	if w.doc.Dirty() {
		name += " *"
	}
	return name + " – Quarterstep"
}

func (w *Window) toolsView() panel.ToolsView {
	if w.withPhoto() {
		return panel.ToolsView{
			Tools: w.photoToolViews(), Chosen: slices.Index(photoTools, w.table.Tool()),
			Toggles: w.toggleViews(), Zoom: percent(w.table.Percent()),
		}
	}
	tools := []panel.ToolView{
		{Name: theme.Pointer, Word: words.T("Move"), Hint: words.T("Move a point or an edge (M)")},
		{Name: theme.Slide, Word: words.T("Slide"), Hint: words.T("Slide the Table (S, or hold Space)")},
		{Name: theme.Measure, Word: words.T("Measure"), Hint: words.T("Measure from place to place (R)")},
		{Name: theme.AddPoint, Word: words.T("Point"), Hint: words.T("Add a grade point on an edge; at a printed size, click beside the point in hand to mend its corner (P)")},
	}
	if w.step == stepPrint {
		tools[0] = panel.ToolView{Name: theme.Pointer, Word: words.T("Arrange"), Hint: words.T("Move a piece between the pages (M)")}
		tools[3] = panel.ToolView{Name: theme.Turn, Word: words.T("Turn piece"), Hint: words.T("Turn the piece in hand the other way up; its grain stays")}
	}
	return panel.ToolsView{
		Tools: tools, Chosen: chosenTool(w.table.Tool()),
		Toggles: w.toggleViews(), Zoom: percent(w.table.Percent()),
	}
}

// newSewn remembers stitching lines; those of very many curves are worked out beside the
// window.
func (w *Window) newSewn() *scene.Sewn {
	return &scene.Sewn{Aside: func(work, done func()) {
		doc := w.doc
		away(func() error {
			work()
			return nil
		}, func(err error) {
			if done(); err == nil && w.doc == doc {
				nextFrame(func() { w.showTable(w.doc.Pattern(), w.doc.Result()) })
			}
		})
	}}
}
