package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func sample(c Cubic, n int) []Point {
	pts := make([]Point, n+1)
	for k := range pts {
		pts[k] = c.At(float64(k) / float64(n))
	}
	return pts
}

// genBow draws cubics like pattern edges: no loop, handles of fair length.
func genBow() *rapid.Generator[Cubic] {
	return rapid.Custom(func(t *rapid.T) Cubic {
		l := rapid.Float64Range(0.2, 0.45)
		a := rapid.Float64Range(-1, 1)
		r := rapid.Float64Range(50, 400).Draw(t, "chord")
		u := Rotate(a.Draw(t, "a")).ApplyVec(Vec{r, 0}).Scale(l.Draw(t, "l"))
		v := Rotate(a.Draw(t, "b")).ApplyVec(Vec{r, 0}).Scale(l.Draw(t, "m"))
		return Cubic{Pt(0, 0), Pt(0, 0).Add(u), Pt(r, 0).Add(v.Scale(-1)), Pt(r, 0)}
	})
}

func TestFitFindsTheCubicAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := genBow().Draw(t, "cubic")
		var start, end Vec
		if rapid.Bool().Draw(t, "directions set") {
			start, end = c.Tangent(0), c.Tangent(1)
		}
		p, off, err := Fit(sample(c, 40), start, end, 1)
		if err != nil || off > 0.005 {
			t.Fatalf("%g mm off, %v", off, err)
		}
		for k := range 20 {
			if _, _, d := p.Nearest(c.At(float64(k)/19), 1e-6); d > 0.005 {
				t.Fatalf("%g mm from the curve", d)
			}
		}
	})
}

func TestFitKeepsDirectionsAndIsSmooth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := genBow().Draw(t, "cubic")
		n := rapid.IntRange(1, 5).Draw(t, "n")
		pts := sample(c, 40)
		noise := rapid.SliceOfN(genPoint(0.3), 41, 41).Draw(t, "noise")
		for k := range pts {
			pts[k] = pts[k].Add(Vec(noise[k]))
		}
		p, off, err := Fit(pts, c.Tangent(0), c.Tangent(1), n)
		if err != nil || len(p) != n || p.Validate() != nil {
			t.Fatalf("%v, %v", p, err)
		}
		if p.Start() != pts[0] || p.End() != pts[40] {
			t.Fatal("the ends are not the end points")
		}
		if p.StartDir().Sub(c.Tangent(0)).Len() > 1e-9 || p.EndDir().Sub(c.Tangent(1)).Len() > 1e-9 {
			t.Fatal("an end direction was not kept")
		}
		for i := 1; i < n; i++ {
			if p[i-1].Tangent(1).Sub(p[i].Tangent(0)).Len() > 1e-9 {
				t.Fatalf("a corner at joint %d", i)
			}
		}
		if off > 2 {
			t.Fatalf("%g mm off with noise of 0.3", off)
		}
	})
}

// A cubic for an arc of angle a departs from the circle by about
// r (4/27) sin(a/4)^6 / cos(a/4)^2 when its ends lie on it and its directions
// are kept (common knowledge of this cubic): 0.0545 mm for four of them at
// r = 100, 0.0143 for five, 0.0048 for six, 0.0019 for seven, 0.00085 for
// eight. Least squares must not need more.
func TestFitCircle(t *testing.T) {
	var pts []Point
	for k := 0; k <= 400; k++ {
		s, c := math.Sincos(2 * math.Pi * float64(k) / 400)
		pts = append(pts, Pt(100*c, 100*s))
	}
	for _, e := range []struct {
		tol    float64
		cubics int
	}{{0.1, 4}, {0.01, 6}, {0.001, 8}} {
		p, off, err := Fit(pts, Vec{0, 1}, Vec{0, 1}, e.cubics)
		if err != nil || off > e.tol {
			t.Fatalf("%d cubics are %g mm off, not %g: %v", e.cubics, off, e.tol, err)
		}
		for _, q := range p.Flatten(0.01) {
			if d := math.Abs(Vec(q).Len() - 100); d > 1.5*e.tol {
				t.Errorf("within %g: %g mm off between the points", e.tol, d)
			}
		}
	}
}

func TestFitOfFewOrBadPoints(t *testing.T) {
	p, off, err := Fit([]Point{{0, 0}, {30, 0}}, Vec{}, Vec{}, 1)
	if err != nil || off > 1e-9 || !p.IsStraight(1e-6) {
		t.Errorf("two points: %v, %g, %v", p, off, err)
	}
	p, off, err = Fit([]Point{{0, 0}, {0, 0}, {30, 0}, {30, 0}}, Vec{0, 1}, Vec{}, 3)
	if err != nil || off > 1e-6 || p.StartDir().Sub(Vec{0, 1}).Len() > 1e-9 {
		t.Errorf("repeated points: %v, %g, %v", p, off, err)
	}
	for name, pts := range map[string][]Point{
		"none": nil, "one": {{1, 1}}, "the same twice": {{1, 1}, {1, 1}}, "not a number": {{0, 0}, {math.NaN(), 0}, {2, 2}},
	} {
		if _, _, err := Fit(pts, Vec{}, Vec{}, 1); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if _, _, err := Fit([]Point{{0, 0}, {1, 1}}, Vec{}, Vec{}, 0); err == nil {
		t.Error("no curves asked for: no error")
	}
}

func BenchmarkFit(b *testing.B) {
	c := Cubic{Pt(0, 0), Pt(20, 60), Pt(80, 90), Pt(150, 40)}
	pts := sample(c, 60)
	for b.Loop() {
		if _, _, err := Fit(pts, c.Tangent(0), c.Tangent(1), 1); err != nil {
			b.Fatal(err)
		}
	}
}
