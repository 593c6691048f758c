package edit

import (
	"maps"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model"
	"quarterstep/model/sizechart"
)

// The girths of EN 13402-3, women (bust as published, waist and hip from
// memory): size 46 has 104, 88, 112 cm, 48 has 110, 94, 117, 52 has 122, 106,
// 127.
func TestTheRestGoesByTheMostTellingMeasure(t *testing.T) {
	p := blouse(t)
	p.Target.Place = 0
	size := func() string { return p.Chart.NameAt(p.Target.Place) }
	for _, step := range []struct {
		do   func(model.Pattern) (model.Pattern, error)
		want string
	}{
		{Measure(model.Waist, 880), "46"},
		{Measure(model.Hip, 1170), "48"},
		{Measure(model.Waist, 1060), "48"}, // hip says more than waist
		{Measure(model.Bust, 1220), "52"},
		{Measure(model.Bust, 1208), "52"}, // the nearest size, not the place
		{Place(7), "46"},                  // picked on the strip
		{Measure(model.Hip, 1120), "46"},  // bust still rules, the pick stays
		{ForgetMeasure(model.Hip), "46"},
		{ForgetMeasure(model.Bust), "52"}, // only the waist is left
		{ForgetMeasure(model.Waist), "52"},
		{OwnMeasures(map[model.Measure]float64{model.Waist: 880, model.Hip: 1120}), "46"},
		{OwnMeasures(nil), "46"},
	} {
		p = mustEdit(t, p, step.do)
		if size() != step.want {
			t.Fatalf("with %v the rest goes by %s, want %s", p.Target.Body, size(), step.want)
		}
	}
	if p.Target.Own() {
		t.Error("measurements are left")
	}
}

// Off the chart the last size there is; the measurement itself stays.
func TestBeyondTheChartTheRestGoesByItsLastSize(t *testing.T) {
	p := blouse(t)
	last := float64(len(p.Chart.Sizes) - 1)
	big := mustEdit(t, p, Measure(model.Bust, 1700))
	if big.Target.Place != last || big.Target.Body[model.Bust] != 1700 {
		t.Errorf("place %v of %v, body %v", big.Target.Place, last, big.Target.Body)
	}
	if small := mustEdit(t, p, Measure(model.Bust, 700)); small.Target.Place != 0 {
		t.Errorf("a bust of 70 cm: place %v", small.Target.Place)
	}
}

func TestMeasuresNoBodyHasAreRefused(t *testing.T) {
	p := blouse(t)
	p.Target.Place = 10 // size 52, bust 122 cm
	for _, c := range []struct {
		m  model.Measure
		mm float64
	}{
		{model.Bust, 12},
		{model.Bust, 480}, // inches typed as centimetres
		{model.Bust, 3100},
		{model.Bust, 0},
		{model.Bust, -1220},
		{model.Bust, math.NaN()},
		{model.Bust, math.Inf(1)},
		{model.Steps, 900},
		{"", 900},
		{"knee", 5},
	} {
		for name, e := range map[string]func(model.Pattern) (model.Pattern, error){
			"one": Measure(c.m, c.mm), "all": OwnMeasures(map[model.Measure]float64{c.m: c.mm}),
		} {
			got, err := e(p)
			if err == nil || got.Target.Own() {
				t.Errorf("%s: %s of %v was taken: %v", name, c.m, c.mm, err)
			}
		}
	}
	for unit, want := range map[model.Unit]string{
		model.Centimetres: "type bust as cm or inches, for example 122 cm",
		model.Inches:      "type bust as cm or inches, for example 48 in",
	} {
		p.Unit = unit
		if _, err := Measure(model.Bust, 12)(p); err == nil || err.Error() != want {
			t.Errorf("said %v, want %s", err, want)
		}
	}
	if err := HowToType(p, "knee"); !strings.HasPrefix(err.Error(), "type knee as cm or inches, for example ") {
		t.Error(err)
	}
}

// Another chart keeps the measurements; the rest goes by the size they have
// there. US misses (as printed in a sewing teacher's chart of 2011): size 20
// has a bust of 42 in.
func TestAnotherChartKeepsTheMeasurements(t *testing.T) {
	us, ok := sizechart.ByID("us-misses")
	if !ok {
		t.Fatal("no chart")
	}
	p := blouse(t)
	p.Pieces, p.Links = nil, nil // nothing printed by the old chart
	own, err := Measure(model.Bust, 42*25.4)(p)
	if err != nil {
		t.Fatal(err)
	}
	got, err := Chart(us)(own)
	if err != nil {
		t.Fatal(err)
	}
	if got.Target.Body[model.Bust] != 42*25.4 || got.Chart.NameAt(got.Target.Place) != "20" {
		t.Errorf("size %s, body %v", got.Chart.NameAt(got.Target.Place), got.Target.Body)
	}
}

// An edit makes a new pattern: the older one keeps its measurements.
func TestOlderVersionsKeepTheirMeasurements(t *testing.T) {
	p := blouse(t)
	a := mustEdit(t, p, Measure(model.Bust, 1000))
	b := mustEdit(t, a, Measure(model.Bust, 1100))
	c := mustEdit(t, b, ForgetMeasure(model.Bust))
	if p.Target.Own() || a.Target.Body[model.Bust] != 1000 || b.Target.Body[model.Bust] != 1100 || c.Target.Own() {
		t.Errorf("%v, %v, %v, %v", p.Target.Body, a.Target.Body, b.Target.Body, c.Target.Body)
	}
}

// Whatever she gives and takes back, in any order, the pattern stays a pattern,
// the size the rest goes by is on the chart, and what is left is what she gave.
func TestMeasuresInAnyOrder(t *testing.T) {
	start := blouse(t)
	start.Pieces, start.Links = nil, nil
	rapid.Check(t, func(r *rapid.T) {
		p := start
		want := map[model.Measure]float64{}
		for range rapid.IntRange(1, 8).Draw(r, "steps") {
			m := rapid.SampledFrom(p.Chart.Measures).Draw(r, "measure")
			e := ForgetMeasure(m)
			if rapid.Bool().Draw(r, "give") {
				mm := rapid.Float64Range(700, 1900).Draw(r, "mm")
				e = Measure(m, mm)
				want[m] = mm
			} else {
				delete(want, m)
			}
			var err error
			if p, err = e(p); err != nil {
				r.Fatal(err)
			}
			if err := p.Validate(); err != nil {
				r.Fatal(err)
			}
			if !maps.Equal(p.Target.Body, want) {
				r.Fatalf("left are %v of %v", p.Target.Body, want)
			}
			bust, own := p.Target.Body[model.Bust]
			if !own {
				continue
			}
			near, _ := p.Chart.At(p.Target.Place, model.Bust)
			for _, s := range p.Chart.Sizes {
				if math.Abs(s.Body[model.Bust]-bust) < math.Abs(near-bust)-1e-9 {
					r.Fatalf("a bust of %.1f goes by %.1f, %s is nearer", bust, near, s.Name)
				}
			}
		}
	})
}
