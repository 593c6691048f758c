package geom

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// ladder is the tolerances every approximation is held to, in mm.
var ladder = []float64{1, 1e-2, 1e-4, 1e-6, 1e-9}

// Closed forms by hand where a formula stands beside the value; the others
// from 30-digit quadrature in a reference library for arithmetic at any
// precision.
var exactCurves = []struct {
	name   string
	c      Cubic
	length float64
}{
	{"y=x², sqrt(5)/2+asinh(2)/4", Cubic{Pt(0, 0), Pt(1./3, 0), Pt(2./3, 1./3), Pt(1, 1)}, math.Sqrt(5)/2 + math.Asinh(2)/4},
	{"(t²,t³), (13 sqrt(13)-8)/27", Cubic{Pt(0, 0), Pt(0, 0), Pt(1./3, 0), Pt(1, 1)}, (13*math.Sqrt(13) - 8) / 27},
	{"S", Cubic{Pt(0, 0), Pt(2, 0), Pt(3, 5), Pt(6, 6)}, 8.720188306080255},
	{"quarter", Cubic{Pt(0, 0), Pt(0, 3), Pt(2.5, 6), Pt(6, 6)}, 9.400190835776096},
	{"crossed handles", Cubic{Pt(0, 0), Pt(10, 0), Pt(0, 10), Pt(10, 10)}, 16.765426274202856},
	{"quarter circle by 4(sqrt(2)-1)/3", quarterArc(1), 1.5710166980738558},
	{"3-4-5", Line(Pt(0, 0), Pt(3, 4)), 5},
	{"straight, there and half back", Cubic{Pt(0, 0), Pt(4, 0), Pt(-3, 0), Pt(1, 0)}, thereAndBack()},
	{"a point", Cubic{Pt(7, 7), Pt(7, 7), Pt(7, 7), Pt(7, 7)}, 0},
}

// quarterArc is the usual cubic for a quarter circle of radius r about (0, 0).
func quarterArc(r float64) Cubic {
	k := r * 4 * (math.Sqrt2 - 1) / 3
	return Cubic{Pt(r, 0), Pt(r, k), Pt(k, r), Pt(0, r)}
}

// thereAndBack is the length of x(t) = 12 t - 33 t² + 22 t³ on 0 to 1, which
// turns at the roots of 12 - 66 t + 66 t².
func thereAndBack() float64 {
	x := func(t float64) float64 { return 12*t - 33*t*t + 22*t*t*t }
	h := math.Sqrt(66*66-4*66*12) / 132
	a, b := x(0.5-h), x(0.5+h)
	return a + (a - b) + (1 - b)
}

func TestLengthMeetsClosedForms(t *testing.T) {
	for _, e := range exactCurves {
		for _, tol := range ladder {
			got, err := e.c.Length(tol)
			if err != nil || math.Abs(got-e.length) > tol {
				t.Errorf("%s within %g: length %.12f, %v; want %.12f", e.name, tol, got, err, e.length)
			}
		}
	}
}

// A cusp makes guessing rules fail: cubics with the turning point at any
// place, against fine chords and Richardson's extrapolation, (4 a - b)/3.
func TestLengthNearCusps(t *testing.T) {
	for _, open := range []float64{0, 1e-9, 1e-6, 1e-3, 0.1} {
		c := Cubic{Pt(0, 0), Pt(100+open, 100), Pt(0, 100), Pt(100, 0)}
		chords := func(n int) (sum float64) {
			for k := range n {
				sum += c.At(float64(k) / float64(n)).Dist(c.At(float64(k+1) / float64(n)))
			}
			return sum
		}
		want := (4*chords(1<<18) - chords(1<<17)) / 3
		got, err := c.Length(1e-8)
		if err != nil || math.Abs(got-want) > 1e-6 {
			t.Errorf("handles %g past a cusp: length %.10f, %v; want %.10f", open, got, err, want)
		}
	}
}

func TestLengthRefusesWhatItCannotMeet(t *testing.T) {
	c := quarterArc(100)
	bad := Cubic{Pt(0, 0), Pt(math.NaN(), 0), Pt(1, 1), Pt(2, 2)}
	for _, tol := range []float64{0, -1, math.NaN(), 1e-300} {
		if _, err := c.Length(tol); err == nil {
			t.Errorf("tolerance %g was taken", tol)
		}
	}
	if _, err := bad.Length(0.1); err == nil {
		t.Error("a coordinate that is not a number was measured")
	}
	if _, err := Measure(Path{c, bad}, 0.1); err == nil {
		t.Error("Measure took a coordinate that is not a number")
	}
}

func TestEllipsePerimeter(t *testing.T) {
	// 4 a E(e) by reference quadrature: a = 3, b = 2 and a = 10, b = 1. The
	// cubic quarter is not the ellipse; its own departure is below 3 in 10,000.
	for _, e := range []struct{ a, b, want float64 }{{3, 2, 15.86543958929059}, {10, 1, 40.63974180100896}} {
		l, err := quarterArc(1).Transform(ScaleXY(e.a, e.b)).Length(1e-9)
		if err != nil || math.Abs(4*l-e.want) > 3e-4*e.want {
			t.Errorf("ellipse %g, %g: %g, %v; want about %g", e.a, e.b, 4*l, err, e.want)
		}
	}
}

func genPoint(reach float64) *rapid.Generator[Point] {
	return rapid.Custom(func(t *rapid.T) Point {
		f := rapid.Float64Range(-reach, reach)
		return Pt(f.Draw(t, "x"), f.Draw(t, "y"))
	})
}

// genCubic draws cubics of all kinds, with coincident handles among them.
func genCubic() *rapid.Generator[Cubic] {
	return rapid.Custom(func(t *rapid.T) Cubic {
		p := genPoint(300)
		c := Cubic{p.Draw(t, "P0"), p.Draw(t, "P1"), p.Draw(t, "P2"), p.Draw(t, "P3")}
		switch rapid.IntRange(0, 7).Draw(t, "kind") {
		case 0:
			c.P1 = c.P0
		case 1:
			c.P2 = c.P3
		case 2:
			c.P1, c.P2 = c.P0, c.P3
		case 3:
			c.P3 = c.P0
		}
		return c
	})
}

func genPath() *rapid.Generator[Path] {
	return rapid.Custom(func(t *rapid.T) Path {
		n := rapid.IntRange(1, 4).Draw(t, "n")
		p := rapid.SliceOfN(genPoint(300), 3*n+1, 3*n+1).Draw(t, "controls")
		return FromControls(p)
	})
}

func length(t interface{ Fatal(...any) }, p Path) float64 {
	l, err := p.Length(1e-7)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func TestSplitKeepsLength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := genPath().Draw(t, "path")
		whole := length(t, p)
		s := rapid.Float64Range(0, 1).Draw(t, "share") * whole
		a, b, err := p.SplitAt(s, 1e-6)
		if err != nil {
			t.Fatal(err)
		}
		if a.End() != b.Start() || a.Start() != p.Start() || b.End() != p.End() {
			t.Fatal("the parts do not meet, or lost an end")
		}
		if la, lb := length(t, a), length(t, b); math.Abs(la-s) > 2e-6 || math.Abs(la+lb-whole) > 1e-6 {
			t.Fatalf("%g cut at %g into %g and %g", whole, s, la, lb)
		}
	})
}

func TestPlacesByLengthComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := genCubic().Draw(t, "cubic")
		tol := rapid.SampledFrom([]float64{1e-2, 1e-5, 1e-8}).Draw(t, "tol")
		whole, err := c.Length(1e-9)
		if err != nil {
			t.Fatal(err)
		}
		s := rapid.Float64Range(0, 1).Draw(t, "share") * whole
		u, err := c.ParamAt(s, tol)
		if err != nil {
			t.Fatal(err)
		}
		if back, _ := c.LengthTo(u, 1e-9); math.Abs(back-s) > tol+2e-9 {
			t.Fatalf("%g mm along is at %g, which is %g mm along", s, u, back)
		}
	})
}

func TestMeasuredAgreesWithPath(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := genPath().Draw(t, "path")
		m, err := Measure(p, 1e-6)
		if err != nil {
			t.Fatal(err)
		}
		whole := length(t, p)
		if math.Abs(m.Length()-whole) > 2e-6 {
			t.Fatalf("length %g, want %g", m.Length(), whole)
		}
		s0 := rapid.Float64Range(0, whole).Draw(t, "s0")
		s1 := rapid.Float64Range(0, whole).Draw(t, "s1")
		i, u := m.Locate(s0)
		if back := m.To(i, u); math.Abs(back-s0) > 2e-6 {
			t.Fatalf("%g comes back as %g", s0, back)
		}
		if p[i].At(u).Dist(m.At(s0)) > 1e-9 {
			t.Fatal("At and Locate differ")
		}
		part := m.Between(s0, s1)
		if err := part.Validate(); err != nil {
			t.Fatal(err)
		}
		if l := length(t, part); math.Abs(l-math.Abs(s1-s0)) > 4e-6 {
			t.Fatalf("from %g to %g is %g long", s0, s1, l)
		}
	})
}

func TestMeasuredEnds(t *testing.T) {
	p := Path{Line(Pt(0, 0), Pt(10, 0)), {Pt(10, 0), Pt(10, 0), Pt(10, 0), Pt(10, 0)}, Line(Pt(10, 0), Pt(10, 5))}
	m, err := Measure(p, 1e-9)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range []struct {
		s  float64
		at Point
		d  Vec
	}{{-3, Pt(0, 0), Vec{1, 0}}, {4, Pt(4, 0), Vec{1, 0}}, {10, Pt(10, 0), Vec{1, 0}}, {12, Pt(10, 2), Vec{0, 1}}, {99, Pt(10, 5), Vec{0, 1}}} {
		if m.At(e.s).Dist(e.at) > 1e-9 || m.Tangent(e.s).Sub(e.d).Len() > 1e-9 {
			t.Errorf("%g mm along: %v heading %v; want %v heading %v", e.s, m.At(e.s), m.Tangent(e.s), e.at, e.d)
		}
	}
	var none Measured
	if none.Length() != 0 || none.Between(0, 1) != nil || none.At(1) != (Point{}) || none.Tangent(1) != (Vec{}) {
		t.Error("the zero Measured is not an empty path")
	}
	if _, _, err := (Path{}).SplitAt(1, 0.1); err == nil {
		t.Error("an empty line was cut")
	}
}

func TestRigidMovesKeepMeasures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := genPath().Draw(t, "path")
		m := Rotate(rapid.Float64Range(-4, 4).Draw(t, "angle"))
		m.E, m.F = rapid.Float64Range(-500, 500).Draw(t, "x"), rapid.Float64Range(-500, 500).Draw(t, "y")
		q := p.Transform(m)
		if a, b := length(t, p), length(t, q); math.Abs(a-b) > 1e-6 {
			t.Fatalf("length %g became %g", a, b)
		}
		if a, b := p.Area(), q.Area(); math.Abs(a-b) > 1e-6 {
			t.Fatalf("area %g became %g", a, b)
		}
		at := genPoint(400).Draw(t, "point")
		_, _, a := p.Nearest(at, 1e-7)
		if _, _, b := q.Nearest(m.Apply(at), 1e-7); math.Abs(a-b) > 1e-6 {
			t.Fatalf("distance %g became %g", a, b)
		}
	})
}

func BenchmarkLength(b *testing.B) {
	c := Cubic{Pt(0, 0), Pt(20, 60), Pt(80, 90), Pt(150, 40)}
	for _, tol := range []float64{1e-2, 1e-6} {
		b.Run(fmt.Sprint(tol), func(b *testing.B) {
			for b.Loop() {
				if _, err := c.Length(tol); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkMeasuredAt(b *testing.B) {
	m, err := Measure(Path{{Pt(0, 0), Pt(20, 60), Pt(80, 90), Pt(150, 40)}}, 1e-3)
	if err != nil {
		b.Fatal(err)
	}
	s := 0.0
	for b.Loop() {
		m.At(s)
		if s += 0.37; s > m.Length() {
			s = 0
		}
	}
}
