package ui

import (
	"slices"

	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// onPin is how near in mm an edge runs past a pin that it goes by.
const onPin = 0.3

// follows reports whether printed lines are followed on the photo in hand.
func (w *Window) follows() bool { return w.photo().lines != nil && !w.paper.trace.straight }

// ontoLine is where a corner or point let go at a place comes to lie: on the
// print.
func (w *Window) ontoLine(h grip, at geom.Point) geom.Point {
	if h.corner >= 0 {
		return w.tracer().OntoPrint(at)
	}
	if w.follows() {
		if on, ok := w.photo().lines.Snap(at, w.tracer().Reach); ok {
			return on
		}
	}
	return at
}

// pinnedMove lays a point of an edge on another place: the edge follows the
// print anew by way of it, and of the points laid by hand before.
func (w *Window) pinnedMove(k model.Tracing, line model.TracedSize, h grip, to geom.Point) tracedMove {
	t := w.paper.trace
	was := line.Edges[h.edge]
	e := w.tracer().Edge(k, line, h.edge, line.Corners[(h.edge+1)%len(line.Corners)], t.way(line.Size, was, h, to))
	return tracedMove{
		edit:   edit.ReshapeEdge(t.id, t.size, h.edge, e.Path),
		label:  words.F("move a point on size %s", t.size),
		was:    []geom.Path{was},
		doubts: e.Doubts,
	}
}

// way is what an edge goes by once the point held lies at a place: the pins of
// the edge as it ran, that one moved or new, from its start to its end.
func (t traceStep) way(size string, was geom.Path, h grip, to geom.Point) []geom.Point {
	const tol = 0.05
	type stop struct {
		at    geom.Point
		along float64
	}
	place := func(at geom.Point) (stop, float64) {
		i, u, d := was.Nearest(at, tol)
		return stop{at, float64(i) + u}, d
	}
	moved, _ := place(h.at)
	moved.at = to
	stops := []stop{moved}
	for _, p := range t.pins[size] {
		if s, d := place(p); d <= onPin && p.Dist(h.at) > onPin {
			stops = append(stops, s)
		}
	}
	slices.SortFunc(stops, func(a, b stop) int {
		switch {
		case a.along < b.along:
			return -1
		case a.along > b.along:
			return 1
		}
		return 0
	})
	var out []geom.Point
	for _, s := range stops {
		out = append(out, s.at)
	}
	return out
}

// pin keeps where a point of an edge was laid by hand.
func (t *traceStep) pin(size string, h grip, to geom.Point) {
	if h.corner >= 0 {
		return
	}
	left := slices.DeleteFunc(slices.Clone(t.pins[size]), func(p geom.Point) bool { return p.Dist(h.at) <= onPin })
	if t.pins == nil {
		t.pins = map[string][]geom.Point{}
	}
	t.pins[size] = append(left, to)
}
