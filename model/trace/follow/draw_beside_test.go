package follow

import (
	"testing"

	"quarterstep/model/geom"
)

// A corner that lies a little behind the line and beside it still gives an edge
// of few curves, close to the line but for its first millimetres.
func TestACornerBesideTheLineLeavesTheEdgeClean(t *testing.T) {
	seen := []geom.Point{geom.Pt(0, 0)}
	for x := -1.5; x <= 60; x += 0.5 {
		seen = append(seen, geom.Pt(x, 0.9))
	}
	seen = append(seen, geom.Pt(60, 0.9))
	path, err := draw(seen, DefaultTol)
	if err != nil {
		t.Fatal(err)
	}
	if len(path) > mostDrawn {
		t.Errorf("drawn in %d curves", len(path))
	}
	for _, q := range dense(path, 0.5) {
		if q.X > 10 && (q.Y < 0.6 || q.Y > 1.2) {
			t.Fatalf("the edge lies at %v, the line at 0.9", q)
		}
	}
}
