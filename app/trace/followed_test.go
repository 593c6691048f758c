package trace_test

import (
	"testing"

	"quarterstep/app/trace"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// A line that goes a long way round is told from one that does not, and the
// carried guide ends at the corners it is carried to, its middle by the mean of
// both movements.
func TestALineThatGoesALongWayRound(t *testing.T) {
	guide := geom.Polyline(geom.Pt(0, 0), geom.Pt(50, 0), geom.Pt(100, 0))
	from, to := geom.Pt(0, 4), geom.Pt(100, 6)
	round := geom.Polyline(from, geom.Pt(0, 90), geom.Pt(100, 90), to)
	if trace.LongWay(geom.Polyline(from, to), guide, from, to) || !trace.LongWay(round, guide, from, to) {
		t.Error("the way round is not told from the straight one")
	}
	e := trace.Carried(guide, from, to)
	if e.Path.Start() != from || e.Path.End() != to || len(e.Doubts) != 1 {
		t.Errorf("carried it runs from %v to %v with %d doubts", e.Path.Start(), e.Path.End(), len(e.Doubts))
	}
	if d := off(e.Path, geom.Pt(50, 5)); d > 0.01 {
		t.Errorf("its middle lies %.2f mm off", d)
	}
}

// Guides are far where the corners of every one are, however near their lines
// run: the corners of a neck slide along it from size to size.
func TestGuidesThatAreFar(t *testing.T) {
	from, to := geom.Pt(0, 4), geom.Pt(100, 6)
	near := geom.Polyline(geom.Pt(0, 0), geom.Pt(100, 0))
	along := geom.Polyline(geom.Pt(-20, 4), geom.Pt(100, 6)) // its first corner is far
	for _, c := range []struct {
		guides []geom.Path
		far    bool
	}{{[]geom.Path{near}, false}, {[]geom.Path{along}, true}, {[]geom.Path{along, near}, false}} {
		if got := trace.FarFrom(c.guides, from, to); got != c.far {
			t.Errorf("%v are far: %v", c.guides, got)
		}
	}
}

// The outermost and the innermost size of the scan are traced first, each beside
// the other where it is second: most of both lies on its own line, and what does
// not has a doubt.
func TestTheSmallestAfterTheLargest(t *testing.T) {
	q, _ := printed(t)
	h := hand(t)
	n := len(q.Nest) - 1
	k := model.Tracing{Sizes: []model.TracedSize{traced(q.Nest[n], 0, false)}}
	want := traced(q.Nest[0], 0, false)
	line, right := model.TracedSize{Size: q.Nest[0].Size}, 0
	for j := range want.Corners {
		line.Corners = want.Corners[:j+1]
		e := h.Edge(k, line, j, want.Corners[(j+1)%len(want.Corners)], nil)
		switch w := worst(e.Path, want.Edges[j]); {
		case w <= 0.5:
			right++
		case len(e.Doubts) == 0:
			t.Errorf("edge %d is %.2f mm off without a doubt", j+1, w)
		}
	}
	if right < len(want.Corners)-1 {
		t.Errorf("%d of %d edges are right", right, len(want.Corners))
	}
}
