package ui

import (
	"slices"

	"quarterstep/app/edit"
	"quarterstep/app/session"
	"quarterstep/app/trace"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/board"
)

// grip is what is dragged of the line in hand: a corner, a point on one of its
// edges, or a corner proposed.
type grip struct {
	on      bool
	next    bool // a corner proposed
	corner  int  // -1 for a point on an edge
	edge, k int  // the point that begins cubic k of the edge
	at      geom.Point
}

// grab takes hold of what is traced near a place of the Table.
func (w *Window) grab(at geom.Point, reach float64) bool {
	t := &w.paper.trace
	t.held = grip{}
	if !w.tracingNow() || t.mark.kind != "" {
		return false
	}
	p := w.onPhoto(at)
	try := func(q geom.Point, h grip) {
		if d := q.Dist(p); d <= reach {
			reach, h.on, h.at = d, true, q
			t.held = h
		}
	}
	if t.next.on {
		for i, c := range t.next.Line.Corners {
			try(c, grip{next: true, corner: i})
		}
		return t.held.on
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
	return t.held.on
}

// dragTraced moves what was taken hold of; its edges follow the print anew when
// it is let go.
func (w *Window) dragTraced(by geom.Vec, ph board.Phase) {
	t := &w.paper.trace
	if t.held.next {
		w.dragNext(t.held.corner, t.held.at.Add(by), ph)
		return
	}
	k, _ := w.tracing()
	line, ok := trace.LineOf(k, t.size)
	if !ok {
		return
	}
	to := t.held.at.Add(by)
	what := "move a point"
	e := edit.ReshapeEdge(t.id, t.size, t.held.edge, w.bent(line, to))
	if t.held.corner >= 0 {
		what = "move a corner of size " + t.size
		e = w.movedCorner(k, line, t.held.corner, to, ph == board.DragEnd)
	}
	w.drag(e, what, by, ph)
}

// bent is an edge with one of its points moved, the parts on both sides carried
// along.
func (w *Window) bent(line model.TracedSize, to geom.Point) geom.Path {
	h := w.paper.trace.held
	if h.edge >= len(line.Edges) || h.k >= len(line.Edges[h.edge]) {
		return nil
	}
	const tol = 0.01
	e := line.Edges[h.edge]
	by := to.Sub(e[h.k].P0)
	return geom.Join(e[:h.k].CarryEnds(geom.Vec{}, by, tol), e[h.k:].CarryEnds(by, geom.Vec{}, tol))
}

// movedCorner moves a corner; once it is let go, its two edges follow the print.
func (w *Window) movedCorner(k model.Tracing, line model.TracedSize, c int, to geom.Point, let bool) session.Edit {
	t := w.paper.trace
	n := len(line.Corners)
	var before, after geom.Path
	if let {
		h := w.tracer()
		to = h.OntoPrint(to)
		if in := (c + n - 1) % n; c > 0 || line.Closed {
			before = h.Edge(k, line, in, to, nil).Path
		}
		if c < len(line.Edges) {
			line.Corners = slices.Clone(line.Corners)
			line.Corners[c] = to
			after = h.Edge(k, line, c, line.Corners[(c+1)%n], nil).Path
		}
	}
	return edit.MoveCorner(t.id, t.size, c, to, before, after)
}
