package geom

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func ring(pts ...Point) Path { return Polyline(append(pts, pts[0])...) }

func TestAreaOfPolygonsAndCurves(t *testing.T) {
	// Shoelace by hand; the sector's 1/2 + 3k/5 - 3k²/20 is the cubic's own.
	k := 4 * (math.Sqrt2 - 1) / 3
	q := quarterArc(1)
	for _, e := range []struct {
		name            string
		p               Path
		area, perimeter float64
	}{
		{"3-4-5", ring(Pt(0, 0), Pt(4, 0), Pt(0, 3)), 6, 12},
		{"L", ring(Pt(0, 0), Pt(6, 0), Pt(6, 2), Pt(2, 2), Pt(2, 5), Pt(0, 5)), 18, 22},
		{"quarter circle", Join(Path{q}, Polyline(Pt(0, 1), Pt(0, 0), Pt(1, 0))), 0.5 + 3*k/5 - 3*k*k/20, 2 + 1.5710166980738558},
		{"empty", nil, 0, 0},
	} {
		l, err := e.p.Length(1e-10)
		if err != nil || math.Abs(e.p.Area()-e.area) > 1e-12 || math.Abs(l-e.perimeter) > 1e-9 {
			t.Errorf("%s: area %.12f, length %.12f, %v; want %g, %g", e.name, e.p.Area(), l, err, e.area, e.perimeter)
		}
		if r := e.p.Reverse().Area(); math.Abs(r+e.area) > 1e-12 {
			t.Errorf("%s the other way: area %g", e.name, r)
		}
	}
}

func TestContains(t *testing.T) {
	disc := Path{quarterArc(100)}
	for k := range 3 {
		disc = append(disc, disc[k].Transform(Rotate(math.Pi/2)))
	}
	rapid.Check(t, func(t *rapid.T) {
		p := genPoint(150).Draw(t, "point")
		// The cubic circle departs from 100 mm outwards by at most 0.0273 mm.
		if r := Vec(p).Len(); math.Abs(r-100) > 0.05 && disc.Contains(p, 0.01) != (r < 100) {
			t.Fatalf("%v, %g mm from the middle: %v", p, r, disc.Contains(p, 0.01))
		}
	})
	if (Path{}).Contains(Pt(0, 0), 1) {
		t.Error("an empty path contains a point")
	}
}

func TestJoin(t *testing.T) {
	a, b := Polyline(Pt(0, 0), Pt(10, 0)), Polyline(Pt(10, 1e-9), Pt(10, 10))
	if p := Join(a, nil, b); len(p) != 2 || p[0].P3 != p[1].P0 || b[0].P0 != Pt(10, 1e-9) {
		t.Errorf("rounding is not closed, or the input was changed: %v", p)
	}
	if p := Join(a, Polyline(Pt(10, 5), Pt(10, 10))); len(p) != 3 || p.Validate() != nil {
		t.Errorf("a gap is not bridged: %v", p)
	}
	if Join() != nil {
		t.Error("nothing joins to something")
	}
}

func TestValidateSaysWhere(t *testing.T) {
	p := Polyline(Pt(0, 0), Pt(10, 0), Pt(10, 10))
	if err := p.Validate(); err != nil {
		t.Error(err)
	}
	p[1].P0.Y = 0.5
	if err := p.Validate(); err == nil || !strings.Contains(err.Error(), "before curve 2") {
		t.Errorf("broken: %v", err)
	}
	p[1].P0.Y = math.Inf(1)
	if err := p.Validate(); err == nil || !strings.Contains(err.Error(), "not a number") {
		t.Errorf("infinite: %v", err)
	}
}

func TestBox(t *testing.T) {
	b := BoxOf(Pt(3, 1), Pt(-1, 5))
	if b.Width() != 4 || b.Height() != 4 || b.Centre() != Pt(1, 3) || b.Empty() {
		t.Errorf("%v", b)
	}
	var none Box
	if none.Union(b) != b || b.Union(none) != b || !none.Empty() || none.Intersects(b) || none.Contains(Pt(0, 0)) || none.Width() != 0 {
		t.Error("the zero Box is not empty")
	}
	if !b.Grow(-3).Empty() || b.Grow(1) != (Box{Pt(-2, 0), Pt(4, 6)}) || !none.Grow(5).Empty() {
		t.Error("Grow")
	}
	if u := b.Union(BoxOf(Pt(9, 9))); u != (Box{Pt(-1, 1), Pt(9, 9)}) {
		t.Errorf("Union %v", u)
	}
	if !b.Intersects(BoxOf(Pt(3, 5), Pt(9, 9))) || b.Intersects(BoxOf(Pt(3.1, 5), Pt(9, 9))) || !b.Contains(Pt(3, 1)) {
		t.Error("sides count as inside")
	}
}

func TestAffine(t *testing.T) {
	// SVG 2, chapter 8: matrix(a b c d e f) takes (x, y) to
	// (a x + c y + e, b x + d y + f); lists apply the last first.
	m := Affine{1, 2, 3, 4, 5, 6}
	if got := m.Apply(Pt(10, 100)); got != Pt(315, 426) {
		t.Errorf("Apply: %v", got)
	}
	if got := m.ApplyVec(Vec{10, 100}); got != (Vec{310, 420}) {
		t.Errorf("ApplyVec: %v", got)
	}
	if got := Translate(Vec{5, 0}).Mul(Rotate(math.Pi / 2)).Apply(Pt(1, 0)); got.Dist(Pt(5, 1)) > 1e-15 {
		t.Errorf("a quarter clockwise and 5 right: %v", got)
	}
	inv, err := m.Inverse()
	if err != nil || inv.Mul(m).Apply(Pt(7, -9)).Dist(Pt(7, -9)) > 1e-12 {
		t.Errorf("Inverse: %v, %v", inv, err)
	}
	if _, err := ScaleXY(1, 0).Inverse(); err == nil {
		t.Error("a flat matrix was undone")
	}
}

func TestRigidFitFindsTheMove(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pts := rapid.SliceOfN(genPoint(300), 3, 20).Draw(t, "points")
		angle := rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "angle")
		move := Translate(Vec(genPoint(500).Draw(t, "shift"))).Mul(Rotate(angle))
		to := make([]Point, len(pts))
		for i, p := range pts {
			to[i] = move.Apply(p)
		}
		m, rms := RigidFit(pts, to)
		if rms > 1e-9 {
			t.Fatalf("%g mm left", rms)
		}
		if m.A*m.D-m.B*m.C < 1-1e-12 {
			t.Fatal("stretched or mirrored")
		}
		if s, _ := TranslateFit(pts, to); s.A != 1 || s.B != 0 {
			t.Fatal("TranslateFit turned")
		}
	})
}

// The best turn leaves no less than any other: rms against a sweep of angles.
func TestRigidFitIsLeast(t *testing.T) {
	from := []Point{{0, 0}, {10, 0}, {10, 5}, {-2, 8}}
	to := []Point{{1, 1}, {9, 5}, {6, 11}, {-4, 8}}
	m, rms := RigidFit(from, to)
	a, b := centroid(from), centroid(to)
	for k := range 3600 {
		r := Rotate(float64(k) * math.Pi / 1800)
		r = Translate(b.Sub(r.Apply(a))).Mul(r)
		if other := rmsOf(r, from, to); other < rms-1e-12 {
			t.Fatalf("%v leaves %g, a turn of %d tenths of a degree %g", m, rms, k, other)
		}
	}
	if m, rms := RigidFit(nil, to); m != Identity() || rms != 0 {
		t.Errorf("no points: %v, %g", m, rms)
	}
}

func TestCarryEnds(t *testing.T) {
	line := Polyline(Pt(0, 0), Pt(10, 0), Pt(30, 0)).CarryEnds(Vec{0, 3}, Vec{0, 9}, 0.01)
	if !line.IsStraight(1e-9) || line.Start() != Pt(0, 3) || line.End() != Pt(30, 9) {
		t.Errorf("a straight line became %v", line)
	}
	bow := Path{{Pt(0, 0), Pt(0, 20), Pt(20, 40), Pt(50, 40)}}.CarryEnds(Vec{5, 0}, Vec{0, 8}, 0.01)
	if bow.StartDir() != (Vec{0, 1}) || bow.EndDir() != (Vec{1, 0}) || bow.Start() != Pt(5, 0) || bow.End() != Pt(50, 48) {
		t.Errorf("a curve became %v", bow)
	}
}
