package ui

import (
	"slices"

	"quarterstep/app/edit"
	"quarterstep/app/session"
	"quarterstep/app/trace"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/trace/follow"
	"quarterstep/ui/board"
)

// grip is what is taken hold of: a corner of the line in hand, a point on one
// of its edges, or a corner proposed.
type grip struct {
	on      bool
	next    bool // a corner proposed
	corner  int  // -1 for a point on an edge
	edge, k int  // the point that begins cubic k of the edge, -1 for a place between points
	at      geom.Point
	line    model.TracedSize // as it was when it was taken hold of
}

// grab takes hold of what is traced near a place of the Table.
func (w *Window) grab(at geom.Point, reach float64) bool {
	t := &w.paper.trace
	t.held = grip{}
	if !w.tracingNow() || t.mark.kind != "" {
		return false
	}
	t.held = w.gripAt(w.onPhoto(at), w.reachAt(at, reach))
	k, _ := w.tracing()
	t.held.line, _ = trace.LineOf(k, t.size)
	return t.held.on
}

// gripAt is what can be taken hold of within reach mm of a place of the photo.
func (w *Window) gripAt(p geom.Point, reach float64) grip {
	t := w.paper.trace
	var got grip
	try := func(q geom.Point, h grip) {
		if d := q.Dist(p); d <= reach {
			reach, h.on, h.at = d, true, q
			got = h
		}
	}
	if t.next.on {
		for i, c := range t.next.Line.Corners {
			try(c, grip{next: true, corner: i})
		}
		return got
	}
	k, _ := w.tracing()
	line, _ := trace.LineOf(k, t.size)
	for j, e := range line.Edges {
		for i := 1; i < len(e); i++ {
			try(e[i].P0, grip{corner: -1, edge: j, k: i})
		}
	}
	for i, c := range line.Corners {
		try(c, grip{corner: i})
	}
	if j, on := w.edgeUnder(line, p, reach); !got.on && w.table.Tool() == board.Move && j >= 0 {
		return grip{on: true, corner: -1, edge: j, k: -1, at: on}
	}
	return got
}

// edgeUnder is the edge of a line within reach mm of a place, and the place on
// it; -1 for none.
func (w *Window) edgeUnder(line model.TracedSize, p geom.Point, reach float64) (int, geom.Point) {
	const tol = 0.05
	best, at := -1, p
	for j, e := range line.Edges {
		if len(e) == 0 {
			continue
		}
		if i, u, d := e.Nearest(p, tol); d <= reach {
			best, at, reach = j, e[i].At(u), d
		}
	}
	return best, at
}

// dragTraced moves what was taken hold of; its edges follow the print anew when
// it is let go.
func (w *Window) dragTraced(by geom.Vec, ph board.Phase) {
	t := &w.paper.trace
	if t.held.next {
		w.dragNext(t.held.corner, w.dragged(t.held.at, by), ph)
		return
	}
	to := w.dragged(t.held.at, by)
	if ph == board.DragEnd {
		to = w.ontoLine(t.held, to)
	}
	if m, ok := w.moveOf(t.held, to, ph == board.DragEnd); ok {
		w.drag(m.edit, m.label, by, ph)
		if ph == board.DragEnd {
			t.pin(t.size, t.held, to)
			t.doubtAnew(t.size, m.was, m.doubts)
			t.picked = w.regrip(t.held)
			w.refresh()
		}
	}
}

// dragged is a place of the flat picture moved by a drag on the Table.
func (w *Window) dragged(at geom.Point, by geom.Vec) geom.Point {
	if by.IsZero() {
		return at
	}
	return w.onPhoto(w.flatOnTable(at).Add(by))
}

// tracedMove is a corner or point of the line in hand, moved.
type tracedMove struct {
	edit   session.Edit
	label  string
	was    []geom.Path    // the edges it changes, as they were
	doubts []follow.Doubt // of the edges as they are
}

// moveOf is what is held, moved to a place of the photo; let go, the edges of a
// corner follow the print to it.
func (w *Window) moveOf(h grip, to geom.Point, let bool) (tracedMove, bool) {
	t := w.paper.trace
	k, _ := w.tracing()
	line := h.line
	if !h.on || len(line.Corners) == 0 {
		return tracedMove{}, false
	}
	if h.corner < 0 && let && w.follows() {
		return w.pinnedMove(k, line, h, to), true
	}
	if h.corner < 0 {
		return tracedMove{
			edit:  edit.ReshapeEdge(t.id, t.size, h.edge, bent(line, h, to)),
			label: words.F("move a point on size %s", t.size),
		}, true
	}
	m := w.movedCorner(k, line, h.corner, to, let)
	m.label = words.F("move a corner of size %s", t.size)
	return m, true
}

// bent is an edge with one of its points moved, the parts on both sides carried
// along.
func bent(line model.TracedSize, h grip, to geom.Point) geom.Path {
	if h.edge >= len(line.Edges) || h.k >= len(line.Edges[h.edge]) {
		return nil
	}
	const tol = 0.01
	e := line.Edges[h.edge]
	if h.k < 0 {
		e, h.k = cutAt(e, h.at)
	}
	by := to.Sub(e[h.k].P0)
	return geom.Join(e[:h.k].CarryEnds(geom.Vec{}, by, tol), e[h.k:].CarryEnds(by, geom.Vec{}, tol))
}

// cutAt is an edge with a point where it is nearest to a place, and which cubic
// that point begins.
func cutAt(e geom.Path, at geom.Point) (geom.Path, int) {
	const tol = 0.01
	i, u, _ := e.Nearest(at, tol)
	a, b := e[i].Split(u)
	return slices.Replace(slices.Clone(e), i, i+1, a, b), i + 1
}

// movedCorner moves a corner; once it is let go, its two edges follow the print.
func (w *Window) movedCorner(k model.Tracing, line model.TracedSize, c int, to geom.Point, let bool) tracedMove {
	t := w.paper.trace
	var m tracedMove
	var before, after follow.Edge
	if let {
		h, n := w.tracer(), len(line.Corners)
		if in := (c + n - 1) % n; c > 0 || line.Closed {
			before = h.Edge(k, line, in, to, nil)
			m.was = append(m.was, line.Edges[in])
		}
		if c < len(line.Edges) {
			m.was = append(m.was, line.Edges[c])
			line.Corners = slices.Clone(line.Corners)
			line.Corners[c] = to
			after = h.Edge(k, line, c, line.Corners[(c+1)%n], nil)
		}
		m.doubts = slices.Concat(before.Doubts, after.Doubts)
	}
	m.edit = edit.MoveCorner(t.id, t.size, c, to, before.Path, after.Path)
	return m
}
