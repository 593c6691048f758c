package ui

import (
	"cmp"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/app/edit"
	"quarterstep/app/trace"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/trace/follow"
)

// tracedMenu shows what can be done to what is traced under a right click: a
// mark, a corner or point of the line in hand, or its edge there. It is false
// where nothing is traced.
func (w *Window) tracedMenu(at geom.Point, reach float64, place fyne.Position) bool {
	if !w.tracingNow() {
		return false
	}
	if items := w.tracedItems(w.onPhoto(at), w.reachAt(at, reach)); len(items) > 0 {
		widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), w.win.Canvas(), place.AddXY(8, 8))
	}
	return true
}

// tracedItems is what can be done at a place of the photo.
func (w *Window) tracedItems(at geom.Point, reach float64) []*fyne.MenuItem {
	t := &w.paper.trace
	k, ok := w.tracing()
	if !ok || t.next.on {
		return nil
	}
	out := w.doubtItems(k, at, reach)
	if nth, name, ok := markAt(k, at, reach); ok {
		return append(out, fyne.NewMenuItem(words.F("Take this %s away", name), func() { w.do(words.F("take a %s away", name), edit.RemoveTracedMark(t.id, nth)) }))
	}
	if h := w.regrip(w.gripAt(at, reach)); h.on {
		t.picked = h
		w.showTrace()
		return append(out, w.pointItems(k, h)...)
	}
	if line, j, ok := w.edgeAt(at, reach); ok {
		return append(out, w.edgeItems(k, line, j, at)...)
	}
	return out
}

// doubtItems let a doubtful place be called right, once it has been looked at.
func (w *Window) doubtItems(k model.Tracing, at geom.Point, reach float64) []*fyne.MenuItem {
	t := &w.paper.trace
	const around = 14 // mm: what is marked as one place, and a little more
	near := func(d follow.Doubt) bool { return d.At.Dist(at) <= max(1.5*reach, around) }
	if !slices.ContainsFunc(t.allDoubts(k), near) {
		return nil
	}
	return []*fyne.MenuItem{
		fyne.NewMenuItem(words.T("I looked, the line is right here"), func() {
			for size, ds := range t.doubts {
				t.doubts[size] = slices.DeleteFunc(slices.Clone(ds), near)
			}
			w.refresh()
		}),
		fyne.NewMenuItemSeparator(),
	}
}

// pointItems is what can be done to a corner or a point on a curve.
func (w *Window) pointItems(k model.Tracing, h grip) []*fyne.MenuItem {
	t := w.paper.trace
	if h.corner < 0 {
		return []*fyne.MenuItem{fyne.NewMenuItem(words.T("Take this point off"), w.removePicked)}
	}
	items := []*fyne.MenuItem{fyne.NewMenuItem(words.F("Take this corner out of size %s", t.size), w.removePicked)}
	if line, _ := trace.LineOf(k, t.size); line.Closed && alikeSizes(k, line) > 1 {
		items = append(items, fyne.NewMenuItem(words.T("Take it out of every size"), func() { w.removeCornerEverywhere(line, h.corner) }))
	}
	return items
}

// edgeItems is what can be done to edge j of a line at a place on it.
func (w *Window) edgeItems(k model.Tracing, line model.TracedSize, j int, at geom.Point) []*fyne.MenuItem {
	t := w.paper.trace
	items := []*fyne.MenuItem{
		fyne.NewMenuItem(words.T("Add a corner here"), func() { w.addCorner(j, at) }),
		fyne.NewMenuItem(words.T("Add a point on the curve here"), func() { w.addCurvePoint(j, at) }),
	}
	if line.Closed && alikeSizes(k, line) > 1 {
		items = slices.Insert(items, 1, fyne.NewMenuItem(words.T("Add a corner here in every size"), func() { w.addCornerEverywhere(line, j, at) }))
	}
	now := edgeSaid(k, line, j)
	fold := fyne.NewMenuItem(words.T("On the fold"), func() { w.foldEdge(line.Size, j, now.Kind != model.Fold) })
	fold.Checked = now.Kind == model.Fold
	return append(
		items,
		fyne.NewMenuItemSeparator(),
		fyne.NewMenuItem(words.T("Make this edge straight"), func() {
			w.do(words.F("straighten an edge of size %s", t.size), edit.ReshapeEdge(t.id, t.size, j, geom.Path{geom.Line(line.Edges[j].Start(), line.Edges[j].End())}))
			w.refresh()
		}),
		fyne.NewMenuItem(words.T("Follow the printed line again"), func() { w.followAgain(k, line, j) }),
		fold,
		w.namesItem(line.Size, j, now),
	)
}

// edgeSaid is what was said of edge j of a line.
func edgeSaid(k model.Tracing, line model.TracedSize, j int) model.Edge {
	if len(k.Sizes) == 0 {
		return model.Edge{}
	}
	if i, ok := edit.SameTracedEdge(line, k.Sizes[0], j); ok && i < len(k.Edges) {
		return k.Edges[i]
	}
	return model.Edge{}
}

func (w *Window) foldEdge(size string, j int, on bool) {
	label := words.T("an edge on the fold")
	if !on {
		label = words.T("an edge off the fold")
	}
	w.do(label, edit.FoldTracedEdge(w.paper.trace.id, size, j, on))
	w.refresh()
}

// followAgain lets an edge follow the print anew.
func (w *Window) followAgain(k model.Tracing, line model.TracedSize, j int) {
	t := &w.paper.trace
	e := w.tracer().Edge(k, line, j, line.Corners[(j+1)%len(line.Corners)], nil)
	w.do(words.F("follow an edge of size %s again", t.size), edit.ReshapeEdge(t.id, t.size, j, e.Path))
	t.doubtAnew(t.size, line.Edges[j:j+1], e.Doubts)
	w.refresh()
}

// edgeNames are what an edge may be, as the menu lists them.
var edgeNames = []struct {
	name words.Text
	kind model.EdgeKind
}{
	{words.Text("neckline"), model.Plain},
	{words.Text("shoulder"), model.Plain},
	{words.Text("armhole"), model.Plain},
	{words.Text("side seam"), model.Plain},
	{words.Text("waist"), model.Plain},
	{words.Text("hem"), model.Hem},
	{words.Text("centre front"), model.Centre},
	{words.Text("centre back"), model.Centre},
	{words.Text("sleeve cap"), model.Plain},
	{words.Text("sleeve seam"), model.Plain},
	{words.Text("free edge"), model.Plain},
}

// namesItem says what an edge is.
func (w *Window) namesItem(size string, j int, now model.Edge) *fyne.MenuItem {
	item := fyne.NewMenuItem(words.T("This edge is the"), nil)
	item.ChildMenu = fyne.NewMenu("")
	for _, e := range edgeNames {
		name := e.name.String()
		choice := fyne.NewMenuItem(name, func() {
			w.do(words.F("call an edge %s", name), edit.NameEdgeOfSize(w.paper.trace.id, size, j, name, e.kind))
			w.refresh()
		})
		choice.Checked = now.Name == name || now.Name == string(e.name)
		item.ChildMenu.Items = append(item.ChildMenu.Items, choice)
	}
	return item
}

// markAt is the mark of a tracing within reach mm of a place, as
// edit.RemoveTracedMark counts them, and what it is called.
func markAt(k model.Tracing, at geom.Point, reach float64) (nth int, name string, ok bool) {
	const tol = 0.1
	n := 0
	near := func(path geom.Path, word string) {
		if _, _, d := path.Nearest(at, tol); d <= reach {
			nth, name, ok, reach = n, word, true, d
		}
		n++
	}
	for _, l := range k.Lines {
		near(l.Drawn[0].Path, lineWord(l.Kind).String())
	}
	for _, m := range k.Notches {
		near(geom.Polyline(m.At, m.At.Add(geom.Vec{Y: tol})), words.T("notch"))
	}
	for _, d := range k.Darts {
		near(geom.Polyline(d.From, d.Apex, d.To), words.T("dart"))
	}
	return nth, name, ok
}

// lineWord is what a kind of line is called.
func lineWord(kind model.LineKind) words.Text {
	said := map[model.LineKind]words.Text{
		model.Grain: "grain line", model.Lengthen: "lengthen line", model.BustLine: "bust line",
		model.WaistLine: "waist line", model.HipLine: "hip line",
	}
	return cmp.Or(said[kind], words.Text("line"))
}
