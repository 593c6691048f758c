package girth_test

import (
	"math"
	"strings"
	"testing"

	"quarterstep/grading"
	"quarterstep/grading/girth"
	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/sizechart"
)

// table is a published size chart, mm of girth for each size.
type table struct {
	chart            string
	sizes            string // the chart's own names, as many as figures
	printed          string
	to               string
	bust, waist, hip []float64
	unit             float64
}

// EN 13402-3 women: bust as published, seen in a stored copy up to 131 cm;
// waist and hip from memory; size numbers common practice. Printed 80 to 92,
// wanted 122.
var euro = table{
	chart: "en13402-women", sizes: "34 36 38 40 42 44 46 48 50 52", printed: "34 36 38 40", to: "52", unit: 10,
	bust:  []float64{80, 84, 88, 92, 96, 100, 104, 110, 116, 122},
	waist: []float64{64, 68, 72, 76, 80, 84, 88, 94, 100, 106},
	hip:   []float64{88, 92, 96, 100, 104, 108, 112, 117, 122, 127},
}

// US home sewing misses since 1968: 8 to 20 as published in a sewing teacher's
// chart of 2011, seen in a stored copy; 22 and 24 from memory.
var misses = table{
	chart: "us-misses", sizes: "8 10 12 14 16 18 20 22 24", printed: "8 10 12 14", to: "24", unit: 25.4,
	bust:  []float64{31.5, 32.5, 34, 36, 38, 40, 42, 44, 46},
	waist: []float64{24, 25, 26.5, 28, 30, 32, 34, 37, 39},
	hip:   []float64{33.5, 34.5, 36, 38, 40, 42, 44, 46, 48},
}

func (c table) of(m model.Measure) []float64 {
	return map[model.Measure][]float64{model.Bust: c.bust, model.Waist: c.waist, model.Hip: c.hip}[m]
}

// body is the body at the wanted size, mm.
func (c table) body(m model.Measure) float64 { v := c.of(m); return c.unit * v[len(v)-1] }

// stepsShort is what the mean printed step, repeated from the largest printed
// size, leaves short of the wanted one, mm: worked here from the table.
func (c table) stepsShort(m model.Measure) float64 {
	v, n := c.of(m), len(strings.Fields(c.printed))
	last := v[n-1]
	step := (last - v[0]) / float64(n-1)
	return c.unit * (v[len(v)-1] - last - step*float64(len(v)-n))
}

func (c table) read(t *testing.T) model.SizeChart {
	t.Helper()
	chart, ok := sizechart.ByID(c.chart)
	if !ok {
		t.Fatalf("no chart %s", c.chart)
	}
	return chart
}

// blocks is a front and a back drafted straight from the chart: a quarter of
// each girth and the ease, which is 100, 70 and 60 mm at bust, waist and hip.
func (c table) blocks(t *testing.T) model.Pattern {
	chart := c.read(t)
	var nest []model.Outline
	for _, size := range strings.Fields(c.printed) {
		place, _ := chart.Place(size)
		at := func(m model.Measure) float64 { v, _ := chart.At(float64(place), m); return v / 4 }
		nest = append(nest, model.Outline{Size: size, Edges: block(at(model.Bust)+25, at(model.Waist)+17.5, at(model.Hip)+15)})
	}
	front, back := blockPiece("f", "Front", nest...), blockPiece("b", "Back", nest...)
	return model.Pattern{Name: "Blocks", Chart: chart, Pieces: []model.Piece{front, back}}
}

// seamed is blocks with seam allowances of 15 mm all round but on the fold:
// its ease is less by what they take.
func (c table) seamed(t *testing.T) model.Pattern {
	p := c.blocks(t)
	for i, q := range p.Pieces {
		q.Edges = append([]model.Edge(nil), q.Edges...)
		for k := range q.Edges {
			if q.Edges[k].Kind != model.Fold {
				q.Edges[k].Allowance = 15
			}
		}
		p.Pieces[i] = q
	}
	return p
}

func graded(t *testing.T, p model.Pattern, to string, by model.Method) (map[model.Measure]girth.Row, grading.Result) {
	t.Helper()
	place, ok := p.Chart.Place(to)
	if !ok {
		t.Fatalf("no size %s", to)
	}
	p.Target = model.Target{Place: float64(place), Method: by}
	var g grading.Grader
	r, err := g.Grade(p)
	if err != nil {
		t.Fatal(err)
	}
	rows, _, err := girth.Table(p, r)
	if err != nil {
		t.Fatal(err)
	}
	out := map[model.Measure]girth.Row{}
	for _, row := range rows {
		out[row.Measure] = row
	}
	return out, r
}

// meanPrinted is the mean ease of the printed sizes.
func meanPrinted(row girth.Row) float64 {
	var sum float64
	for _, s := range row.Printed {
		sum += s.Ease
	}
	return sum / float64(len(row.Printed))
}

// By chart the garment keeps the ease it has in print; by steps it is tighter
// by what the chart's own figures say. Both within 1 mm of whole girth.
//
// Two things stay out. Blocks with seams at the bust: their side is straight,
// so at the stitched underarm, 15 mm of 200 down, it goes a little by the waist,
// on paper as in cloth; TestGradedGirthIsThatOfTheDraft holds them.
// The waistcoat at the hip: it ends above.
func TestGirthByChartAndBySteps(t *testing.T) {
	drafted := func(make func(model.SizeChart, []string) (model.Pattern, error)) func(*testing.T, table) model.Pattern {
		return func(t *testing.T, c table) model.Pattern {
			p, err := make(c.read(t), strings.Fields(c.printed))
			if err != nil {
				t.Fatal(err)
			}
			return p
		}
	}
	blocks := func(t *testing.T, c table) model.Pattern { return c.blocks(t) }
	seamed := func(t *testing.T, c table) model.Pattern { return c.seamed(t) }
	all := []model.Measure{model.Bust, model.Waist, model.Hip}
	for _, c := range []struct {
		name     string
		chart    table
		make     func(*testing.T, table) model.Pattern
		measures []model.Measure
	}{
		{"blocks", euro, blocks, all},
		{"blocks", misses, blocks, all},
		{"blocks with seams", euro, seamed, all[1:]},
		{"blocks with seams", misses, seamed, all[1:]},
		{"blouse", euro, drafted(draft.Blouse), all},
		{"blouse", misses, drafted(draft.Blouse), all},
		{"waistcoat", euro, drafted(draft.Waistcoat), all[:2]},
		{"waistcoat", misses, drafted(draft.Waistcoat), all[:2]},
	} {
		name := c.name + " on " + c.chart.chart
		p := c.make(t, c.chart)
		chart, _ := graded(t, p, c.chart.to, model.ByChart)
		steps, r := graded(t, p, c.chart.to, model.BySteps)
		for _, m := range c.measures {
			row, ok := chart[m]
			if !ok || len(row.Printed) != 4 {
				t.Errorf("%s: no figures for the %s", name, m)
				continue
			}
			near(t, name+", body at the "+string(m), row.Target.Body, c.chart.body(m), 1e-6)
			near(t, name+", girth by chart at the "+string(m), row.Target.Finished, c.chart.body(m)+meanPrinted(row), 1)
			near(t, name+", ease lost by chart at the "+string(m), row.Lost(), 0, 1)
			near(t, name+", ease lost by steps at the "+string(m), steps[m].Lost(), c.chart.stepsShort(m), 1)
		}
		for _, s := range r.Short {
			near(t, name+", shortfall said at the "+string(s.Measure), s.Missing(), c.chart.stepsShort(s.Measure), 1)
		}
	}
}

// The shortfalls worked from the tables, as a sewist would with a pencil: from
// 92 to 122 cm the chart grows 30, six steps of 4 give 24; in US sizes 14 to 24
// grow 10 in, five steps of 1 1/2 give 7 1/2.
func TestShortfallsByHand(t *testing.T) {
	near(t, "EN bust", euro.stepsShort(model.Bust), 60, 1e-9)
	near(t, "EN waist", euro.stepsShort(model.Waist), 60, 1e-9)
	near(t, "EN hip", euro.stepsShort(model.Hip), 30, 1e-9)
	near(t, "US bust", misses.stepsShort(model.Bust), 2.5*25.4, 1e-9)
	near(t, "US waist", misses.stepsShort(model.Waist), 4.0/3*3.25*25.4, 1e-9)
	near(t, "US hip", misses.stepsShort(model.Hip), 2.5*25.4, 1e-9)
}

// Where a level lies between two grade points, a side seam there goes partly by
// another girth, in the draft as on the graded line. There the draft itself, at
// the wanted size, is what the graded girth is held to.
func TestGradedGirthIsThatOfTheDraft(t *testing.T) {
	for _, c := range []struct {
		name  string
		chart table
		make  func(model.SizeChart, []string) (model.Pattern, error)
		rows  int
	}{
		{"blouse", euro, draft.Blouse, 3},
		{"blouse", misses, draft.Blouse, 3},
		{"waistcoat", euro, draft.Waistcoat, 2},
		{"waistcoat", misses, draft.Waistcoat, 2},
	} {
		p, err := c.make(c.chart.read(t), strings.Fields(c.chart.printed))
		if err != nil {
			t.Fatal(err)
		}
		truth, err := c.make(c.chart.read(t), []string{c.chart.to})
		if err != nil {
			t.Fatal(err)
		}
		want, _, err := girth.Printed(truth, c.chart.to)
		if err != nil || len(want) != c.rows {
			t.Fatalf("%s: %v %v", c.name, want, err)
		}
		rows, _ := graded(t, p, c.chart.to, model.ByChart)
		for _, g := range want {
			near(t, c.name+" on "+c.chart.chart+", "+string(g.Measure), rows[g.Measure].Target.Finished, g.Finished, 1)
		}
	}
	for _, c := range []table{euro, misses} {
		there := c
		there.printed = c.to
		want, missing, err := girth.Printed(there.seamed(t), c.to)
		if err != nil || len(want) != 3 {
			t.Fatalf("%v %v", missing, err)
		}
		rows, _ := graded(t, c.seamed(t), c.to, model.ByChart)
		for _, g := range want {
			near(t, "blocks with seams on "+c.chart+", "+string(g.Measure), rows[g.Measure].Target.Finished, g.Finished, 1)
		}
	}
}

// The ease of the demos is what blouses and waistcoats have: 60 to 150 mm at
// the bust. Common practice.
func TestDemosHavePlausibleEase(t *testing.T) {
	for _, c := range []struct {
		name  string
		chart table
		make  func(model.SizeChart, []string) (model.Pattern, error)
	}{{"blouse", euro, draft.Blouse}, {"waistcoat", misses, draft.Waistcoat}} {
		p, err := c.make(c.chart.read(t), strings.Fields(c.chart.printed))
		if err != nil {
			t.Fatal(err)
		}
		rows, _ := graded(t, p, c.chart.to, model.ByChart)
		for _, s := range rows[model.Bust].Printed {
			if s.Ease < 60 || s.Ease > 150 {
				t.Errorf("%s in %s has %.1f mm of ease at the bust", c.name, s.Size, s.Ease)
			}
		}
	}
}

// A wearer of three sizes keeps the blouse's ease at waist and hip within 1 mm.
// On the US chart at the bust too; in EN sizes 34 to 40 bust and waist both grow
// 4 cm a size, so the print cannot tell what the line just below the underarm
// goes by, and the bust may be 2 mm off.
func TestDemoKeepsEaseForAWearerOfThreeSizes(t *testing.T) {
	for _, c := range []struct {
		chart table
		bust  float64 // mm it may be off
	}{{euro, 2}, {misses, 1}} {
		p, err := draft.Blouse(c.chart.read(t), strings.Fields(c.chart.printed))
		if err != nil {
			t.Fatal(err)
		}
		p.Target.Body = map[model.Measure]float64{model.Bust: 1160, model.Waist: 970, model.Hip: 1270}
		var g grading.Grader
		r, err := g.Grade(p)
		if err != nil {
			t.Fatal(err)
		}
		rows, _, err := girth.Table(p, r)
		if err != nil || len(rows) != 3 {
			t.Fatalf("%v %v", rows, err)
		}
		for i, within := range []float64{c.bust, 1, 1} {
			near(t, c.chart.chart+", ease lost at the "+string(rows[i].Measure), rows[i].Lost(), 0, within)
			near(t, c.chart.chart+", her own "+string(rows[i].Measure), rows[i].Target.Body, p.Target.Body[rows[i].Measure], 1e-9)
		}
	}
}

// A wearer of the blocks between two sizes, or of her own waist, keeps the
// printed ease at each girth.
func TestEaseOfOnesOwnMeasurements(t *testing.T) {
	p := euro.blocks(t)
	p.Target = model.Target{Place: 6, Body: map[model.Measure]float64{model.Bust: 1010, model.Waist: 985, model.Hip: 1034}}
	var g grading.Grader
	r, err := g.Grade(p)
	if err != nil {
		t.Fatal(err)
	}
	rows, _, err := girth.Table(p, r)
	if err != nil || len(rows) != 3 {
		t.Fatalf("%v %v", rows, err)
	}
	for i, ease := range []float64{100, 70, 60} {
		near(t, string(rows[i].Measure)+" ease", rows[i].Target.Ease, ease, 1)
		near(t, string(rows[i].Measure)+" lost", rows[i].Lost(), 0, 1)
	}
}

// printedWith is blocks of the euro chart whose ease at the bust is as given,
// one figure per printed size.
func printedWith(t *testing.T, ease ...float64) model.Pattern {
	t.Helper()
	chart := euro.read(t)
	var nest []model.Outline
	for i, size := range strings.Fields(euro.printed) {
		place, _ := chart.Place(size)
		bust, _ := chart.At(float64(place), model.Bust)
		if i < len(ease) {
			nest = append(nest, model.Outline{Size: size, Edges: block((bust+ease[i])/2, 190+float64(i), 240+float64(i))})
		}
	}
	return model.Pattern{Name: "Blocks", Chart: chart, Pieces: []model.Piece{blockPiece("f", "Front", nest...)}}
}

// Carried ease: a clear trend goes on, anything else is taken as its mean;
// between printed sizes it lies between theirs. Sizes 34 to 40 have busts of
// 800 to 920, size 44 has 1000. Worked by hand.
func TestCarriedEase(t *testing.T) {
	for _, c := range []struct {
		name string
		ease []float64
		to   string
		want float64
	}{
		{"even", []float64{100, 100, 100, 100}, "44", 100},
		{"growing", []float64{100, 104, 108, 112}, "44", 120},
		{"shrinking", []float64{112, 108, 104, 100}, "44", 92},
		{"growing too little to tell", []float64{100, 101, 102, 103}, "44", 101.5},
		{"not on a line", []float64{100, 100, 100, 120}, "44", 105},
		{"one size", []float64{90}, "44", 90},
		{"two sizes", []float64{90, 100}, "38", 110},
		{"at a printed size", []float64{100, 90, 100, 100}, "36", 90},
	} {
		p := printedWith(t, c.ease...)
		rows, _ := graded(t, p, c.to, model.ByChart)
		row := rows[model.Bust]
		if !row.Compared {
			t.Errorf("%s: nothing to compare with", c.name)
		}
		near(t, c.name, row.Carried, c.want, within)
		near(t, c.name+", lost", row.Lost(), row.Carried-row.Target.Ease, 1e-9)
	}
	p := printedWith(t, 100, 90, 100, 100)
	p.Target.Place = 2.5
	var g grading.Grader
	r, err := g.Grade(p)
	if err != nil {
		t.Fatal(err)
	}
	rows, _, err := girth.Table(p, r)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "between 36 and 38", rows[0].Carried, 95, within)
}

// Pieces printed in different sizes only have nothing in common to compare
// with, and that is said.
func TestNothingToCompareWithIsSaid(t *testing.T) {
	p := euro.blocks(t)
	front, back := p.Pieces[0], p.Pieces[1]
	front.Nest, back.Nest = front.Nest[:2], back.Nest[2:]
	p.Pieces = []model.Piece{front, back}
	p.Target.Place = 6
	var g grading.Grader
	r, err := g.Grade(p)
	if err != nil {
		t.Fatal(err)
	}
	rows, missing, err := girth.Table(p, r)
	if err != nil || len(rows) != 3 {
		t.Fatalf("%v %v", rows, err)
	}
	if rows[0].Compared || rows[0].Lost() != 0 || len(missing) != 12 || missing[0].Size == "" {
		t.Errorf("%+v %v", rows[0], missing)
	}
	if math.IsNaN(rows[0].Carried) {
		t.Error("no number")
	}
}
