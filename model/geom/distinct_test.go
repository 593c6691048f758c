package geom

import (
	"math"
	"slices"
	"testing"
)

// A line wound round itself hundreds of times crosses itself tens of thousands of
// times; each crossing is told once, whatever order they were found in, as holding
// every one against every other says.
func TestDistinctDropsRepeatsAlone(t *testing.T) {
	const tol = 0.01
	var pts []Point
	for i := range 120 {
		sin, cos := math.Sincos(float64(i) * 2.5)
		pts = append(pts, Pt(300*cos, 300*sin))
	}
	path := Polyline(pts...)
	found := SelfCrossings(path, tol)
	if len(found) < 1000 {
		t.Fatalf("only %d crossings", len(found))
	}
	for i, x := range found {
		for _, y := range found[:i] {
			if x.At.Dist(y.At) <= 2*tol && path.near(x.IA, x.TA, y.IA, y.TA, 4*tol) && path.near(x.IB, x.TB, y.IB, y.TB, 4*tol) {
				t.Fatalf("%v is told twice", x)
			}
		}
	}
	moved := slices.Clone(found)
	for i := range moved {
		moved[i].At.X += tol * math.Sin(float64(i))
	}
	twice := append(slices.Clone(found), moved...)
	if got := distinct(twice, path, path, tol); len(got) != len(found) {
		t.Errorf("%d crossings out of %d told twice", len(got), len(found))
	}
}
