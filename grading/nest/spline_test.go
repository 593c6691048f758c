package nest

import (
	"testing"

	"quarterstep/model/geom"
)

// A spline of one span is the least-squares cubic: places taken evenly from a
// cubic give that cubic back.
func TestSplineGivesACubicBack(t *testing.T) {
	c := geom.Cubic{P0: geom.Pt(0, 0), P1: geom.Pt(30, 80), P2: geom.Pt(90, -40), P3: geom.Pt(140, 20)}
	pts := make([]geom.Point, 33)
	for i := range pts {
		pts[i] = c.At(float64(i) / 32)
	}
	for _, count := range []int{1, 2, 4, 7} {
		line, off, err := spline(pts, count)
		if err != nil || off > 1e-3 || len(line) != count {
			t.Fatalf("%d spans: %d curves, %g mm off, %v", count, len(line), off, err)
		}
		for i := range 101 {
			at := c.At(float64(i) / 100)
			if _, _, d := line.Nearest(at, 1e-9); d > 1e-7 {
				t.Errorf("%d spans: %g mm off at %d", count, d, i)
			}
		}
		for k := 1; k < count; k++ {
			a, b := line[k-1].P3.Sub(line[k-1].P2), line[k].P1.Sub(line[k].P0)
			if a.Sub(b).Len() > 1e-9 {
				t.Errorf("%d spans: not smooth at joint %d", count, k)
			}
		}
	}
}
