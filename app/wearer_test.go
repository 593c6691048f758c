package app

import (
	"math"
	"strings"
	"testing"

	"quarterstep/grading"
	"quarterstep/model"
)

func demoFor(t *testing.T, typed map[string]string) model.Pattern {
	t.Helper()
	p, err := DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	if p, err = Aim(p, "", typed); err != nil {
		t.Fatal(err)
	}
	return p
}

// EN 13402-3, women (bust as published, waist and hip from memory): bust 116
// and 122 cm are sizes 50 and 52; waist 94 and 100 are 48 and 50; hip 127 is
// 52. 48 in are 121.92 cm.
func TestOwnMeasuresLieOnTheChart(t *testing.T) {
	p := demoFor(t, map[string]string{"bust": "48 in", "waist": "97", "hip": "125.5cm"})
	want := []Measured{
		{Measure: model.Bust, Own: true, MM: 1219.2, Place: 10 - 0.08/6, Placed: true, Says: "52"},
		{Measure: model.Waist, Own: true, MM: 970, Place: 8.5, Placed: true, Says: "48 1/2"},
		{Measure: model.Hip, Own: true, MM: 1255, Place: 9.7, Placed: true, Says: "50 + 0.7"},
	}
	got := Wearer(p)
	if len(got) != len(want) {
		t.Fatalf("%+v", got)
	}
	for i, g := range got {
		w := want[i]
		if math.Abs(g.Place-w.Place) > 1e-9 || math.Abs(g.MM-w.MM) > 1e-9 {
			t.Errorf("%s: %v mm at %v, want %v at %v", g.Measure, g.MM, g.Place, w.MM, w.Place)
		}
		g.Place, g.MM = w.Place, w.MM
		if g != w {
			t.Errorf("%+v, want %+v", g, w)
		}
	}
	if line := WearerLine(p); line != "bust 52, waist 48 1/2, hip 50 1/2" {
		t.Errorf("line %q", line)
	}
	text := strings.Join(WearerText(p), " ")
	if text != "Bust 121.9 cm: size 52. Waist 97 cm: size 48 1/2. Hip 125.5 cm: size 50 + 0.7." {
		t.Errorf("text %q", text)
	}
}

// What she did not measure is the chart's at the size the rest goes by.
func TestTheRestIsTheCharts(t *testing.T) {
	p := demoFor(t, map[string]string{"hip": "127"})
	got := Wearer(p)
	if b := got[0]; b.Own || b.MM != 1220 || b.Says != "52" || b.Off {
		t.Errorf("bust %+v", b)
	}
	if line := WearerLine(p); line != "hip 52" {
		t.Errorf("line %q", line)
	}
	if text := WearerText(p); len(text) != 2 || text[1] != "The rest goes by size 52." {
		t.Errorf("text %q", text)
	}
	if line := WearerLine(demoFor(t, nil)); line != "size 48" {
		t.Errorf("without own measurements the line is %q", line)
	}
}

func TestBeyondTheChartIsSaid(t *testing.T) {
	p := demoFor(t, nil)
	last := p.Chart.Sizes[len(p.Chart.Sizes)-1]
	p.Target.Body = map[model.Measure]float64{
		model.Bust: last.Body[model.Bust] + 30, model.Waist: 580, "knee": 400,
	}
	got := Wearer(p)
	if b := got[0]; !b.Off || b.Says != "beyond "+last.Name || math.Abs(b.By-30) > 1e-9 || b.Place <= float64(len(p.Chart.Sizes)-1) {
		t.Errorf("bust %+v", b)
	}
	if w := got[1]; !w.Off || w.Says != "below 32" || math.Abs(w.By-20) > 1e-9 || w.Place >= 0 {
		t.Errorf("waist %+v", w)
	}
	if k := got[3]; k.Placed || k.Off || k.Says != "not on this chart" || k.Measure != "knee" {
		t.Errorf("knee %+v", k)
	}
	if line := WearerLine(p); line != "bust beyond "+last.Name+", waist below 32" {
		t.Errorf("line %q", line)
	}
	if text := WearerText(p)[0]; !strings.HasSuffix(text, ": beyond "+last.Name+" by 3 cm.") {
		t.Errorf("text %q", text)
	}
}

func TestALongBodyHasAShortLine(t *testing.T) {
	p := demoFor(t, nil)
	p.Chart = model.SizeChart{Measures: []model.Measure{"bust", "waist", "hip", "neck", "upper arm"}, Sizes: []model.ChartSize{
		{Name: "38", Body: map[model.Measure]float64{}}, {Name: "40", Body: map[model.Measure]float64{}},
	}}
	p.Target = model.Target{Body: map[model.Measure]float64{}}
	for _, m := range p.Chart.Measures {
		p.Chart.Sizes[0].Body[m], p.Chart.Sizes[1].Body[m] = 880, 920
		p.Target.Body[m] = 900
	}
	if line := WearerLine(p); line != "bust 38 1/2, waist 38 1/2, hip 38 1/2, 2 more" {
		t.Errorf("line %q", line)
	}
}

func TestMeasuresThatCannotBeReadAreRefused(t *testing.T) {
	p := demoFor(t, nil)
	for _, c := range []struct{ name, text, want string }{
		{"bust", "wide", "type bust as cm or inches, for example 110 cm"},
		{"bust", "", "type bust as cm or inches, for example 110 cm"},
		{"hip", "12 mm", "type hip as cm or inches, for example 117 cm"},
		{"shoe-size", "38", `has no measure "shoe-size"; it has bust, waist, hip`},
		{"steps", "3", `has no measure "steps"`},
	} {
		if _, err := Aim(p, "", map[string]string{c.name: c.text}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s of %q: %v, want %q", c.name, c.text, err, c.want)
		}
	}
	p.Unit = model.Inches
	if mm, err := ReadMeasure(p, model.Bust, "44 1/2"); err != nil || math.Abs(mm-1130.3) > 1e-9 {
		t.Errorf("44 1/2 is %v mm, %v", mm, err)
	}
	p.Chart.Measures = append(p.Chart.Measures, model.BackWaist)
	if q, err := Aim(p, "", map[string]string{"Back-Waist-Length": "41 cm"}); err != nil || q.Target.Body[model.BackWaist] != 410 {
		t.Errorf("%v, %v", q.Target.Body, err)
	}
}

// A size beside the measurements is what the rest goes by; a size alone is the
// chart's; neither leaves the pattern as it is.
func TestSizeAndMeasuresTogether(t *testing.T) {
	p := demoFor(t, map[string]string{"bust": "122"})
	for _, c := range []struct {
		size  string
		typed map[string]string
		place string
		own   int
	}{
		{"", nil, "52", 1},
		{"46", nil, "46", 0},
		{"", map[string]string{"waist": "88"}, "46", 1},
		{"50", map[string]string{"waist": "88", "hip": "112"}, "50", 2},
	} {
		got, err := Aim(p, c.size, c.typed)
		if err != nil || got.Chart.NameAt(got.Target.Place) != c.place || len(got.Target.Body) != c.own {
			t.Errorf("size %q with %v: %s, %v, %v", c.size, c.typed, got.Chart.NameAt(got.Target.Place), got.Target.Body, err)
		}
	}
	if len(p.Target.Body) != 1 {
		t.Error("the pattern given was changed")
	}
	if _, err := Aim(p, "47", map[string]string{"waist": "88"}); err == nil || !strings.Contains(err.Error(), `no size "47"`) {
		t.Error(err)
	}
}

// On paper the wearer's line is not called a size, and a size of the chart
// beside it is the chart's.
func TestOwnMeasuresOnPaper(t *testing.T) {
	p := demoFor(t, map[string]string{"bust": "122", "waist": "94"})
	p.Target.Wearer = "Maren"
	alone, err := Drawing(p, PrintChoice{})
	if err != nil || alone.Note != "own measures, for Maren" {
		t.Errorf("%q, %v", alone.Note, err)
	}
	both, err := Drawing(p, PrintChoice{Sizes: []string{"52"}, WithTarget: true})
	if err != nil || both.Note != "size 52, own measures, for Maren" {
		t.Fatalf("%q, %v", both.Note, err)
	}
	plain, err := Retarget(p, "52", p.Target.Method)
	if err != nil {
		t.Fatal(err)
	}
	want, err := Drawing(plain, PrintChoice{})
	if err != nil {
		t.Fatal(err)
	}
	s := both.Pieces[0].Strokes
	if s[0].Layer != "Size 52" || s[1].Layer != "Own measures" || len(s) != 2 {
		t.Fatalf("lines %+v", s)
	}
	moved := 0.0
	for k, c := range s[0].Path.Controls() {
		if c.Dist(want.Pieces[0].Strokes[0].Path.Controls()[k]) > 1e-9 {
			t.Fatal("size 52 is not the chart's")
		}
		moved = max(moved, c.Dist(s[1].Path.Controls()[k]))
	}
	// Size 52 has a waist of 106 cm, she 94, a quarter of it on the half back.
	if moved < 20 {
		t.Errorf("her own line lies within %.1f mm of size 52", moved)
	}
}

// A bust of one size, a waist of another, a hip of a third: each grade point
// stands where its own measure's size has it. By EN 13402-3 (bust as published,
// waist and hip from memory) bust 116 is size 50, waist 94 is 48, hip 127 is 52.
func TestEachPointGoesByItsOwnMeasure(t *testing.T) {
	p := demoFor(t, map[string]string{"bust": "116", "waist": "94", "hip": "127"})
	own, err := Grade(p)
	if err != nil {
		t.Fatal(err)
	}
	size := map[model.Measure]string{model.Bust: "50", model.Waist: "48", model.Hip: "52", model.Steps: "50"}
	plain := map[model.Measure]grading.Result{}
	for m, s := range size {
		q, err := Retarget(p, s, model.ByChart)
		if err != nil {
			t.Fatal(err)
		}
		if plain[m], err = Grade(q); err != nil {
			t.Fatal(err)
		}
	}
	met := map[model.Measure]int{}
	for i, g := range own.Pieces {
		for k, inc := range g.Points {
			for _, s := range []struct {
				got, want grading.Share
			}{
				{inc.Across, plain[inc.Across.Follows].Pieces[i].Points[k].Across},
				{inc.Along, plain[inc.Along.Follows].Pieces[i].Points[k].Along},
			} {
				met[s.got.Follows]++
				if math.Abs(s.got.ByChart-s.want.ByChart) > 1e-6 {
					t.Errorf("%s, %s: %.4f mm following the %s, size %s has %.4f",
						g.Name, inc.Name, s.got.ByChart, s.got.Follows, size[s.got.Follows], s.want.ByChart)
				}
			}
		}
	}
	if met[model.Bust] < 4 || met[model.Waist] < 2 || met[model.Hip] < 2 {
		t.Errorf("the points follow %v", met)
	}
}
