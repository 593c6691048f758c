package ui

import (
	"math"

	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

// tracesTaken reports whether clicks on a photo as it was taken trace: once it
// was made flat by all that it takes, what lies under a click is known there too.
func (w *Window) tracesTaken(ph *photo) bool {
	return ph != nil && ph.shot != nil && ph.asTaken && ph.solved && w.isFlat(ph) && !w.joining(ph) && w.ready(ph)
}

// flatOnTable is a place of the flat picture in hand, mm, on the Table: where the
// flat picture lies, or where the photo as it was taken shows it.
func (w *Window) flatOnTable(mm geom.Point) geom.Point {
	p, ph := w.doc.Pattern(), w.photo()
	if w.tracesTaken(ph) {
		return ph.takenPlace(mm)
	}
	if i := p.PictureIndex(ph.id); i >= 0 {
		return mm.Add(p.Pictures[i].At)
	}
	return mm
}

// reach is how near in mm of the flat picture the pointer must be to something
// traced.
func (w *Window) reach() float64 { return w.reachAt(w.pointer, w.table.Reach()) }

// reachAt is a length on the Table at a place of it in mm of the flat picture: a
// photo as it was taken has another scale, and not the same everywhere.
func (w *Window) reachAt(at geom.Point, length float64) float64 {
	if !w.tracesTaken(w.photo()) {
		return length
	}
	mid := w.onPhoto(at)
	return (mid.Dist(w.onPhoto(at.Add(geom.Vec{X: length}))) + mid.Dist(w.onPhoto(at.Add(geom.Vec{Y: length})))) / 2
}

// tracedOnTaken lays what is traced from a photo over the photo as it was taken,
// where its way to the paper is known: bent as the lens bent it.
func (w *Window) tracedOnTaken(t *scene.Trace, ph *photo) *scene.Trace {
	if ph.shot == nil || !ph.solved || w.doc.Pattern().PictureIndex(ph.id) < 0 {
		return t
	}
	of := w.traceOnFlat(geom.Vec{})
	if t == nil {
		t = &scene.Trace{}
	}
	for _, k := range of.Lines {
		k.Path = ph.asTakenPath(k.Path)
		t.Lines = append(t.Lines, k)
	}
	for _, k := range of.Marks {
		k.Path = ph.asTakenPath(k.Path)
		t.Marks = append(t.Marks, k)
	}
	if !w.tracesTaken(ph) {
		return t
	}
	t.Live = ph.asTakenPath(of.Live)
	for _, c := range of.Corners {
		c.At = ph.takenPlace(c.At)
		t.Corners = append(t.Corners, c)
	}
	for _, q := range of.Next {
		t.Next = append(t.Next, ph.takenPlace(q))
	}
	for _, q := range of.Doubts {
		t.Doubts = append(t.Doubts, ph.takenPlace(q))
	}
	t.Aim, t.Hint = of.Aim, ph.takenPlace(of.Hint)
	return t
}

// takenPlace is a place of the flat picture, mm, where the photo as it was taken
// shows it on the Table.
func (ph *photo) takenPlace(mm geom.Point) geom.Point {
	return ph.onTable(ph.straight.Map.Pixel(mm.Add(geom.Vec(ph.from))))
}

// asTakenPath is a line of the flat picture, in mm, where the photo as taken
// shows it on the Table; what the photo does not show is left out.
func (ph *photo) asTakenPath(flat geom.Path) geom.Path {
	const parts = 12
	var pts []geom.Point
	for _, c := range flat {
		for i := range parts + 1 {
			at := ph.takenPlace(c.At(float64(i) / parts))
			if math.IsNaN(at.X + at.Y) {
				continue
			}
			if len(pts) == 0 || at != pts[len(pts)-1] {
				pts = append(pts, at)
			}
		}
	}
	if len(pts) < 2 {
		return nil
	}
	return geom.Polyline(pts...)
}
