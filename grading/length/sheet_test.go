package length_test

import (
	"math"
	"strings"
	"testing"

	"quarterstep/grading/length"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// A sheet of paper made longer at a level line is as much longer, no wider, and
// its edges are straight: elementary geometry.
func TestASheetGrowsByWhatIsPutIn(t *testing.T) {
	for _, by := range []float64{25, 0.5, -30, -99} {
		got := lay(t, sheet(), length.Change{Line: level(150), By: by})
		want := []geom.Point{{}, {X: 200}, {X: 200, Y: 300 + by}, {Y: 300 + by}}
		for j, e := range got.Edges {
			if d := e.Start().Dist(want[j]); d > 1e-9 || !e.IsStraight(1e-9) {
				t.Errorf("by %g: corner %d lies %g mm off, or its edge is bent", by, j+1, d)
			}
		}
	}
}

// "True the side seam by joining the old seam ends" (Central Washington
// University's costume text, chapter 17): the slanted side of a trapezium runs
// straight between its old ends, which moved apart by the amount; its length is
// the root of the squares of its run across and its new run along.
func TestAStraightSideJoinsItsOldEnds(t *testing.T) {
	q := ring("Panel", true, geom.Pt(0, 0), geom.Pt(150, 0), geom.Pt(190, 300), geom.Pt(0, 300))
	got := lay(t, q, length.Change{Line: geom.Polyline(geom.Pt(0, 200), geom.Pt(170, 200)), By: 20})
	side := got.Edges[1]
	if side.Start() != geom.Pt(150, 0) || side.End().Dist(geom.Pt(190, 320)) > 1e-9 || !side.IsStraight(1e-9) {
		t.Errorf("the side runs from %v to %v", side.Start(), side.End())
	}
	l, err := side.Length(1e-9)
	if want := math.Hypot(40, 320); err != nil || math.Abs(l-want) > 1e-9 {
		t.Errorf("it is %g mm long, want %g", l, want)
	}
}

// "Shorten: fold up half the amount": a fold at 150 takes up to the edges of
// what lies within half the amount above it and below.
func TestFoldingOutMoreThanThereIs(t *testing.T) {
	for _, c := range []struct {
		by   float64
		want string
	}{{-199, ""}, {-201, "past the corner 2"}} {
		q := ring("Sheet", true, geom.Pt(0, 0), geom.Pt(200, 50), geom.Pt(200, 300), geom.Pt(0, 300))
		_, err := length.Lay(q, q.Nest[0].Edges, nil, []length.Change{{Line: level(150), By: c.by}})
		told(t, err, c.want)
	}
	q := dartSheet()
	tip := []geom.Point{{X: 90, Y: 190}}
	for _, c := range []struct {
		by   float64
		want string
	}{{-79, ""}, {-81, "past the tip of the bust dart"}} {
		_, err := length.Lay(q, q.Nest[0].Edges, tip, []length.Change{{Line: level(150), By: c.by}})
		told(t, err, c.want)
	}
	two := func(a, b float64) error {
		_, err := length.Lay(sheet(), sheet().Nest[0].Edges, nil, []length.Change{{Line: level(140), By: a}, {Line: level(180), By: b}})
		return err
	}
	told(t, two(-50, -29), "")
	told(t, two(-50, -31), "past the next lengthen line")
	told(t, two(-50, 31), "")
}

func told(t *testing.T, err error, want string) {
	t.Helper()
	switch {
	case want == "" && err != nil:
		t.Errorf("refused: %v", err)
	case want != "" && (err == nil || !strings.Contains(err.Error(), want)):
		t.Errorf("got %v, want words like %q", err, want)
	}
}

// dartSheet is a sheet with a dart open at its right side, from 250 to 280.
func dartSheet() model.Piece {
	q := ring("Sheet", true, geom.Pt(0, 0), geom.Pt(200, 0), geom.Pt(200, 250), geom.Pt(200, 280), geom.Pt(200, 400), geom.Pt(0, 400))
	q.Darts = []model.Dart{{ID: "d", Name: "bust dart", From: "c", To: "d", Apex: []model.SizedPoint{{At: geom.Pt(90, 190)}}}}
	return q
}

func TestLinesThatCannotBe(t *testing.T) {
	for name, c := range map[string]struct {
		q     model.Piece
		lines []geom.Path
		want  string
	}{
		"beside the piece":   {sheet(), []geom.Path{geom.Polyline(geom.Pt(20, 400), geom.Pt(180, 400))}, "does not run across"},
		"no length":          {sheet(), []geom.Path{geom.Polyline(geom.Pt(20, 40), geom.Pt(20, 40))}, "has no length"},
		"too far aslant":     {sheet(), []geom.Path{geom.Polyline(geom.Pt(20, 80), geom.Pt(180, 200))}, "too far aslant"},
		"along the grain":    {sheet(), []geom.Path{geom.Polyline(geom.Pt(90, 80), geom.Pt(90, 200))}, "too far aslant"},
		"aslant, but little": {sheet(), []geom.Path{geom.Polyline(geom.Pt(20, 100), geom.Pt(180, 180))}, ""},
		"in a dart":          {dartSheet(), []geom.Path{level(265)}, "runs out in the bust dart"},
		"above a dart":       {dartSheet(), []geom.Path{level(240)}, ""},
		"two that cross":     {sheet(), []geom.Path{level(150), geom.Polyline(geom.Pt(20, 130), geom.Pt(180, 170))}, "cross each other"},
	} {
		var all []length.Change
		for _, l := range c.lines {
			all = append(all, length.Change{Line: l, By: 10})
		}
		_, err := length.Lay(c.q, c.q.Nest[0].Edges, []geom.Point{{X: 90, Y: 190}}[:len(c.q.Darts)], all)
		t.Run(name, func(t *testing.T) {
			told(t, err, c.want)
			if err != nil && !strings.Contains(err.Error(), "Sheet") {
				t.Errorf("%v does not name the piece", err)
			}
		})
	}
}

// A line somewhat aslant puts in the same amount along the fold everywhere.
func TestALineAslantPutsInTheSameAlongTheFold(t *testing.T) {
	got := lay(t, sheet(), length.Change{Line: geom.Polyline(geom.Pt(20, 130), geom.Pt(180, 190)), By: 20})
	for i := range 50 {
		p := geom.Pt(2+4*float64(i), 299)
		if d := got.At(p).Dist(p.Add(geom.Vec{Y: 20})); d > 1e-9 {
			t.Errorf("at %g across it is %g mm off", p.X, d)
		}
	}
}

// Notches keep their distance from the end on their own side of the line.
func TestWhereANotchGoes(t *testing.T) {
	got := lay(t, sheet(), length.Change{Line: level(100), By: 20}, length.Change{Line: level(200), By: -8})
	for _, c := range []struct{ s, want float64 }{{60, 60}, {100, 110}, {150, 170}, {260, 272}, {300, 312}} {
		if s := got.Along(1, c.s); math.Abs(s-c.want) > 1e-9 {
			t.Errorf("a notch at %g goes to %g, want %g", c.s, s, c.want)
		}
	}
	if s := got.Along(0, 60); s != 60 {
		t.Errorf("a notch on an edge that no line crosses goes to %g", s)
	}
}

// A dart that opens below the line and points across it grows by the amount;
// its legs' ends go with the paper below.
func TestADartTheLineCrossesGrows(t *testing.T) {
	q := dartSheet()
	got := lay(t, q, length.Change{Line: level(220), By: 15})
	tip := got.At(geom.Pt(90, 190))
	if tip != geom.Pt(90, 190) || got.Edges[2].Start().Dist(geom.Pt(200, 265)) > 1e-9 || got.Edges[3].Start().Dist(geom.Pt(200, 295)) > 1e-9 {
		t.Errorf("its tip lies at %v, its legs end at %v and %v", tip, got.Edges[2].Start(), got.Edges[3].Start())
	}
}

// A hem goes parallel: the sides of a trapezium go on in their own direction, so
// the hem of a piece that flares grows by the flare.
func TestAHemGoesParallel(t *testing.T) {
	q := ring("Panel", true, geom.Pt(0, 0), geom.Pt(150, 0), geom.Pt(190, 300), geom.Pt(0, 300))
	for _, by := range []float64{30, -60} {
		got, err := length.Hem(q, q.Nest[0].Edges, []float64{0, 0, by, 0})
		if err != nil {
			t.Fatal(err)
		}
		want := []geom.Point{{}, {X: 150}, {X: 190 + 40*by/300, Y: 300 + by}, {Y: 300 + by}}
		for j, e := range got.Edges {
			if d := e.Start().Dist(want[j]); d > 1e-9 {
				t.Errorf("by %g: corner %d lies %g mm off", by, j+1, d)
			}
		}
		if s := got.Along(1, 100); s != 100 {
			t.Errorf("a notch on the side goes to %g", s)
		}
		if s := got.Along(3, 100); math.Abs(s-100-by) > 1e-9 {
			t.Errorf("a notch on the fold goes to %g", s)
		}
		if p := got.LineEnd(geom.Pt(50, 299.5), geom.Vec{Y: 1}); p.Dist(geom.Pt(50, 299.5+by)) > 1e-9 {
			t.Errorf("a line that ended on the hem ends at %v", p)
		}
		if p := got.LineEnd(geom.Pt(50, 250), geom.Vec{Y: 1}); p != geom.Pt(50, 250) {
			t.Errorf("a line that ended above the hem ends at %v", p)
		}
	}
	_, err := length.Hem(q, q.Nest[0].Edges, []float64{0, 0, -310, 0})
	told(t, err, "hem of Panel cannot be moved that far")
}
