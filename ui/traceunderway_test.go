package ui

import (
	"testing"

	"quarterstep/ui/board"
)

// TestLineThatTakesLong: where following takes longer than a moment, the window goes
// on; the line that comes is of the corner still in hand, and the one to where the
// pointer went meanwhile comes after it.
func TestLineThatTakesLong(t *testing.T) {
	w, q, at := onBib(t)
	size := q.Nest[3].Size
	w.takeSize(size)
	w.setTool(board.Trace)
	corners := cornersOf(t, q, size, at)
	w.table.OnPlace(corners[0])
	var beside later
	put(t, &besideWindow, beside.add)
	goTo := func(i int) { w.pointed(w.onPhoto(corners[i])) }
	end := func() (i int) {
		if path := w.paper.trace.live.Path; len(path) > 0 {
			for i := range corners {
				if path.End().Dist(w.onPhoto(corners[i])) < 2 {
					return i
				}
			}
		}
		return -1
	}

	goTo(1)
	goTo(2)
	goTo(4)
	if len(beside) != 2 || end() != -1 { // to follow, and to wait for it
		t.Fatalf("%d works beside the window, the line ends at corner %d", len(beside), end())
	}
	for len(beside) > 2 || end() != 1 {
		beside.next(t)
	}
	if got := lineInHand(w, size); len(got.Corners) != 1 {
		t.Fatalf("%d corners", len(got.Corners))
	}
	for len(beside) > 0 {
		beside.next(t)
	}
	if end() != 4 {
		t.Errorf("the line ends at corner %d, the pointer is at 4", end())
	}

	goTo(1)
	w.table.OnPlace(corners[1]) // before the line to it has come
	edges := lineInHand(w, size).Edges
	if len(edges) != 1 || edges[0].End().Dist(w.onPhoto(corners[1])) > 2 {
		t.Fatalf("a corner set too early has %d edges", len(edges))
	}
	goTo(2)
	for len(beside) > 0 {
		beside.next(t)
		if path := w.paper.trace.live.Path; len(path) > 0 && path.Start() != lineInHand(w, size).Corners[1] {
			t.Fatal("a line from the corner before is shown")
		}
	}
	if end() != 2 {
		t.Errorf("the line ends at corner %d, the pointer is at 2", end())
	}
	shown := w.paper.trace.live.Path
	w.table.OnPlace(corners[2])
	if now := lineInHand(w, size).Edges[1]; len(now) != len(shown) || now[0] != shown[0] {
		t.Error("another line is taken than was shown")
	}
}
