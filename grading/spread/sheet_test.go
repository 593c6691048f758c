package spread_test

import (
	"math"
	"testing"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// A sheet of paper cut n times and spread is the sheet made wider by the sum
// and longer by the sum: elementary geometry, exact but for rounding.
func TestASheetGrowsByTheSumOfItsCuts(t *testing.T) {
	const w, h = 200.0, 300.0
	for n := range 6 {
		var cuts []model.Cut
		wide, long := 0.0, 0.0
		for i := range n {
			share := 0.05 + 0.03*float64(i)
			cuts = append(cuts, down("d"+string(rune('0'+i)), 20+30*float64(i), 150, share))
			cuts = append(cuts, across("a"+string(rune('0'+i)), 100, 25+40*float64(i), 2*share))
			wide, long = wide+40*share, long+2*15*share
		}
		got := edges(t, sheet(w, h, cuts...), grows{model.Bust: 40, model.BackWaist: 15})
		want := []geom.Point{{}, {X: w + wide}, {X: w + wide, Y: h + long}, {Y: h + long}}
		for j, e := range got {
			if d := e.Start().Dist(want[j]); d > 1e-9 {
				t.Errorf("%d cuts: corner %d lies %g mm off", n, j+1, d)
			}
			if !e.IsStraight(1e-9) || len(e) != 1 {
				t.Errorf("%d cuts: edge %d is not one straight line", n, j+1)
			}
		}
		if d := whole(got).Area() - (w+wide)*(h+long); math.Abs(d) > 1e-6 {
			t.Errorf("%d cuts: the area is %g mm² off", n, d)
		}
	}
}

// Spread, cut in the same places of the new paper and overlapped by the same,
// the sheet is the old one again.
func TestSpreadAndOverlappedReturns(t *testing.T) {
	q := sheet(200, 300, down("1", 60, 150, 0.25), down("2", 140, 150, 0.125), across("3", 100, 90, 0.5))
	g := grows{model.Bust: 80, model.BackWaist: 20}
	bigger := q
	bigger.Nest = []model.Outline{{Size: "46", Edges: edges(t, q, g)}}
	bigger.Cuts = []model.Cut{down("1", 70, 150, 0.25), down("2", 165, 150, 0.125), across("3", 100, 95, 0.5)}
	back := edges(t, bigger, grows{model.Bust: -80, model.BackWaist: -20})
	for j, e := range back {
		for k, p := range e.Controls() {
			if d := p.Dist(q.Nest[0].Edges[j].Controls()[k]); d > 1e-9 {
				t.Errorf("edge %d, control %d comes back %g mm off", j+1, k, d)
			}
		}
	}
}

// The paper left of the gap stays, the paper right of it moves by the gap, and
// a place on the cut by half.
func TestWhereAPlaceOfThePaperGoes(t *testing.T) {
	s := read(t, sheet(200, 300, down("1", 60, 150, 0.25), across("2", 100, 90, 0.5)))
	g := grows{model.Bust: 40, model.BackWaist: 10}
	for _, tc := range []struct {
		at   geom.Point
		want geom.Vec
	}{
		{geom.Pt(30, 40), geom.Vec{}},
		{geom.Pt(30, 200), geom.Vec{Y: 5}},
		{geom.Pt(100, 40), geom.Vec{X: 10}},
		{geom.Pt(100, 200), geom.Vec{X: 10, Y: 5}},
		{geom.Pt(60, 40), geom.Vec{X: 5}},
		{geom.Pt(100, 90), geom.Vec{X: 10, Y: 2.5}},
		{geom.Pt(200, 300), geom.Vec{X: 10, Y: 5}},
		{geom.Pt(210, 250), geom.Vec{X: 10, Y: 5}}, // off the paper: with the line beside it
		{geom.Pt(200, 20), geom.Vec{X: 10}},        // on the line
	} {
		if got := s.At(tc.at, g.by); got.Sub(tc.want).Len() > 1e-9 {
			t.Errorf("the paper at %v moves by %v, want %v", tc.at, got, tc.want)
		}
	}
}

// A cut somewhat aslant opens by its share square to itself, but the paper
// slides square to the fold, so that level lines stay level.
func TestACutAslantSlidesSquareToTheFold(t *testing.T) {
	q := sheet(200, 300)
	q.Cuts = []model.Cut{{ID: "1", From: geom.Pt(100, 0), To: geom.Pt(140, 300), Measure: model.Bust, Share: 0.25}}
	got := edges(t, q, grows{model.Bust: 40})
	slant := math.Hypot(300, 40) / 300
	if d := got[1].Start().Dist(geom.Pt(200+10*slant, 0)); d > 1e-9 {
		t.Errorf("the upper right corner lies %g mm off", d)
	}
	if got[3].Start() != geom.Pt(0, 300) || got[3].End() != geom.Pt(0, 0) {
		t.Error("the fold moved")
	}
}

// Without a fold the part with the grain line stays, or the larger part.
func TestWithoutAFoldTheGrainLineStays(t *testing.T) {
	q := sheet(200, 300, down("1", 60, 150, 0.25))
	q.Edges[3].Kind = model.Plain
	if x := edges(t, q, grows{model.Bust: 40})[0].Start().X; math.Abs(x+10) > 1e-9 {
		t.Errorf("the smaller part went to %g, want -10", x)
	}
	grain := geom.Polyline(geom.Pt(20, 100), geom.Pt(20, 200))
	q.Lines = []model.Line{{ID: "g", Kind: model.Grain, Drawn: []model.SizedPath{{Path: grain}}}}
	got := edges(t, q, grows{model.Bust: 40})
	if a, b := got[0].Start().X, got[0].End().X; a != 0 || math.Abs(b-210) > 1e-9 {
		t.Errorf("with the grain line in it the smaller part lies at %g, the larger ends at %g", a, b)
	}
}

// How the paper lies, and which way round it was traced, changes nothing.
func TestSpreadingDoesNotMindHowThePaperLies(t *testing.T) {
	q := sheet(200, 300, down("1", 60, 150, 0.25), across("2", 100, 90, 0.5))
	g := grows{model.Bust: 40, model.BackWaist: 10}
	want := edges(t, q, g)
	for _, m := range []geom.Affine{geom.Rotate(0.7), geom.ScaleXY(-1, 1), geom.Translate(geom.Vec{X: 9, Y: -4}).Mul(geom.Rotate(2.8))} {
		moved := q
		moved.Nest = []model.Outline{{Size: "38"}}
		for _, e := range q.Nest[0].Edges {
			moved.Nest[0].Edges = append(moved.Nest[0].Edges, e.Transform(m))
		}
		moved.Cuts = nil
		for _, c := range q.Cuts {
			c.From, c.To = m.Apply(c.From), m.Apply(c.To)
			moved.Cuts = append(moved.Cuts, c)
		}
		grain := geom.Polyline(m.Apply(geom.Pt(20, 100)), m.Apply(geom.Pt(20, 200)))
		moved.Lines = []model.Line{{ID: "g", Kind: model.Grain, Drawn: []model.SizedPath{{Path: grain}}}}
		up := m.ApplyVec(geom.Vec{Y: 1}).Y < 0 // the grain is read downwards: then the other part stays
		shift := geom.Vec{}
		if up {
			shift = m.ApplyVec(geom.Vec{Y: -5})
		}
		for j, e := range edges(t, moved, g) {
			if d := e.Start().Dist(m.Apply(want[j].Start()).Add(shift)); d > 1e-8 {
				t.Errorf("%v: corner %d lies %g mm off", m, j+1, d)
			}
		}
	}
}
