package follow

import (
	"context"
	"errors"
	"image"
	"math"
	"strings"
	"testing"

	"quarterstep/model/geom"
)

// TestFollowsEveryStyle holds a line of every style, with solid and dashed
// neighbours 4, 5 and 6 mm away, a fold across and letters on it, to the drawn
// truth, alone and beside a traced size.
func TestFollowsEveryStyle(t *testing.T) {
	for name, dash := range styles {
		for _, gap := range []float64{4, 5, 6} {
			p := newPrint(110, 145, 6)
			p.line(armhole(0, gap), 0.5, 1)
			p.line(armhole(1, gap), 0.5, 1, dash...)
			p.line(armhole(2, gap), 0.5, 1, 16, 3)
			p.line(geom.Polyline(geom.Pt(0, 60), geom.Pt(110, 63)), 0.8, 0.12)
			p.line(geom.Polyline(geom.Pt(28, 34), geom.Pt(31, 40), geom.Pt(34, 34), geom.Pt(37, 40)), 0.45, 1)
			f := prepared(t, p.sheet(1))
			want := armhole(1, gap)
			for _, guides := range [][]geom.Path{nil, {armhole(0, gap)}, {armhole(2, gap).Reverse()}} {
				e, err := f.Follow(want.Start(), want.End(), nil, Options{Guides: guides})
				if err != nil {
					t.Errorf("%s, %g mm, %d guides: %v", name, gap, len(guides), err)
					continue
				}
				if most, worst := away(e.Path, want); most > 0.2 || worst > 0.5 {
					t.Errorf("%s, %g mm, %d guides: %.2f mm off the line", name, gap, len(guides), worst)
				}
				if e.Path.Start() != want.Start() || e.Path.End() != want.End() {
					t.Errorf("%s: the path runs from %v to %v, not from corner to corner", name, e.Path.Start(), e.Path.End())
				}
				if len(e.Path) > 8 {
					t.Errorf("%s: %d cubics", name, len(e.Path))
				}
			}
		}
	}
}

// TestStraightLineIsOneStraightCubic holds a printed straight line, solid and
// dashed, to one straight cubic, and a bow of 1 mm in 90 mm to a bent one.
func TestStraightLineIsOneStraightCubic(t *testing.T) {
	a, b := geom.Pt(10, 12), geom.Pt(98, 31)
	for _, dash := range [][]float64{nil, {9, 3}} {
		p := newPrint(110, 45, 6)
		p.line(geom.Polyline(a, b), 0.5, 1, dash...)
		e, err := prepared(t, p.sheet(2)).Follow(a, b, nil, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if len(e.Path) != 1 || !e.Path.IsStraight(1e-9) {
			t.Errorf("a straight line came out as %v", e.Path)
		}
	}
	bowed := geom.Path{{P0: a, P1: geom.Pt(39.1, 19.7), P2: geom.Pt(68.4, 26), P3: b}}
	p := newPrint(110, 45, 6)
	p.line(bowed, 0.5, 1)
	e, err := prepared(t, p.sheet(3)).Follow(a, b, nil, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if e.Path.IsStraight(0.3) {
		t.Error("a line with a bow of about 1 mm was made straight")
	}
	if _, worst := away(e.Path, bowed); worst > 0.2 {
		t.Errorf("%.2f mm off a bowed line", worst)
	}
}

// TestStraightOnDemand holds a straight edge to its corners exactly, with a
// doubt where nothing is printed there.
func TestStraightOnDemand(t *testing.T) {
	p := newPrint(60, 60, 6)
	p.line(geom.Polyline(geom.Pt(5, 10), geom.Pt(55, 10)), 0.5, 1)
	f := prepared(t, p.sheet(4))
	for y, doubts := range map[float64]int{10: 0, 40: 1} {
		a, b := geom.Pt(5, y), geom.Pt(55, y)
		e, err := f.Follow(a, b, nil, Options{Straight: true})
		if err != nil {
			t.Fatal(err)
		}
		if e.Path[0] != geom.Line(a, b) || len(e.Doubts) != doubts {
			t.Errorf("at %g mm: %v, %d doubts", y, e.Path, len(e.Doubts))
		}
	}
}

// TestDoubtsWhereTwoLinesServe puts two equal arcs between the same corners:
// whichever is taken, the other must be pointed at.
func TestDoubtsWhereTwoLinesServe(t *testing.T) {
	a, b := geom.Pt(10, 30), geom.Pt(90, 30)
	up := geom.Path{{P0: a, P1: geom.Pt(35, 20), P2: geom.Pt(65, 20), P3: b}}
	down := geom.Path{{P0: a, P1: geom.Pt(35, 40), P2: geom.Pt(65, 40), P3: b}}
	p := newPrint(100, 60, 6)
	p.line(up, 0.5, 1, 9, 3)
	p.line(down, 0.5, 1, 9, 3)
	e, err := prepared(t, p.sheet(5)).Follow(a, b, nil, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if len(e.Doubts) == 0 {
		t.Fatal("no doubt where two lines serve alike")
	}
	other := down
	if _, worst := away(e.Path, down); worst < 1 {
		other = up
	}
	_, d := nearestOf(dense(other, 0.2), e.Doubts[0].At)
	if d > 0.5 {
		t.Errorf("the doubt points %.1f mm beside the other line", d)
	}
	via := other[0].At(0.5)
	if e, err = prepared(t, p.sheet(5)).Follow(a, b, []geom.Point{via}, Options{}); err != nil {
		t.Fatal(err)
	}
	if _, worst := away(e.Path, other); worst > 0.5 {
		t.Errorf("by way of a point on it the other line is missed by %.1f mm", worst)
	}
}

// TestNoDoubtAlone: a lone line gives nothing to doubt.
func TestNoDoubtAlone(t *testing.T) {
	for name, dash := range styles {
		p := newPrint(110, 145, 6)
		p.line(armhole(0, 0), 0.5, 1, dash...)
		e, err := prepared(t, p.sheet(6)).Follow(armhole(0, 0).Start(), armhole(0, 0).End(), nil, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if len(e.Doubts) != 0 {
			t.Errorf("%s: %v", name, e.Doubts)
		}
	}
}

// TestCorner holds corners to the crossing of the two drawn lines, solid and
// where both are dashed and stop short of it.
func TestCorner(t *testing.T) {
	at := geom.Pt(40, 40)
	for _, dash := range [][]float64{nil, {9, 3}} {
		p := newPrint(80, 80, 6)
		p.line(geom.Polyline(geom.Pt(8, 28), at), 0.5, 1, dash...)
		p.line(geom.Polyline(geom.Pt(44, 8), at), 0.5, 1, dash...)
		f := prepared(t, p.sheet(7))
		got, ok := f.Corner(at.Add(geom.Vec{X: 0.7, Y: -0.5}), 1.5)
		if !ok || got.Dist(at) > 0.15 {
			t.Errorf("dashes %v: corner at %v, %v", dash, got, ok)
		}
		if _, ok := f.Corner(geom.Pt(70, 70), 1.5); ok {
			t.Error("a corner on white paper")
		}
	}
}

// TestSnap holds a click to the middle of the line beside it.
func TestSnap(t *testing.T) {
	p := newPrint(60, 60, 6)
	p.line(geom.Polyline(geom.Pt(5, 20), geom.Pt(55, 20)), 0.5, 1)
	f := prepared(t, p.sheet(8))
	got, ok := f.Snap(geom.Pt(30, 21), 1.5)
	if !ok || math.Abs(got.Y-20) > 0.05 || math.Abs(got.X-30) > 0.2 {
		t.Errorf("snapped to %v, %v", got, ok)
	}
	if _, ok := f.Snap(geom.Pt(30, 22), 1.5); ok {
		t.Error("snapped over 2 mm with a reach of 1.5")
	}
}

// TestSaysWhyNot holds every refusal to a sentence that says what to do.
func TestSaysWhyNot(t *testing.T) {
	p := newPrint(100, 40, 6)
	p.line(geom.Polyline(geom.Pt(5, 20), geom.Pt(40, 20)), 0.5, 1)
	f := prepared(t, p.sheet(9))
	nan := math.NaN()
	for _, c := range []struct {
		to   geom.Point
		want string
	}{
		{geom.Pt(90, 20), "click points on the way"},
		{geom.Pt(5.1, 20), "less than half a millimetre"},
		{geom.Pt(nan, 20), "not a number"},
	} {
		if _, err := f.Follow(geom.Pt(5, 20), c.to, nil, Options{}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("to %v: %v, want %q", c.to, err, c.want)
		}
	}
	small := image.NewGray(image.Rect(0, 0, 200, 200))
	for _, s := range []Sheet{{}, {Gray: small, PerMM: 2}, {Gray: small, PerMM: nan}, {Gray: small, PerMM: 6, Origin: geom.Pt(nan, 0)}} {
		if _, err := Prepare(context.Background(), s, nil); err == nil {
			t.Errorf("%g pixels to the mm at %v: taken", s.PerMM, s.Origin)
		}
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Prepare(ctx, p.sheet(9), nil); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped: %v", err)
	}
	empty := prepared(t, Sheet{Gray: small, PerMM: 6})
	if _, err := empty.Follow(geom.Pt(1, 1), geom.Pt(20, 20), nil, Options{}); err == nil {
		t.Error("followed a line on an empty sheet")
	}
}

// TestFineSheetIsHalved: a picture at twice the resolution gives the same
// line, to a tenth of a millimetre, in the same place.
func TestFineSheetIsHalved(t *testing.T) {
	p := newPrint(60, 60, 12)
	a, b := geom.Pt(5, 20), geom.Pt(55, 31)
	p.line(geom.Polyline(a, b), 0.5, 1)
	s := p.sheet(10)
	s.Origin = geom.Pt(100, -50)
	got, ok := prepared(t, s).Snap(a.Lerp(b, 0.5).Add(geom.Vec{X: 100, Y: -50}), 1)
	if !ok || got.Dist(geom.Pt(130, -24.5)) > 0.1 {
		t.Errorf("middle at %v, %v", got, ok)
	}
}

// TestDrawnCurveDoesNotSwing holds the curve through a few uneven points to
// about their own length.
func TestDrawnCurveDoesNotSwing(t *testing.T) {
	seen := []geom.Point{{X: 0, Y: 0}, {X: 1, Y: 1.2}, {X: 3, Y: 1}, {X: 5.2, Y: 2.4}, {X: 7, Y: 1.8}, {X: 9, Y: 2}}
	p, err := draw(seen, 0.02)
	if err != nil {
		t.Fatal(err)
	}
	if got, most := lengthOf(dense(p, 0.1)), 1.3*lengthOf(seen); got > most {
		t.Errorf("%.1f mm of curve for %.1f mm of line", got, lengthOf(seen))
	}
}
