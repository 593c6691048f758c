package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Lines no pattern has, with cusps, loops and points among them, must give an
// answer that is a path or an error: never a panic, never a number that is
// none.
func TestOddLinesAreAnswered(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 4).Draw(t, "n")
		edges := make([]Path, n)
		first := genPoint(100).Draw(t, "first")
		at := first
		for k := range edges {
			c := genCubic().Draw(t, "cubic")
			c = c.Move(at.Sub(c.P0))
			if k == n-1 {
				c.P3 = first
			}
			if rapid.IntRange(0, 5).Draw(t, "kind") == 0 {
				c = Line(c.P0, c.P3)
			}
			edges[k], at = Path{c}, c.P3
		}
		whole := Join(edges...)
		d := rapid.Float64Range(-30, 30).Draw(t, "d")
		for _, e := range edges {
			if o, err := OffsetEdge(e, d, 0.01); err == nil && (len(o) == 0 || o.Validate() != nil) {
				t.Fatalf("%v: %v", e, o)
			}
		}
		if out, err := OffsetOutline(edges, all(n, d), 0.01); err == nil {
			ring := Join(out...)
			if ring.Validate() != nil || !ring.Closed(joinTol) || len(out) != n {
				t.Fatalf("%v", out)
			}
		}
		for _, x := range append(SelfCrossings(whole, 0.01), Intersect(whole, whole.Move(Vec{3, 4}), 0.01)...) {
			if !x.At.Finite() || x.TA < 0 || x.TA > 1 || x.TB < 0 || x.TB > 1 {
				t.Fatalf("%v", x)
			}
		}
		if a := whole.Area(); math.IsNaN(a) {
			t.Fatal("area")
		}
	})
}

func TestPointsAndEmptyPathsAreAnswered(t *testing.T) {
	p := Pt(3, 4)
	dot := Cubic{p, p, p, p}
	if l, err := dot.Length(1e-3); l != 0 || err != nil {
		t.Errorf("length %g, %v", l, err)
	}
	if u, d := dot.Nearest(Pt(0, 0), 1e-3); d != 5 || u != 0 {
		t.Errorf("nearest %g, %g", u, d)
	}
	if u, err := dot.ParamAt(1, 1e-3); u < 0 || u > 1 || err != nil {
		t.Errorf("place %g, %v", u, err)
	}
	if pts := dot.Flatten(0.1); len(pts) != 2 || pts[0] != p {
		t.Errorf("flattened to %v", pts)
	}
	if !dot.IsStraight(0) || dot.Curvature(0.5) != 0 || dot.Inflections() != nil || dot.Bounds() != (Box{p, p}) {
		t.Error("a point has a shape")
	}
	if Intersect(Path{dot}, nil, 0.1) != nil || Intersect(Path{dot}, Path{Line(Pt(0, 0), Pt(1, 0))}, 0.1) != nil {
		t.Error("a point crosses")
	}
	var none Path
	if i, u, d := none.Nearest(p, 0.1); i != 0 || u != 0 || !math.IsInf(d, 1) {
		t.Error("an empty path is near")
	}
	if none.Flatten(0.1) != nil || !none.Bounds().Empty() || none.Closed(1) || none.Validate() != nil {
		t.Error("an empty path has a shape")
	}
}

func BenchmarkOffsetKinkedLine(b *testing.B) {
	var pts []Point
	for k := range 300 {
		s, c := math.Sincos(float64(k) / 300)
		pts = append(pts, Pt(200*c, 200*s))
	}
	p := Polyline(pts...)
	for b.Loop() {
		if _, err := OffsetEdge(p, 15, 0.005); err != nil {
			b.Fatal(err)
		}
	}
}
