package board

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"

	"quarterstep/grading/dart"
	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

// closeDart shows the front with its dart folded shut.
func (b *table) closeDart(t *testing.T) dart.Closed {
	t.Helper()
	q, r := b.in.Pattern.Pieces[0], b.in.Result.Pieces[0]
	d, err := dart.Read(q, q.Darts[0], r.Darts[0].Apex)
	if err != nil {
		t.Fatal(err)
	}
	c, err := d.Close(r.Edges)
	if err != nil {
		t.Fatal(err)
	}
	b.in.Closed = map[string]dart.Closed{q.ID: c}
	b.SetScene(b.in)
	return c
}

// A click on a leg, away from the outline, takes the dart in hand.
func TestADartIsTakenInHand(t *testing.T) {
	b := newTable(t)
	var menu scene.Ref
	b.OnMenu = func(at scene.Ref, _ fyne.Position) { menu = at }
	for range 2 {
		_, legs := scene.Darts(b.in)
		at := b.at(legs[0][0].At(0.7))
		b.SetScene(b.in)
		b.click(at)
		if got := b.said(); len(got) == 0 {
			t.Error("the click says nothing")
		}
		b.TappedSecondary(&fyne.PointEvent{Position: at})
		if menu != (scene.Ref{Piece: "front", Dart: "dart"}) {
			t.Errorf("a right click on a leg names %v", menu)
		}
		menu = scene.Ref{}
		b.closeDart(t)
	}
}

// On a part that lies turned, the hand's movement is turned back before it is
// told: the point goes with the pointer.
func TestDraggingAPointOfAClosedPiece(t *testing.T) {
	b := newTable(t)
	c := b.closeDart(t)
	q := b.in.Pattern.Pieces[0]
	k := q.PointIndex("underarm")
	if c.Moves[k] == geom.Identity() {
		t.Fatal("the underarm was to be turned")
	}
	var told geom.Vec
	b.OnDragPoint = func(_ scene.Ref, by geom.Vec, _ Phase) { told = by }
	b.click(b.midEdge("side seam"))
	start := b.pointAt("underarm")
	b.press(start)
	b.drag(move(start, 30, 12))
	b.release(move(start, 30, 12))
	want := geom.Vec{X: 30 / b.view.Scale, Y: 12 / b.view.Scale}
	if d := c.Moves[k].ApplyVec(told).Sub(want).Len(); d > 0.01 {
		t.Errorf("told %v, which comes to %.3f mm beside the pointer", told, d)
	}
	if math.Abs(told.X-want.X) < 0.1 {
		t.Error("the movement was not turned back")
	}
}
