package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"quarterstep/app/edit"
	"quarterstep/app/trace"
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
	if items := w.tracedItems(w.onPhoto(at), reach); len(items) > 0 {
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
		return append(out, fyne.NewMenuItem("Take this "+name+" away", func() { w.do("take a "+name+" away", edit.RemoveTracedMark(t.id, nth)) }))
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
		fyne.NewMenuItem("I looked, the line is right here", func() {
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
		return []*fyne.MenuItem{fyne.NewMenuItem("Take this point off", w.removePicked)}
	}
	items := []*fyne.MenuItem{fyne.NewMenuItem("Take this corner out of size "+t.size, w.removePicked)}
	if line, _ := trace.LineOf(k, t.size); line.Closed && alikeSizes(k, line) > 1 {
		items = append(items, fyne.NewMenuItem("Take it out of every size", func() { w.removeCornerEverywhere(line, h.corner) }))
	}
	return items
}

// edgeItems is what can be done to edge j of a line at a place on it.
func (w *Window) edgeItems(k model.Tracing, line model.TracedSize, j int, at geom.Point) []*fyne.MenuItem {
	t := w.paper.trace
	items := []*fyne.MenuItem{
		fyne.NewMenuItem("Add a corner here", func() { w.addCorner(j, at) }),
		fyne.NewMenuItem("Add a point on the curve here", func() { w.addCurvePoint(j, at) }),
	}
	if line.Closed && alikeSizes(k, line) > 1 {
		items = slices.Insert(items, 1, fyne.NewMenuItem("Add a corner here in every size", func() { w.addCornerEverywhere(line, j, at) }))
	}
	now := edgeSaid(k, line, j)
	fold := fyne.NewMenuItem("On the fold", func() { w.foldEdge(line.Size, j, now.Kind != model.Fold) })
	fold.Checked = now.Kind == model.Fold
	return append(
		items,
		fyne.NewMenuItemSeparator(),
		fyne.NewMenuItem("Make this edge straight", func() {
			w.do("straighten an edge of size "+t.size, edit.ReshapeEdge(t.id, t.size, j, geom.Path{geom.Line(line.Edges[j].Start(), line.Edges[j].End())}))
			w.refresh()
		}),
		fyne.NewMenuItem("Follow the printed line again", func() { w.followAgain(k, line, j) }),
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
	label := "an edge on the fold"
	if !on {
		label = "an edge off the fold"
	}
	w.do(label, edit.FoldTracedEdge(w.paper.trace.id, size, j, on))
	w.refresh()
}

// followAgain lets an edge follow the print anew.
func (w *Window) followAgain(k model.Tracing, line model.TracedSize, j int) {
	t := &w.paper.trace
	e := w.tracer().Edge(k, line, j, line.Corners[(j+1)%len(line.Corners)], nil)
	w.do("follow an edge of size "+t.size+" again", edit.ReshapeEdge(t.id, t.size, j, e.Path))
	t.doubtAnew(t.size, line.Edges[j:j+1], e.Doubts)
	w.refresh()
}

// edgeNames are what an edge may be, as the menu lists them.
var edgeNames = []struct {
	name string
	kind model.EdgeKind
}{
	{"neckline", model.Plain},
	{"shoulder", model.Plain},
	{"armhole", model.Plain},
	{"side seam", model.Plain},
	{"waist", model.Plain},
	{"hem", model.Hem},
	{"centre front", model.Centre},
	{"centre back", model.Centre},
	{"sleeve cap", model.Plain},
	{"sleeve seam", model.Plain},
	{"free edge", model.Plain},
}

// namesItem says what an edge is.
func (w *Window) namesItem(size string, j int, now model.Edge) *fyne.MenuItem {
	item := fyne.NewMenuItem("This edge is the", nil)
	item.ChildMenu = fyne.NewMenu("")
	for _, e := range edgeNames {
		choice := fyne.NewMenuItem(e.name, func() {
			w.do("call an edge "+e.name, edit.NameEdgeOfSize(w.paper.trace.id, size, j, e.name, e.kind))
			w.refresh()
		})
		choice.Checked = now.Name == e.name
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
		near(l.Drawn[0].Path, lineWord(l.Kind))
	}
	for _, m := range k.Notches {
		near(geom.Polyline(m.At, m.At.Add(geom.Vec{Y: tol})), "notch")
	}
	for _, d := range k.Darts {
		near(geom.Polyline(d.From, d.Apex, d.To), "dart")
	}
	return nth, name, ok
}

// lineWord is what a kind of line is called.
func lineWord(kind model.LineKind) string {
	for word, of := range map[string]model.LineKind{
		"grain line": model.Grain, "lengthen line": model.Lengthen, "bust line": model.BustLine,
		"waist line": model.WaistLine, "hip line": model.HipLine,
	} {
		if of == kind {
			return word
		}
	}
	return "line"
}
