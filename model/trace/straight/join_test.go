package straight

import (
	"context"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/model/measure"
)

// nestLines is paper with the lines of four sizes on it, 4 mm apart, one solid
// and three dashed, leaning, and seams across.
func nestLines(p geom.Point) float64 {
	for k := range 4 {
		at := 40 + 4*float64(k) + 12*math.Sin((p.Y+6*float64(k))/70) + 0.15*p.Y
		dash := []float64{0, 6, 4, 2.5}[k]
		if math.Abs(p.X-at) < 0.25 && (dash == 0 || math.Mod(p.Y+500, 1.6*dash) < dash) {
			return 40
		}
		at = math.Mod(p.Y-0.2*p.X+500, 45)
		if math.Abs(at-(10+3.5*float64(k))) < 0.25 {
			return 40
		}
	}
	return 235
}

func scanOf(s scene, dpi float64, box geom.Box, turn float64, seed uint64) Part {
	k := 25.4 / dpi
	w, h := int(box.Width()/k), int(box.Height()/k)
	m := Map{H: [9]float64{k, 0, 0, 0, k, 0, 0, 0, 1}}
	lay := geom.Translate(geom.Vec(box.Centre())).Mul(geom.Rotate(turn)).Mul(geom.Translate(geom.Vec{X: -box.Width() / 2, Y: -box.Height() / 2}))
	return Part{Gray: photograph(s, moved(m, lay), w, h, seed), Map: m}
}

// Two scans laid askew come together by what both show, though the marks were
// clicked up to a millimetre off.
func TestJoinLaysScansTogether(t *testing.T) {
	left := geom.Box{Min: geom.Pt(0, 0), Max: geom.Pt(70, 140)}
	right := geom.Box{Min: geom.Pt(42, 2), Max: geom.Pt(112, 138)}
	const turn = 0.018
	a, b := scanOf(nestLines, 150, left, 0, 1), scanOf(nestLines, 150, right, turn, 2)
	lay := geom.Translate(geom.Vec(right.Centre())).Mul(geom.Rotate(turn)).Mul(geom.Translate(geom.Vec{X: -right.Width() / 2, Y: -right.Height() / 2}))
	truth := moved(b.Map, lay)
	r := rand.New(rand.NewPCG(7, 7))
	var marks []Mark
	for _, p := range []geom.Point{{X: 56, Y: 15}, {X: 58, Y: 125}} {
		marks = append(marks, Mark{0, click(r, a.Map.Pixel(p)), click(r, truth.Pixel(p))})
	}
	j, err := Join(context.Background(), []Part{a}, b, marks)
	if err != nil {
		t.Fatal(err)
	}
	worst := 0.0
	for _, px := range []geom.Point{{}, {X: 400}, {X: 400, Y: 800}, {Y: 800}} {
		worst = max(worst, j.Map.MM(px).Dist(truth.MM(px)))
	}
	t.Logf("off by up to %.3f mm, misfit %+v, moved %.2f mm", worst, j.Misfit, j.Moved)
	if !j.Refined || worst > 0.06 || j.Misfit.Worst > 0.1 || j.Misfit.Points < 5 {
		t.Errorf("off by up to %.3f mm: %+v", worst, j)
	}
	if got := j.Say(measure.Centimetres); !strings.Contains(got, "good enough to trace") {
		t.Errorf("said: %q", got)
	}

	// The same two with one stretched by a fiftieth: turned and moved they do
	// not agree, and it is told.
	b.Map.H[0] *= 1.02
	b.Map.H[4] *= 1.02
	if j, err = Join(context.Background(), []Part{a}, b, marks); err != nil || j.Refined && j.Misfit.Worst < 0.4 {
		t.Errorf("parts of two scales are said to agree: %+v, %v", j.Misfit, err)
	}
}

func TestJoinWithoutAnythingShared(t *testing.T) {
	paper := func(geom.Point) float64 { return 230 }
	a := scanOf(paper, 100, geom.Box{Max: geom.Pt(60, 80)}, 0, 1)
	b := scanOf(paper, 100, geom.Box{Max: geom.Pt(60, 80)}, 0, 2)
	two := []Mark{{0, geom.Pt(30, 30), geom.Pt(30, 30)}, {0, geom.Pt(200, 250), geom.Pt(200, 250)}}
	j, err := Join(context.Background(), []Part{a}, b, two)
	if err != nil || j.Refined || !strings.Contains(j.Say(measure.Centimetres), "marks alone") {
		t.Errorf("blank paper: %+v, %v", j, err)
	}
	for _, c := range []struct {
		name  string
		marks []Mark
		want  string
	}{
		{"one mark", two[:1], "click two marks"},
		{"not the same", []Mark{two[0], {0, geom.Pt(200, 250), geom.Pt(120, 100)}}, "click the same two on both"},
		{"side by side", []Mark{two[0], {0, geom.Pt(33, 30), geom.Pt(33, 30)}}, "farther from each other"},
		{"on no part", []Mark{two[0], {3, geom.Pt(33, 30), geom.Pt(33, 30)}}, "click it again"},
	} {
		if _, err := Join(context.Background(), []Part{a}, b, c.marks); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	far := scanOf(nestLines, 100, geom.Box{Max: geom.Pt(60, 80)}, 0, 1)
	if _, err := Join(ctx, []Part{far}, far, two); err == nil {
		t.Error("went on after it was called off")
	}
}
