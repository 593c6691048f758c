package geom

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/tdewolff/canvas"
	"pgregory.net/rapid"
)

func sides(p Path) []Path {
	out := make([]Path, len(p))
	for k := range p {
		out[k] = p[k : k+1]
	}
	return out
}

func all(n int, d float64) []float64 {
	out := make([]float64, n)
	for k := range out {
		out[k] = d
	}
	return out
}

// Steiner's formula with mitred corners: area A + P d + d² sum cot(inner
// angle/2), outline P + 2 d sum cot(inner angle/2); inwards with d negative.
func TestMitredPolygons(t *testing.T) {
	for _, e := range []struct {
		name            string
		p               Path
		d               float64
		area, perimeter float64
	}{
		{"square of 10", ring(Pt(0, 0), Pt(10, 0), Pt(10, 10), Pt(0, 10)), 1.5, 169, 52},
		{"square of 10, inwards", ring(Pt(0, 0), Pt(10, 0), Pt(10, 10), Pt(0, 10)), -1.5, 49, 28},
		{"3-4-5", ring(Pt(0, 0), Pt(4, 0), Pt(0, 3)), 1, 24, 24},
		{"L", ring(Pt(0, 0), Pt(6, 0), Pt(6, 2), Pt(2, 2), Pt(2, 5), Pt(0, 5)), 0.5, 18 + 11 + 0.25*4, 22 + 4},
		{"L, inwards", ring(Pt(0, 0), Pt(6, 0), Pt(6, 2), Pt(2, 2), Pt(2, 5), Pt(0, 5)), -0.5, 18 - 11 + 0.25*4, 22 - 4},
	} {
		for _, p := range []Path{e.p, e.p.Reverse()} {
			out, err := OffsetOutline(sides(p), all(len(p), e.d), 1e-3)
			if err != nil {
				t.Errorf("%s: %v", e.name, err)
				continue
			}
			whole := Join(out...)
			l := length(t, whole)
			if math.Abs(math.Abs(whole.Area())-e.area) > 1e-9 || math.Abs(l-e.perimeter) > 1e-6 || !whole.Closed(0) || len(out) != len(p) {
				t.Errorf("%s: area %g, outline %g; want %g, %g", e.name, whole.Area(), l, e.area, e.perimeter)
			}
		}
	}
}

func TestWidthPerEdge(t *testing.T) {
	p := ring(Pt(0, 0), Pt(10, 0), Pt(10, 20), Pt(0, 20))
	out, err := OffsetOutline(sides(p), []float64{1, 2, 3, 0}, 1e-3)
	if err != nil {
		t.Fatal(err)
	}
	// Up 1, right 2, down 3, the left edge stays on its line and grows.
	want := []Point{{0, -1}, {12, -1}, {12, 23}, {0, 23}}
	for k, e := range out {
		if e.Start().Dist(want[k]) > 1e-9 || e.End() != out[(k+1)%4].Start() {
			t.Errorf("edge %d starts at %v, want %v", k, e.Start(), want[k])
		}
	}
	// Two widths on one straight line meet in a step square to it.
	q := Polyline(Pt(0, 0), Pt(5, 0), Pt(10, 0), Pt(10, 10), Pt(0, 10), Pt(0, 0))
	out, err = OffsetOutline(sides(q), []float64{1, 2, 1, 1, 1}, 1e-3)
	if err != nil {
		t.Fatal(err)
	}
	if a := Join(out...).Area(); math.Abs(a-(144+6)) > 1e-9 {
		t.Errorf("with a step: area %g, want 150", a)
	}
}

func TestMitreLimit(t *testing.T) {
	// A mitre reaches d / sin(inner angle / 2) from its corner: under 4 d for
	// angles above 28.955 degrees (the rule of SVG 2, chapter 13).
	for _, e := range []struct {
		half  float64 // degrees
		sharp bool
	}{{14.6, true}, {14.3, false}} {
		s, c := math.Sincos(e.half * math.Pi / 180)
		p := ring(Pt(0, 0), Pt(100*c, -100*s), Pt(100*c, 100*s))
		out, err := OffsetOutline(sides(p), all(3, 2), 1e-3)
		if err != nil {
			t.Fatal(err)
		}
		tip := Vec(out[0].Start()).Len()
		if want := 2 / s; e.sharp != (math.Abs(tip-want) < 1e-6) {
			t.Errorf("half angle %g: the tip is at %g, a mitre %g", e.half, tip, want)
		}
	}
}

func TestCircleOffset(t *testing.T) {
	// A circle of r gives one of r + d; 5/8 in = 15.875 mm on 50 mm gains
	// 2 pi d = 99.7456 mm. The cubic circle itself is within 0.0273 % of r.
	for _, d := range []float64{15.875, -15.875, -45} {
		for _, cut := range [][]Path{{circle(50, Pt(7, 9))}, sides(circle(50, Pt(7, 9)))} {
			out, err := OffsetOutline(cut, all(len(cut), d), 1e-3)
			if err != nil {
				t.Fatalf("%g: %v", d, err)
			}
			for _, p := range Join(out...).Flatten(0.001) {
				if r := p.Dist(Pt(7, 9)); math.Abs(r-50-d) > 0.0137+0.003 {
					t.Fatalf("%g: a point at %g from the middle", d, r)
				}
			}
		}
	}
	for _, d := range []float64{-50.1, -80} {
		_, err := OffsetOutline(sides(circle(50, Pt(0, 0))), all(4, d), 1e-3)
		var edge *EdgeError
		if !errors.As(err, &edge) {
			t.Errorf("%g inwards: %v", d, err)
		}
	}
}

func TestOffsetEdgeKeepsItsDistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := genBow().Draw(t, "cubic")
		d := rapid.Float64Range(-20, 20).Draw(t, "d")
		tol := rapid.SampledFrom([]float64{0.1, 0.01, 0.001}).Draw(t, "tol")
		o, err := OffsetEdge(Path{c}, d, tol)
		if err != nil {
			return // too tight: the table below holds that case
		}
		if err := o.Validate(); err != nil {
			t.Fatal(err)
		}
		for _, q := range o {
			for k := range 20 {
				p := q.At(float64(k) / 19)
				if _, _, got := (Path{c}).Nearest(p, 1e-9); math.Abs(got-math.Abs(d)) > tol+1e-9 {
					t.Fatalf("%g mm away instead of %g within %g", got, d, tol)
				}
			}
		}
	})
}

func TestOffsetEdgeCases(t *testing.T) {
	round := Join(Polyline(Pt(0, 0), Pt(90, 0)), Path{{Pt(90, 0), Pt(95.5228, 0), Pt(100, 4.4772), Pt(100, 10)}}, Polyline(Pt(100, 10), Pt(100, 90)))
	// Rounded by 10 mm, 15 mm inside is a sharp corner at (85, 15).
	o, err := OffsetEdge(round, -15, 1e-3)
	if err != nil {
		t.Fatal(err)
	}
	if _, _, d := o.Nearest(Pt(85, 15), 1e-6); d > 1e-3 || math.Abs(length(t, o)-85-75) > 1e-2 {
		t.Errorf("inside a tight corner: %g mm off, %g long; want 160", d, length(t, o))
	}
	bent := Polyline(Pt(0, 0), Pt(100, 0), Pt(100, 100))
	for _, e := range []struct{ d, want float64 }{{10, 220}, {-10, 180}, {0, 200}} {
		o, err := OffsetEdge(bent, e.d, 1e-3)
		if err != nil || math.Abs(length(t, o)-e.want) > 1e-6 {
			t.Errorf("beside a square corner at %g: %v, %v; want %g long", e.d, o, err, e.want)
		}
	}
	// Zero-length cubics and handles change nothing.
	odd := Path{{Pt(0, 0), Pt(0, 0), Pt(100, 0), Pt(100, 0)}, {Pt(100, 0), Pt(100, 0), Pt(100, 0), Pt(100, 0)}, Line(Pt(100, 0), Pt(150, 0))}
	if o, err := OffsetEdge(odd, 7, 1e-3); err != nil || !o.IsStraight(1e-3) || o.Start().Dist(Pt(0, -7)) > 1e-9 || o.End().Dist(Pt(150, -7)) > 1e-9 {
		t.Errorf("without handles: %v, %v", o, err)
	}
	for name, f := range map[string]func() (Path, error){
		"empty":        func() (Path, error) { return OffsetEdge(nil, 1, 0.1) },
		"no tolerance": func() (Path, error) { return OffsetEdge(bent, 1, 0) },
		"no number":    func() (Path, error) { return OffsetEdge(bent, math.NaN(), 0.1) },
		"a point":      func() (Path, error) { return OffsetEdge(Path{Line(Pt(1, 1), Pt(1, 1))}, 1, 0.1) },
		"broken":       func() (Path, error) { return OffsetEdge(Path{bent[0], Line(Pt(0, 9), Pt(1, 9))}, 1, 0.1) },
		"all too tight": func() (Path, error) {
			return OffsetEdge(Path{quarterArc(10)}, -30, 0.1)
		},
	} {
		if o, err := f(); err == nil {
			t.Errorf("%s: %v", name, o)
		}
	}
}

func TestOutlineErrorsNameTheEdge(t *testing.T) {
	strip := ring(Pt(0, 0), Pt(100, 0), Pt(100, 20), Pt(0, 20))
	hourglass := ring(Pt(0, 0), Pt(100, 0), Pt(52, 50), Pt(100, 100), Pt(0, 100), Pt(48, 50))
	for _, e := range []struct {
		name string
		p    Path
		d    float64
	}{{"strip", strip, -11}, {"hourglass", hourglass, -5}, {"square notch", ring(Pt(0, 0), Pt(45, 0), Pt(45, 30), Pt(55, 30), Pt(55, 0), Pt(100, 0), Pt(100, 60), Pt(0, 60)), 8}} {
		_, err := OffsetOutline(sides(e.p), all(len(e.p), e.d), 0.01)
		var edge *EdgeError
		if !errors.As(err, &edge) || !strings.HasPrefix(err.Error(), "edge ") {
			t.Errorf("%s: %v", e.name, err)
		}
	}
	for name, f := range map[string]func() ([]Path, error){
		"none":      func() ([]Path, error) { return OffsetOutline(nil, nil, 0.1) },
		"widths":    func() ([]Path, error) { return OffsetOutline(sides(strip), all(3, 1), 0.1) },
		"open":      func() ([]Path, error) { return OffsetOutline(sides(strip[:3]), all(3, 1), 0.1) },
		"an empty":  func() ([]Path, error) { return OffsetOutline([]Path{strip, nil}, all(2, 1), 0.1) },
		"tolerance": func() ([]Path, error) { return OffsetOutline(sides(strip), all(4, 1), -1) },
	} {
		if _, err := f(); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// bodice is an invented front bodice of seven edges, in mm, clockwise on the
// paper: neck, shoulder, armhole, side, waist in two, centre.
func bodice() []Path {
	return []Path{
		{{Pt(0, 75), Pt(38, 75), Pt(66, 40), Pt(68, 0)}},
		Polyline(Pt(68, 0), Pt(190, 42)),
		{{Pt(190, 42), Pt(180, 100), Pt(172, 130), Pt(176, 160)}, {Pt(176, 160), Pt(182, 200), Pt(215, 208), Pt(245, 205)}},
		Polyline(Pt(245, 205), Pt(228, 400)),
		{{Pt(228, 400), Pt(180, 408), Pt(150, 412), Pt(110, 415)}},
		{{Pt(110, 415), Pt(70, 418), Pt(40, 420), Pt(0, 420)}},
		Polyline(Pt(0, 420), Pt(0, 75)),
	}
}

func TestBodiceAllowances(t *testing.T) {
	for _, d := range []float64{15, 15.875, 30, -15, -6, 1e-3} {
		widths := []float64{d, d, d, d, 2 * d, 2 * d, 0}
		out, err := OffsetOutline(bodice(), widths, 0.005)
		if err != nil {
			t.Errorf("%g: %v", d, err)
			continue
		}
		for k, e := range out {
			// No point comes nearer to its old edge; those beside its curves,
			// not its corners, keep to the width.
			m, err := Measure(e, 1e-3)
			if err != nil {
				t.Fatal(err)
			}
			for s := range 21 {
				_, u, got := bodice()[k].Nearest(m.At(m.Length()*float64(s)/20), 1e-6)
				beside := u > 1e-4 && u < 1-1e-4
				if got < math.Abs(widths[k])-0.005 || beside && got > math.Abs(widths[k])+0.005 {
					t.Errorf("%g: edge %d is %g mm from its old line", d, k, got)
				}
			}
		}
		if back, err := OffsetOutline(out, []float64{-d, -d, -d, -d, -2 * d, -2 * d, 0}, 0.005); d > 0 {
			if err != nil {
				t.Errorf("%g and back: %v", d, err)
				continue
			}
			was := Join(bodice()...)
			for _, p := range Join(back...).Flatten(0.1) {
				if _, _, off := was.Nearest(p, 1e-4); off > 0.05 {
					t.Errorf("%g and back: %g mm off at %v", d, off, p)
					break
				}
			}
		}
	}
}

// The oracle is the offset of a public 2D graphics library (tdewolff/canvas),
// on outlines flattened first: its own flattening is looser than asked. It
// rounds its open corners: a corner that turns by f has tan(f/2) - f/2 times
// d² less there than a mitred one.
func TestOffsetAgreesWithOracle(t *testing.T) {
	old := bodice()
	p := Join(old...)
	for _, d := range []float64{5, 15.875, -10} {
		out, err := OffsetOutline(old, all(7, d), 0.005)
		if err != nil {
			t.Fatal(err)
		}
		whole := Join(out...)
		other := oracleOffset(p, d)
		want := polygonArea(other)
		for k, e := range old {
			in, on := e.EndDir(), old[(k+1)%len(old)].StartDir()
			if f := math.Atan2(in.Cross(on), in.Dot(on)); f*d > 0 {
				want += d * d * (math.Tan(math.Abs(f)/2) - math.Abs(f)/2)
			}
		}
		if got := whole.Area(); math.Abs(got-want) > 0.003*length(t, p) {
			t.Errorf("%g: area %g, the oracle %g", d, got, want)
		}
		for _, q := range other {
			if i, u, _ := p.Nearest(q, 1e-6); u*(1-u) < 1e-4 {
				continue // round its corner i or i+1
			} else if _, _, off := whole.Nearest(q, 1e-6); off > 0.01 {
				t.Errorf("%g: %g mm from the oracle beside curve %d", d, off, i)
			}
		}
	}
}

func oracleOffset(p Path, d float64) []Point {
	flat := &canvas.Path{}
	for i, q := range p.Flatten(0.001) {
		if i == 0 {
			flat.MoveTo(q.X, q.Y)
		} else {
			flat.LineTo(q.X, q.Y)
		}
	}
	flat.Close()
	var out []Point
	for _, q := range flat.Offset(d, 0.001).Flatten(0.001).Coords() {
		out = append(out, Pt(q.X, q.Y))
	}
	return out
}

func polygonArea(pts []Point) float64 {
	var sum float64
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		sum += a.X*b.Y - b.X*a.Y
	}
	return math.Abs(sum) / 2
}

func BenchmarkOffsetOutline(b *testing.B) {
	edges, widths := bodice(), []float64{15, 15, 15, 15, 30, 30, 0}
	for b.Loop() {
		if _, err := OffsetOutline(edges, widths, 0.005); err != nil {
			b.Fatal(err)
		}
	}
}
