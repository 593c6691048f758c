package ui

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"

	"quarterstep/app/trace"
	"quarterstep/model/geom"
	"quarterstep/ui/board"
)

// A square of 200 mm is traced on the photo as it was taken: its corners lie where
// they lie on the paper, and a corner dragged on the photo goes where it was let
// go.
func TestTracingThePhotoAsTaken(t *testing.T) {
	const perMM = 3.5
	w := bareWindow(t)
	w.openPhotos([]string{pictureFile(t, "table_top.png", pngOf(t, cardsPhoto(perMM)))})
	ph := w.photo()
	w.photos.Lines.OnChart(0)
	w.photos.Lines.OnFrom(2)
	w.photos.Lines.OnTo(2)
	w.showFlat(false)
	if !w.tracingNow() || w.showsFlat(ph) || ph.lines == nil {
		t.Fatal("clicks on the photo as taken do not trace")
	}
	px := []geom.Point{{X: 100, Y: 100}, {X: 300, Y: 100}, {X: 300, Y: 300}, {X: 100, Y: 300}}
	for _, c := range px {
		at := ph.onTable(geom.Pt(c.X*perMM, c.Y*perMM))
		w.table.OnPointer(at)
		w.table.OnGrab(at, w.table.Reach())
		w.table.OnPlace(at)
	}
	w.photos.Lines.OnFinish()
	k, _ := w.tracing()
	if len(k.Sizes) != 1 || !k.Sizes[0].Closed || len(k.Sizes[0].Corners) != 4 {
		t.Fatalf("traced was %+v", k)
	}
	line := k.Sizes[0]
	for i, c := range line.Corners {
		if d := c.Dist(line.Corners[(i+1)%4]); math.Abs(d-200) > 0.5 {
			t.Errorf("side %d is %.2f mm", i+1, d)
		}
	}
	if of := w.traceOnTable(); len(of.Lines) != 1 || len(of.Targets) == 0 || len(of.Corners) < 4 {
		t.Errorf("shown are %d lines, %d targets, %d corners", len(of.Lines), len(of.Targets), len(of.Corners))
	}
	w.photos.Lines.OnFollow(false)
	was := ph.takenPlace(line.Corners[2])
	by := geom.Vec{X: 20, Y: -9}
	if !w.table.OnGrab(was, w.table.Reach()) {
		t.Fatal("a corner cannot be taken hold of")
	}
	for _, phase := range []board.Phase{board.DragStart, board.DragMove, board.DragEnd} {
		w.table.OnDragTraced(by, phase)
	}
	k, _ = w.tracing()
	line, _ = trace.LineOf(k, w.paper.trace.size)
	if d := ph.takenPlace(line.Corners[2]).Dist(was.Add(by)); d > 0.05 {
		t.Errorf("the dragged corner lies %.2f beside the hand", d)
	}
	w.nestKey()
	if of := w.traceOnTable(); len(of.Lines)+len(of.Corners) != 0 || len(of.Targets) == 0 {
		t.Error("the print is not shown alone")
	}
}

// A corner of the page, clicked a little beside it, is picked by another click and
// moved by the arrow keys; the photo stays as it was taken, until Esc and after.
func TestArrowKeysMoveAClickedCorner(t *testing.T) {
	w := bareWindow(t)
	w.openPhotos([]string{pictureFile(t, "page.png", pngOf(t, pagePhoto()))})
	ph := w.photo()
	for _, c := range []geom.Point{{X: 180, Y: 150}, {X: 810, Y: 150}, {X: 810, Y: 1041}, {X: 190, Y: 1041}} {
		w.table.OnPlace(ph.onTable(c))
	}
	w.showFlat(false)
	at := ph.onTable(ph.clicks[3])
	if !w.table.OnGrab(at, 4) {
		t.Fatal("a click cannot be taken hold of")
	}
	w.table.OnPlace(at)
	was := ph.clicks[3]
	for range 3 {
		w.table.OnNudge(geom.Vec{X: -1}, 0)
	}
	if d := was.Sub(ph.clicks[3]); math.Abs(d.X-3*ph.perMM()) > 1e-6 || math.Abs(d.Y) > 1e-6 {
		t.Errorf("three steps moved it by %v", d)
	}
	if w.showsFlat(ph) || !w.isFlat(ph) {
		t.Error("it does not stay as it was taken, and flat beside")
	}
	press(w, fyne.KeyEscape)
	was = ph.clicks[3]
	w.table.OnNudge(geom.Vec{X: -1}, 0)
	if ph.clicks[3] != was {
		t.Error("Esc did not let go of the corner")
	}
}
