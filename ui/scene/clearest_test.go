package scene

import (
	"testing"

	"quarterstep/model/geom"
)

// The words that name a piece keep clear of what is drawn on it, where the piece
// has room for them.
func TestLabelsKeepClear(t *testing.T) {
	square := geom.Polyline(geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 100), geom.Pt(0, 100), geom.Pt(0, 0))
	arrow := [][]geom.Point{{geom.Pt(45, 5), geom.Pt(45, 95)}, {geom.Pt(5, 70), geom.Pt(95, 70)}}
	in := Input{Scale: 1}
	at, ok := in.clearest(square, arrow, nil, 40, 30)
	if !ok || at.X-20 < 45 || at.X+20 > 100 || at.Y+15 > 70 && at.Y-15 < 70 {
		t.Errorf("placed at %v (%v), over a line", at, ok)
	}
	if _, ok := in.clearest(square, arrow, nil, 110, 30); ok {
		t.Error("words wider than the piece are said to fit in")
	}
	at, ok = in.clearest(square, arrow, nil, 60, 60) // over one of them
	if !ok || at.X < 30 || at.X > 70 || at.Y < 30 || at.Y > 70 {
		t.Errorf("placed at %v (%v), not within the piece", at, ok)
	}
}
