package ui

import (
	"math"

	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

// tracedOnTaken lays what is traced from a photo over the photo as it was taken,
// where its way to the paper is known: bent as the lens bent it. Its corners are
// not taken hold of there.
func (w *Window) tracedOnTaken(t *scene.Trace, ph *photo) *scene.Trace {
	p := w.doc.Pattern()
	if ph.shot == nil || !ph.solved || p.PictureIndex(ph.id) < 0 {
		return t
	}
	k, _ := w.tracing()
	if k.Picture != ph.id {
		return t
	}
	if t == nil {
		t = &scene.Trace{}
	}
	sizes := w.printedSizes(p, k)
	for i, size := range sizes {
		for _, s := range k.Sizes {
			if s.Size == size && len(s.Edges) > 0 {
				t.Lines = append(t.Lines, scene.TracedLine{Path: ph.asTakenPath(geom.Join(s.Edges...)), Size: size, I: i, N: len(sizes), InHand: size == w.paper.trace.size})
			}
		}
	}
	return t
}

// asTakenPath is a line of the flat picture, in mm, where the photo as taken
// shows it on the Table; what the photo does not show is left out.
func (ph *photo) asTakenPath(flat geom.Path) geom.Path {
	const parts = 12
	var pts []geom.Point
	for _, c := range flat {
		for i := range parts + 1 {
			mm := c.At(float64(i) / parts).Add(geom.Vec(ph.from))
			px := ph.straight.Map.Pixel(mm)
			if math.IsNaN(px.X + px.Y) {
				continue
			}
			if at := ph.onTable(px); len(pts) == 0 || at != pts[len(pts)-1] {
				pts = append(pts, at)
			}
		}
	}
	return geom.Polyline(pts...)
}
