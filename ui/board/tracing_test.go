package board

import (
	"testing"

	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

func TestTraceClicksPlacesAndDragsWhatItGrabs(t *testing.T) {
	b := newTable(t)
	b.SetTool(Trace)
	var placed []geom.Point
	var by geom.Vec
	var ended bool
	corner := geom.Pt(120, 90)
	b.OnPlace = func(at geom.Point) { placed = append(placed, at) }
	b.OnGrab = func(at geom.Point, reach float64) bool { return at.Dist(corner) <= reach }
	b.OnDragTraced = func(d geom.Vec, ph Phase) { by, ended = d, ph == DragEnd }

	click := geom.Pt(200, 150)
	b.press(b.at(click))
	b.release(b.at(click))
	if len(placed) != 1 || placed[0].Dist(click) > 1e-3 {
		t.Fatalf("a click at %v placed %v", click, placed)
	}
	was := b.View().Origin
	b.press(b.at(click))
	b.drag(move(b.at(click), 40, 0))
	b.release(move(b.at(click), 40, 0))
	if len(placed) != 1 || b.View().Origin == was {
		t.Error("a drag on the bare photo does not slide the Table")
	}
	b.press(b.at(corner))
	b.drag(move(b.at(corner), 10, 0))
	b.release(move(b.at(corner), 10, 0))
	if want := 10 / b.View().Scale; !ended || by.X < want-0.01 || by.X > want+0.01 {
		t.Errorf("dragged by %v, ended %v, want %.2f across", by, ended, want)
	}
	b.press(b.at(corner))
	b.release(b.at(corner))
	if len(placed) != 2 {
		t.Error("a click on a corner is not a click")
	}
}

func TestTraceIsDrawnOverWhatLiesUnder(t *testing.T) {
	b := newTable(t)
	b.SetTrace(&scene.Trace{Live: geom.Polyline(geom.Pt(0, 0), geom.Pt(50, 50)), Doubts: []geom.Point{geom.Pt(20, 20)}})
	l := scene.Active(b.Board.in, b.hand)
	if len(l.Dots) == 0 || l.Dots[len(l.Dots)-1].Mark != scene.LookAt {
		t.Error("a doubt has no amber mark")
	}
}
