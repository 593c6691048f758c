package ui

import (
	"quarterstep/app/edit"
	"quarterstep/app/session"
	"quarterstep/app/trace"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/trace/follow"
)

// regrip is a grip as the line lies now; none where it is gone.
func (w *Window) regrip(h grip) grip {
	t := w.paper.trace
	k, _ := w.tracing()
	line, _ := trace.LineOf(k, t.size)
	h.line = line
	switch {
	case !h.on || h.next || h.corner < 0 && h.k < 0:
		return grip{}
	case h.corner >= len(line.Corners):
		return grip{}
	case h.corner >= 0:
		h.at = line.Corners[h.corner]
		return h
	case h.edge >= len(line.Edges) || h.k >= len(line.Edges[h.edge]):
		return grip{}
	}
	h.at = line.Edges[h.edge][h.k].P0
	return h
}

// pick takes what is held in hand for the keys; false where nothing is.
func (w *Window) pick() bool {
	t := &w.paper.trace
	if !w.regrip(t.held).on {
		return false
	}
	t.picked, t.held = t.held, grip{}
	w.refresh()
	return true
}

// nudgeTraced moves the point picked by an arrow key; false where none is.
func (w *Window) nudgeTraced(by geom.Vec) bool {
	t := &w.paper.trace
	if !w.tracingNow() {
		return false
	}
	t.picked = w.regrip(t.picked)
	if t.picked.on {
		if m, ok := w.moveOf(t.picked, t.picked.at.Add(by), t.picked.corner >= 0); ok {
			w.do(m.label, m.edit)
			t.doubtAnew(t.size, m.was, m.doubts)
			t.picked = w.regrip(t.picked)
			w.refresh()
		}
	}
	return true
}

// removePicked takes the corner or point picked out of the line.
func (w *Window) removePicked() {
	t := &w.paper.trace
	h := w.regrip(t.picked)
	t.picked = grip{}
	switch {
	case !h.on:
		w.say(words.T("Click a corner or a point of the line first, with the tool Move."))
	case h.corner >= 0:
		w.removeCorner(h.corner)
	default:
		w.do(words.F("take a point off size %s", t.size), edit.RemoveTracedPoint(t.id, t.size, h.edge, h.k))
	}
	w.refresh()
}

// removeCorner takes a corner out of the line in hand; the edge between its
// neighbours follows the print anew.
func (w *Window) removeCorner(c int) {
	t := &w.paper.trace
	k, _ := w.tracing()
	line, _ := trace.LineOf(k, t.size)
	e := w.withoutCorner(k, line, c)
	if err := w.doc.Do(words.F("take a corner out of size %s", t.size), edit.RemoveTracedCorner(t.id, t.size, c, e.Path)); err != nil {
		w.say(err.Error())
		return
	}
	t.doubt(t.size, e.Doubts)
}

// withoutCorner is the edge between the neighbours of a corner.
func (w *Window) withoutCorner(k model.Tracing, line model.TracedSize, c int) follow.Edge {
	n := len(line.Corners)
	if !line.Closed && (c == 0 || c == n-1) || n < 4 {
		return follow.Edge{}
	}
	return w.tracer().Edge(k, line, (c+n-1)%n, line.Corners[(c+1)%n], nil)
}

// everySize makes an edit of a corner or edge in every size whose line has the
// same corners, as one step; of says the edit for one of them.
func (w *Window) everySize(line model.TracedSize, j int, of func(s model.TracedSize, j int) session.Edit) session.Edit {
	k, _ := w.tracing()
	return func(p model.Pattern) (model.Pattern, error) {
		for _, s := range k.Sizes {
			i, ok := edit.SameTracedEdge(line, s, j)
			if !ok {
				continue
			}
			var err error
			if p, err = of(s, i)(p); err != nil {
				return p, err
			}
		}
		return p, nil
	}
}

// alikeSizes is how many sizes have a line with the corners of this one.
func alikeSizes(k model.Tracing, line model.TracedSize) int {
	n := 0
	for _, s := range k.Sizes {
		if _, ok := edit.SameTracedEdge(line, s, 0); ok {
			n++
		}
	}
	return n
}

// addCorner puts a corner on edge j of the line in hand.
func (w *Window) addCorner(j int, at geom.Point) {
	t := w.paper.trace
	w.do(words.F("add a corner to size %s", t.size), edit.AddTracedCorner(t.id, t.size, j, w.tracer().OntoPrint(at)))
	w.refresh()
}

// addCornerEverywhere puts a corner on the same edge of every size, at the same
// share of it.
func (w *Window) addCornerEverywhere(line model.TracedSize, j int, at geom.Point) {
	t := w.paper.trace
	share, err := edit.EdgeShare(line.Edges[j], at)
	if err != nil {
		w.say(err.Error())
		return
	}
	start := line.Edges[j].Start()
	w.do(words.T("add a corner to every size"), w.everySize(line, j, func(s model.TracedSize, i int) session.Edit {
		e, here := s.Edges[i], share
		if e.End().Dist(start) < e.Start().Dist(start) { // run the other way round
			here = 1 - share
		}
		return func(p model.Pattern) (model.Pattern, error) {
			place, err := edit.PlaceOnEdge(e, here)
			if err != nil {
				return p, err
			}
			return edit.AddTracedCorner(t.id, s.Size, i, place)(p)
		}
	}))
	w.refresh()
}

// removeCornerEverywhere takes the corner that begins edge c out of every size.
func (w *Window) removeCornerEverywhere(line model.TracedSize, c int) {
	t := w.paper.trace
	k, _ := w.tracing()
	at := line.Corners[c]
	w.do(words.T("take a corner out of every size"), w.everySize(line, c, func(s model.TracedSize, i int) session.Edit {
		n := len(s.Corners)
		if next := (i + 1) % n; s.Corners[next].Dist(at) < s.Corners[i].Dist(at) { // run the other way round
			i = next
		}
		return edit.RemoveTracedCorner(t.id, s.Size, i, w.withoutCorner(k, s, i).Path)
	}))
	w.refresh()
}

// addCurvePoint puts a point on a curve of the line in hand.
func (w *Window) addCurvePoint(j int, at geom.Point) {
	t := w.paper.trace
	w.do(words.F("add a point to size %s", t.size), edit.AddTracedPoint(t.id, t.size, j, at))
	w.refresh()
}

// edgeAt is the edge of the line in hand within reach mm of a place of the photo.
func (w *Window) edgeAt(at geom.Point, reach float64) (model.TracedSize, int, bool) {
	k, _ := w.tracing()
	line, _ := trace.LineOf(k, w.paper.trace.size)
	j, _ := w.edgeUnder(line, at, reach)
	return line, j, j >= 0
}
