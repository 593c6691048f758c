package nest

import (
	"math"
	"testing"

	"quarterstep/model"
	"quarterstep/model/geom"
)

const inch = 25.4

// block is a rectangle printed in one size, its centre on the left, its right
// side straight.
func block(size string) model.Piece {
	c := [...]geom.Point{geom.Pt(0, 0), geom.Pt(240, 0), geom.Pt(240, 600), geom.Pt(0, 600)}
	q := model.Piece{ID: "b", Name: "Half front"}
	o := model.Outline{Size: size}
	for i, name := range []string{"centre neck", "underarm", "side hem", "centre hem"} {
		q.Points = append(q.Points, model.GradePoint{ID: "p" + string(rune('1'+i)), Name: name, Across: model.Bust})
		q.Edges = append(q.Edges, model.Edge{ID: "e" + string(rune('1'+i))})
		o.Edges = append(o.Edges, geom.Polyline(c[i], c[(i+1)%4]))
	}
	q.Edges[3].Kind = model.Centre
	q.Nest = []model.Outline{o}
	return q
}

func wanted(c model.SizeChart, size string, m model.Method) model.Target {
	place, _ := c.Place(size)
	return model.Target{Place: float64(place), Method: m}
}

// A typed gap is repeated by steps without a rounding on the way: 6 gaps of
// 3/16 in are 1 1/8 in (arithmetic). By chart it goes with the measure: typed
// as 1/4 in from 8 to 10, where the US misses chart grows 1 in, it is 3 1/8 in
// to 24, 12 1/2 in of bust on (published to 20, 22 and 24 from memory).
func TestTypedGaps(t *testing.T) {
	c := misses()
	q := block("8")
	q.Gaps = []model.Gap{{Point: "p2", Across: 3 * inch / 16}, {Point: "p3", Across: inch / 4, Along: 3}}
	fit := read(t, q, c)
	if fit.Frozen() {
		t.Fatal("a piece with typed gaps stays as printed")
	}
	steps, _, _ := fit.Edges(wanted(c, "20", model.BySteps))
	if got := steps[1].Start().X - 240; math.Abs(got-9*inch/8) > 1e-9 {
		t.Errorf("six gaps of 3/16 in are %.4f in", got/inch)
	}
	chart, _, _ := fit.Edges(wanted(c, "24", model.ByChart))
	if got := chart[2].Start().X - 240; math.Abs(got-14.5*inch/4) > 1e-9 {
		t.Errorf("by chart the hem goes out %.4f in", got/inch)
	}
	if got := chart[0].Start(); got != geom.Pt(0, 0) {
		t.Errorf("a point without a gap went to %v", got)
	}
	m := fit.Movements(1, wanted(c, "20", model.BySteps))[0]
	if math.Abs(m.PerStep-3*inch/16) > 1e-12 || math.Abs(m.BySteps-9*inch/8) > 1e-9 || m.From != "8" {
		t.Errorf("the movement is told as %+v", m)
	}
}

// Two cuts of 1/8 of the bust's step each put a quarter of it on a quarter of
// the garment: the quarter rule (T. Horlamus, Threads no. 101).
func TestCutsGradeAPieceOfOneSize(t *testing.T) {
	c := misses()
	q := block("8")
	for i, x := range []float64{80, 160} {
		q.Cuts = append(q.Cuts, model.Cut{
			ID: string(rune('a' + i)), From: geom.Pt(x, 0), To: geom.Pt(x, 600), Measure: model.Bust, Share: 0.125,
		})
	}
	q.Lines = []model.Line{{ID: "l", Kind: model.Inner, Drawn: []model.SizedPath{{Path: geom.Polyline(geom.Pt(200, 100), geom.Pt(200, 200))}}}}
	fit := read(t, q, c)
	want := wanted(c, "24", model.ByChart) // bust 31.5 to 46 in
	edges, _, err := fit.Edges(want)
	if err != nil {
		t.Fatal(err)
	}
	grown := 14.5 * inch / 4
	if got := edges[1].Start().X - 240; math.Abs(got-grown) > 1e-9 {
		t.Errorf("the underarm goes out %.4f mm, want %.4f", got, grown)
	}
	if open := fit.Opens(want); len(open) != 2 || math.Abs(open[0]-grown/2) > 1e-9 || math.Abs(open[1]-grown/2) > 1e-9 {
		t.Errorf("the cuts open %v, want %.4f each", open, grown/2)
	}
	if x := edges[0].Start().X; x != 0 {
		t.Errorf("the centre went to %v", x)
	}
	if got := fit.Movements(1, want)[0]; math.Abs(got.ByChart-grown) > 1e-9 || got.Follows != model.Bust {
		t.Errorf("the movement is told as %+v", got)
	}
	if got := fit.Lines(want)[0].Start().X - 200; math.Abs(got-grown) > 1e-9 {
		t.Errorf("a mark beyond the cuts moves %.4f mm", got)
	}
	q.Cuts[0].From, q.Cuts[0].To = geom.Pt(900, 0), geom.Pt(900, 100)
	edges, _, err = read(t, q, c).Edges(want)
	if err == nil || edges[1].Start() != geom.Pt(240, 0) || read(t, q, c).Opens(want) != nil {
		t.Errorf("a cut beside the piece: %v", err)
	}
}

func TestAPieceForAllSizesNeverGrows(t *testing.T) {
	c := misses()
	q := block("8")
	q.OneForAll = true
	fit := read(t, q, c)
	edges, exact, err := fit.Edges(wanted(c, "24", model.ByChart))
	if err != nil || !exact || &edges[0] != &q.Nest[0].Edges[0] || fit.Frozen() {
		t.Errorf("it is not the printed line: %v, %v", exact, err)
	}
}

// A line printed for two sizes is the line of both and of all between, and
// beyond it the nest goes on from the nearer of them, by the measure half way
// between the two.
func TestSizesThatShareALine(t *testing.T) {
	c := women()
	q := backPiece(c, "36", "40", "46")
	for i := range q.Nest {
		at := []float64{2.5, 4.5, 7}[i] // 36/38, 40/42, 46
		q.Nest[i].Edges = backAt(c, at)
	}
	q.Nest[0].Also, q.Nest[1].Also = []string{"38"}, []string{"42"}
	fit := read(t, q, c)
	for size, i := range map[string]int{"36": 0, "38": 0, "40": 1, "42": 1, "46": 2} {
		edges, exact, _ := fit.Edges(wanted(c, size, model.ByChart))
		if !exact || &edges[0] != &q.Nest[i].Edges[0] {
			t.Errorf("size %s is not the line it was printed on", size)
		}
	}
	const underarm = 3
	edges, _, _ := fit.Edges(wanted(c, "54", model.ByChart)) // bust 104 to 128 cm, a quarter of it
	if got := edges[underarm].Start().X - q.Nest[2].Edges[underarm].Start().X; math.Abs(got-60) > 0.01 {
		t.Errorf("the underarm goes out %.3f mm to 54, want 60", got)
	}
}

// A wearer whose measures are those of three sizes gets each grade point of its
// own size, one by one, and one line through them.
func TestAWearerOfThreeSizes(t *testing.T) {
	c := women()
	fit := read(t, backPiece(c, "36", "38", "40", "42"), c)
	v := func(size string, m model.Measure) float64 {
		place, _ := c.Place(size)
		x, _ := c.At(float64(place), m)
		return x
	}
	base := wanted(c, "50", model.ByChart)
	base.Body = map[model.Measure]float64{model.Bust: v("50", model.Bust), model.Waist: v("46", model.Waist), model.Hip: v("54", model.Hip)}
	edges, exact, err := fit.Edges(base)
	if err != nil || exact {
		t.Fatal(exact, err)
	}
	for k, size := range map[int]string{3: "50", 4: "46", 5: "54"} {
		alone, _, _ := fit.Edges(wanted(c, size, model.ByChart))
		if d := math.Abs(edges[k].Start().X - alone[k].Start().X); d > 1e-9 {
			t.Errorf("grade point %d is %.6f mm from size %s", k+1, d, size)
		}
	}
	for j, e := range edges {
		if e.End() != edges[(j+1)%len(edges)].Start() {
			t.Errorf("edge %d does not meet the next", j+1)
		}
	}
	base.Body[model.Bust] = v("60", model.Bust) + 300 // beyond the chart
	far, _, _ := fit.Edges(base)
	size60, _, _ := fit.Edges(wanted(c, "60", model.ByChart))
	if got := far[3].Start().X - size60[3].Start().X; math.Abs(got-75) > 1e-9 {
		t.Errorf("30 cm of bust beyond 60 put %.4f mm on the quarter", got)
	}
	for _, m := range []model.Measure{model.Bust, model.Waist, model.Hip} {
		base.Body[m] = v("50", m)
	}
	same, _, _ := fit.Edges(base)
	whole, _, _ := fit.Edges(wanted(c, "50", model.ByChart))
	for j := range same {
		for k, p := range same[j].Controls() {
			if d := p.Dist(whole[j].Controls()[k]); d > 1e-9 {
				t.Fatalf("all measures of size 50 are not size 50: %g mm", d)
			}
		}
	}
}

// The measure proposed is the usual one of the place while the print agrees,
// and the one the gaps follow where they tell otherwise.
func TestWhatIsProposed(t *testing.T) {
	c := misses()
	q := backPiece(c, "8", "10", "12", "14", "16")
	fit := read(t, q, c)
	const underarm, waist = 3, 4
	m := fit.Movements(underarm, wanted(c, "24", model.ByChart))[0]
	if m.Follows != model.Bust || m.Proposed != model.Bust || m.Residual > 1e-6 || m.Fits[0].Measure != model.Bust {
		t.Errorf("the underarm: %+v", m)
	}
	if m := fit.Movements(waist, wanted(c, "24", model.ByChart))[0]; m.Proposed != model.Waist || m.Residual > 1e-6 {
		t.Errorf("the waist: %+v", m)
	}
	for i, o := range q.Nest { // the underarm moved by even steps of 8 mm instead
		place, _ := c.Place(o.Size)
		edges := backAt(c, float64(place))
		at := geom.Pt(260+8*float64(place), edges[underarm].Start().Y)
		edges[underarm-1] = edges[underarm-1].CarryEnds(geom.Vec{}, at.Sub(edges[underarm].Start()), 0.01)
		edges[underarm] = edges[underarm].CarryEnds(at.Sub(edges[underarm].Start()), geom.Vec{}, 0.01)
		q.Nest[i].Edges = edges
	}
	if m := read(t, q, c).Movements(underarm, wanted(c, "24", model.ByChart))[0]; m.Proposed != model.Steps || m.Follows != model.Steps {
		t.Errorf("an underarm printed by even steps is proposed to follow %s: %+v", m.Proposed, m.Fits)
	}
	q.Points[underarm].Across = model.Bust
	if m := read(t, q, c).Movements(underarm, wanted(c, "24", model.ByChart))[0]; m.Proposed != model.Steps || m.Follows != model.Bust {
		t.Errorf("told to follow bust it follows %s", m.Follows)
	}
}
