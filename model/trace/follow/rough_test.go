package follow

import (
	"math"
	"math/rand"
	"testing"

	"quarterstep/model/geom"
)

// shaken is points a print and a picture would give of y over x, every so many mm.
func shaken(to, step float64, y func(x float64) float64) []geom.Point {
	r := rand.New(rand.NewSource(7))
	var out []geom.Point
	for x := 0.0; x <= to; x += step {
		out = append(out, geom.Pt(x, y(x)+0.06*r.NormFloat64()))
	}
	return out
}

// A straight seam with the cap of a dart in it is one straight line, and the cap is
// told of; a straight seam without one is not.
func TestADartsCapLeavesTheSeamStraight(t *testing.T) {
	dart := func(x float64) float64 { return math.Max(0, 3-math.Abs(x-75)*0.4) }
	pts := even(shaken(150, 1.1, dart))
	path := rough(pts, DefaultTol)
	if len(path) != 1 || !path.IsStraight(0.01) {
		t.Fatalf("drawn in %d curves", len(path))
	}
	d, ok := stickingOut(path, pts)
	if !ok || math.Abs(d.At.X-75) > 4 {
		t.Errorf("the cap is told of at %v, %v", d.At, ok)
	}
	if d, ok := stickingOut(path, shaken(150, 1.1, func(float64) float64 { return 0 })); ok {
		t.Errorf("a straight seam is doubted at %v", d.At)
	}
}

// A long, gently bent edge whose last corner was clicked 1.5 mm beside it keeps to
// the print up to an inch from the corner, in few curves, and ends on the corner.
func TestAnEdgeIsLedToACornerBesideIt(t *testing.T) {
	bent := func(x float64) float64 { return 12 * (x / 250) * (x / 250) }
	pts := even(shaken(250, 1.1, bent))
	corner := geom.Pt(252, bent(252)-1.5)
	pts[len(pts)-1] = corner
	path := rough(pts, DefaultTol)
	if len(path) > mostDrawn || path.End() != corner {
		t.Fatalf("%d curves to %v", len(path), path.End())
	}
	for _, q := range dense(path, 0.5) {
		if q.X < 225 && math.Abs(q.Y-bent(q.X)) > 0.35 {
			t.Fatalf("at %v the print lies at %.2f", q, bent(q.X))
		}
	}
}

// A way with corners in it has no more points than it needs.
func TestAWayWithCornersHasFewPoints(t *testing.T) {
	saw := func(x float64) float64 { return math.Abs(math.Mod(x, 40)-20) * 0.8 }
	pts := shaken(160, 1, saw)
	got := without(pts, roughTol)
	if len(got) > 14 {
		t.Errorf("%d points for 8 straight stretches", len(got))
	}
	for _, p := range pts {
		if _, d := nearestOf(dense(geom.Polyline(got...), 0.2), p); d > roughTol+0.05 {
			t.Fatalf("%v is left out by %.2f mm", p, d)
		}
	}
}
