package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func circle(r float64, at Point) Path {
	p := Path{quarterArc(r)}
	for k := range 3 {
		p = append(p, p[k].Transform(Rotate(math.Pi/2)))
	}
	p[3].P3 = p[0].P0
	return p.Move(Vec(at))
}

func TestIntersectCounts(t *testing.T) {
	for _, e := range []struct {
		name string
		a, b Path
		want []Point
		off  float64
	}{
		{"two lines", Polyline(Pt(0, 0), Pt(10, 10)), Polyline(Pt(0, 10), Pt(10, 0)), []Point{{5, 5}}, 1e-9},
		{"at a joint of both", Polyline(Pt(0, 0), Pt(5, 5), Pt(10, 10)), Polyline(Pt(0, 10), Pt(5, 5), Pt(10, 0)), []Point{{5, 5}}, 1e-9},
		{"ends meet", Polyline(Pt(0, 0), Pt(5, 0)), Polyline(Pt(5, 0), Pt(5, 9)), []Point{{5, 0}}, 1e-9},
		{"short of it", Polyline(Pt(0, 0), Pt(4.9, 0)), Polyline(Pt(5, 0), Pt(5, 9)), nil, 0},
		{"parallel", Polyline(Pt(0, 0), Pt(9, 0)), Polyline(Pt(0, 1), Pt(9, 1)), nil, 0},
		// Radii 50, centres 60 apart: they cross at x = 30, y = ±40; the cubic
		// circle is within 0.014 mm of the true one.
		{"circles", circle(50, Pt(0, 0)), circle(50, Pt(60, 0)), []Point{{30, 40}, {30, -40}}, 0.02},
		{"circle and line", circle(50, Pt(0, 0)), Polyline(Pt(-99, 30), Pt(99, 30)), []Point{{40, 30}, {-40, 30}}, 0.02},
	} {
		got := Intersect(e.a, e.b, 1e-4)
		if len(got) != len(e.want) {
			t.Errorf("%s: %v, want %v", e.name, got, e.want)
			continue
		}
		for i, x := range got {
			if x.At.Dist(e.want[i]) > e.off {
				t.Errorf("%s: %v, want %v", e.name, x.At, e.want[i])
			}
			if d := e.a[x.IA].At(x.TA).Dist(e.b[x.IB].At(x.TB)); d > 2e-4 {
				t.Errorf("%s: the places are %g mm apart", e.name, d)
			}
		}
	}
	if Intersect(circle(1, Pt(0, 0)), circle(1, Pt(1, 0)), 0) != nil {
		t.Error("no tolerance, yet an answer")
	}
}

// A cubic and a straight line cross where a polynomial of degree 3 is zero:
// its sign changes on a fine grid are an independent count.
func TestIntersectFindsEveryCleanCrossing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := genCubic().Draw(t, "cubic")
		dir := Rotate(rapid.Float64Range(0, math.Pi).Draw(t, "angle")).ApplyVec(Vec{1, 0})
		at := genPoint(200).Draw(t, "at")
		line := Polyline(at.Add(dir.Scale(-2000)), at.Add(dir.Scale(2000)))
		side := func(u float64) float64 { return dir.Cross(c.At(u).Sub(at)) }
		want := 0
		for k := range 1000 {
			a, b := side(float64(k)/1000), side(float64(k+1)/1000)
			if math.Abs(a) < 0.05 || math.Abs(b) < 0.05 {
				// Too near a touch or a shared end to be a clean case, unless
				// the line is crossed at speed.
				if math.Abs(b-a) < 0.02 {
					return
				}
			}
			if (a > 0) != (b > 0) {
				want++
			}
		}
		if math.Abs(side(0)) < 0.05 || math.Abs(side(1)) < 0.05 {
			return
		}
		if got := Intersect(Path{c}, line, 1e-3); len(got) != want {
			t.Fatalf("%d crossings, want %d: %v", len(got), want, got)
		}
	})
}

func TestSelfCrossings(t *testing.T) {
	bow := Polyline(Pt(0, 0), Pt(10, 10), Pt(10, 0), Pt(0, 10), Pt(0, 0))
	if got := SelfCrossings(bow, 1e-3); len(got) != 1 || got[0].At.Dist(Pt(5, 5)) > 1e-6 {
		t.Errorf("bow tie: %v", got)
	}
	for name, p := range map[string]Path{
		"square": ring(Pt(0, 0), Pt(9, 0), Pt(9, 9), Pt(0, 9)), "circle": circle(50, Pt(9, 9)),
		"one cubic, closed": {{Pt(0, 0), Pt(50, 0), Pt(0, 50), Pt(0, 0)}}, "empty": nil,
		"sharp point": ring(Pt(0, 0), Pt(100, 1), Pt(0, 2)),
	} {
		if got := SelfCrossings(p, 1e-3); len(got) != 0 {
			t.Errorf("%s: %v", name, got)
		}
	}
	// A symmetric loop crosses itself on its axis, x = 5.
	loop := Path{{Pt(0, 0), Pt(20, 15), Pt(-10, 15), Pt(10, 0)}}
	if got := SelfCrossings(loop, 1e-3); len(got) != 1 || math.Abs(got[0].At.X-5) > 1e-9 || math.Abs(got[0].TA+got[0].TB-1) > 1e-9 {
		t.Errorf("loop: %v", got)
	}
	halves := append(Path{}, loop[0].Sub(0, 0.5), loop[0].Sub(0.5, 1))
	if got := SelfCrossings(halves, 1e-3); len(got) != 1 {
		t.Errorf("loop in two cubics: %v", got)
	}
}
