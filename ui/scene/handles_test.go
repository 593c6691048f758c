package scene_test

import (
	"testing"

	"quarterstep/model"
	"quarterstep/ui/scene"
	"quarterstep/ui/scene/scenetest"
)

// An edge moved parallel can have more curves than the one the hand shapes: its
// handles are those of the edge as it was, gone out with it, so that each is
// still the one edit.MoveControl means.
func TestHandlesOfAnEdgeMovedParallel(t *testing.T) {
	in := blouse(t, 4)
	const armhole, out = "armhole foot", 9.0
	k := in.Pattern.Pieces[0].EdgeIndex(armhole)
	before := in.Edges(0)[k].Controls()
	in, err := scenetest.Graded(in.Pattern.WithPiece(0, func(q model.Piece) model.Piece {
		q.Hand.Shifts = []model.EdgeShift{{Edge: armhole, Out: out}}
		return q
	}))
	if err != nil {
		t.Fatal(err)
	}
	if n := len(in.Edges(0)[k].Controls()); n == len(before) {
		t.Fatal("the armhole was to be drawn with other control points")
	}
	in.Select = scene.Ref{Piece: "front", Edge: armhole}
	found := 0
	for _, h := range scene.Handles(in) {
		c := h.Ref.Control
		if c == 0 {
			continue
		}
		found++
		if d := h.At.Dist(before[c]); d < out-0.5 || d > out+2 {
			t.Errorf("handle %d went out by %.2f mm with an edge moved by %g", c, d, out)
		}
		if want := before[c-1]; h.Stemmed && c%3 == 1 && h.Stem.Dist(want) > out+6 {
			t.Errorf("handle %d hangs on %v, far from %v", c, h.Stem, want)
		}
	}
	if found != len(before)-2 {
		t.Errorf("%d handles for the %d control points the hand shapes", found, len(before)-2)
	}
}
