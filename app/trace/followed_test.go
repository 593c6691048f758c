package trace_test

import (
	"testing"

	"quarterstep/app/trace"
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
