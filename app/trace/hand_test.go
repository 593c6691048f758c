package trace_test

import (
	"testing"

	"pgregory.net/rapid"

	"quarterstep/app/trace"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// A click half a millimetre off goes to the corner that is printed, one near the
// first corner closes the line, and one on white paper stays where it is.
func TestWhereAClickGoes(t *testing.T) {
	q, _ := printed(t)
	h := hand(t)
	o := q.Nest[len(q.Nest)-1]
	line := traced(o, 0, false)
	for i, c := range line.Corners {
		if to, closing := h.Aim(model.TracedSize{}, c.Add(geom.Vec{X: 0.4, Y: -0.3})); closing || to.Dist(c) > 0.3 {
			t.Errorf("corner %d: the click goes %.2f mm off, closing %v", i+1, to.Dist(c), closing)
		}
	}
	if to, closing := h.Aim(line, line.Corners[0].Add(geom.Vec{X: 1})); !closing || to != line.Corners[0] {
		t.Errorf("the line is not closed: %v, %v", to, closing)
	}
	white := geom.Pt(4, 4)
	if to, _ := h.Aim(line, white); to != white {
		t.Errorf("a click on white paper goes to %v", to)
	}
	h.Straight = true
	if to, _ := h.Aim(model.TracedSize{}, line.Corners[1].Add(geom.Vec{X: 0.4})); to != line.Corners[1].Add(geom.Vec{X: 0.4}) {
		t.Error("a click is taken to the print where nothing is followed")
	}
}

// The edge between two corners is the printed one; without lines it is straight
// and without a word; where nothing is printed it says that it is straight.
func TestTheEdgeBetweenTwoCorners(t *testing.T) {
	q, _ := printed(t)
	h := hand(t)
	line := traced(q.Nest[len(q.Nest)-1], 0, false)
	for _, j := range []int{1, 3} { // on the others the sizes run into one another
		open := model.TracedSize{Size: line.Size, Corners: line.Corners[:j+1]}
		e := h.Edge(model.Tracing{}, open, j, line.Corners[(j+1)%len(line.Corners)], nil)
		if d := worst(e.Path, line.Edges[j]); d > 0.15 {
			t.Errorf("edge %d lies %.2f mm off the printed one", j+1, d)
		}
	}
	open := model.TracedSize{Size: line.Size, Corners: line.Corners[:1]}
	via := geom.Pt(30, 30)
	if e := (trace.Hand{}).Edge(model.Tracing{}, open, 0, line.Corners[1], []geom.Point{via}); len(e.Path) != 2 || e.Path[1].P0 != via || len(e.Doubts) > 0 {
		t.Errorf("without lines the edge is %v, %v", e.Path, e.Doubts)
	}
	lost := model.TracedSize{Size: line.Size, Corners: []geom.Point{geom.Pt(3, 3)}}
	if e := h.Edge(model.Tracing{}, lost, 0, geom.Pt(3, 60), nil); len(e.Path) != 1 || len(e.Doubts) != 1 {
		t.Errorf("where nothing is printed the edge is %v, %v", e.Path, e.Doubts)
	}
}

// However the sizes were begun and whichever way they run, an edge is guided by
// the same edge of the others.
func TestGuidesAreTheSameEdge(t *testing.T) {
	q, _ := printed(t)
	n := len(q.Edges)
	rapid.Check(t, func(t *rapid.T) {
		line := traced(q.Nest[1], rapid.IntRange(0, n-1).Draw(t, "from"), rapid.Bool().Draw(t, "back"))
		other := traced(q.Nest[2], rapid.IntRange(0, n-1).Draw(t, "other from"), rapid.Bool().Draw(t, "other back"))
		k := model.Tracing{Sizes: []model.TracedSize{other, {Size: "open", Corners: other.Corners[:2]}}}
		for j := range n {
			open := model.TracedSize{Size: line.Size, Corners: line.Corners[:j+1]}
			to := line.Corners[(j+1)%n]
			got := trace.Guides(k, open, j, to)
			if len(got) != 1 {
				t.Fatalf("edge %d has %d guides", j, len(got))
			}
			if s, e := got[0].Start().Dist(line.Corners[j]), got[0].End().Dist(to); s > 15 || e > 15 {
				t.Fatalf("edge %d: its guide begins %.0f mm and ends %.0f mm from it", j, s, e)
			}
		}
	})
}

// Of many sizes done only those that lie nearest guide an edge.
func TestTheNearestSizeGuides(t *testing.T) {
	q, _ := printed(t)
	var k model.Tracing
	for i := range 3 {
		k.Sizes = append(k.Sizes, traced(q.Nest[i], i, i == 1))
	}
	line := traced(q.Nest[3], 0, false)
	got := trace.Guides(k, line, 1, line.Corners[2]) // the shoulder, 2 mm from size to size
	if len(got) != 1 || worst(got[0], q.Nest[2].Edges[1]) > 1e-3 {
		t.Errorf("%d lines guide the shoulder", len(got))
	}
}
