package trace_test

import (
	"testing"

	"quarterstep/app/trace"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// From two sizes traced, of which the second was begun elsewhere and run the
// other way, the third is proposed where it is printed; a corner put elsewhere
// takes its edges along.
func TestTheNextSizeIsProposed(t *testing.T) {
	q, chart := printed(t)
	h := hand(t)
	k := model.Tracing{Sizes: []model.TracedSize{traced(q.Nest[0], 0, false), traced(q.Nest[1], 2, true)}}
	for _, s := range k.Sizes {
		if _, ok := h.Propose(t.Context(), k, chart, s.Size); ok {
			t.Errorf("size %s is traced and proposed", s.Size)
		}
	}
	want := q.Nest[2]
	p, ok := h.Propose(t.Context(), k, chart, want.Size)
	if !ok {
		t.Fatal("nothing is proposed")
	}
	got := p.Line
	for i, c := range got.Corners {
		if i != 1 && off(geom.Join(want.Edges...), c) > 0.3 { // at the neck the sizes lie 2 mm apart and cross
			t.Errorf("corner %d is proposed at %v, off its line", i+1, c)
		}
	}
	moved := p.Corrected(1, got.Corners[1].Add(geom.Vec{X: 3}))
	if moved.Line.Edges[0].End() != moved.Line.Corners[1] || moved.Line.Edges[1].Start() != moved.Line.Corners[1] {
		t.Error("the edges stayed behind their corner")
	}
	if p.Line.Corners[1] == moved.Line.Corners[1] || p.Line.Edges[0].End() == moved.Line.Corners[1] {
		t.Error("the proposal before was changed")
	}
	if _, ok := (trace.Hand{}).Propose(t.Context(), k, chart, want.Size); ok {
		t.Error("a size is proposed without lines")
	}
	if _, ok := h.Propose(t.Context(), k, chart, "not on the chart"); ok {
		t.Error("a size off the chart is proposed")
	}
}
