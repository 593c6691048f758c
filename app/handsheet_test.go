package app

import (
	"bytes"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/model/sizechart"
	"quarterstep/printing/handsheet"
	"quarterstep/printing/tile"
)

var update = flag.Bool("update", false, "rewrite the golden file")

func sheetsOf(t rapid.TB, p model.Pattern, pieces ...string) []handsheet.Sheet {
	t.Helper()
	var g grading.Grader
	sheets, err := HandSheets(&g, p, pieces, "1 March 2026")
	if err != nil {
		t.Fatal(err)
	}
	return sheets
}

// square is an invented piece printed in sizes 8, 10 and 12 of the US misses
// chart, its right side out by gap and its foot down by gap from size to size.
func square(t rapid.TB, gap float64) model.Pattern {
	t.Helper()
	c, ok := sizechart.ByID("us-misses")
	if !ok {
		t.Fatal("no chart us-misses")
	}
	q := model.Piece{
		ID: "panel", Name: "Panel",
		Points: []model.GradePoint{{ID: "a", Name: "upper left"}, {ID: "b", Name: "upper right"}, {ID: "c", Name: "lower right"}, {ID: "d", Name: "lower left"}},
		Edges:  []model.Edge{{ID: "top"}, {ID: "side"}, {ID: "foot"}, {ID: "fold", Kind: model.Fold}},
	}
	for i, size := range []string{"8", "10", "12"} {
		w, h := 200+gap*float64(i), 300+gap*float64(i)
		at := []geom.Point{geom.Pt(0, 0), geom.Pt(w, 0), geom.Pt(w, h), geom.Pt(0, h)}
		o := model.Outline{Size: size}
		for k := range at {
			o.Edges = append(o.Edges, geom.Path{geom.Line(at[k], at[(k+1)%4])})
		}
		q.Nest = append(q.Nest, o)
	}
	return model.Pattern{Name: "Wardrobe test", Unit: model.Inches, Chart: c, Pieces: []model.Piece{q}}
}

// Six chart steps of 3/16 in, from 12 to 24, are 1 1/8 in: worked by hand, and
// not six times a rounded gap. In goes of three steps: 9/16 at 18.
func TestSixStepsOfThreeSixteenths(t *testing.T) {
	p, err := Retarget(square(t, 4.7625), "24", model.BySteps)
	if err != nil {
		t.Fatal(err)
	}
	s := sheetsOf(t, p)[0]
	if s.From != "12" || s.To != "size 24" || s.Method != "by steps" || !slices.Equal(s.Stages, []string{"18", "24"}) {
		t.Errorf("from %s to %s %s, stages %v", s.From, s.To, s.Method, s.Stages)
	}
	r := handsheet.RulerFor(s, measure.Inches)
	corner := s.Points[2]
	for i, want := range []string{"9/16", "1 1/8"} {
		for _, m := range []handsheet.Moves{corner.Out, corner.Down} {
			if got, exact := r.Amount(m.Stages[i]); got != want || exact != "" {
				t.Errorf("stage %s: %s (%s), want %s", s.Stages[i], got, exact, want)
			}
		}
	}
	for _, g := range corner.Out.Gaps {
		if got, _ := r.Amount(g); got != "3/16" {
			t.Errorf("a printed gap of %s, want 3/16", got)
		}
	}
}

// EN 13402-3 women: bust and waist grow 180 mm from 40 to 48 and hips 170 (bust
// as published, waist and hip from memory). The blouse has a quarter of each in
// its front: 45, 45 and 42.5.
func TestAQuarterOfTheGrowth(t *testing.T) {
	p, err := DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	s := sheetsOf(t, p, "front")[0]
	want := map[string]float64{"underarm": 45, "side waist": 45, "side hem": 42.5}
	for _, q := range s.Points {
		if w, ok := want[q.Name]; ok {
			if math.Abs(q.Out.Total()-w) > 0.05 || !q.Right {
				t.Errorf("%s goes out %.3f, right %v; want %v", q.Name, q.Out.Total(), q.Right, w)
			}
			delete(want, q.Name)
		}
	}
	if len(want) > 0 {
		t.Errorf("not on the sheet: %v", want)
	}
}

// What a sheet says to add is what the grading adds, whatever the size, and
// leads from the printed line to the new one; every grade point is there; the
// points of a fold or centre edge do not go across; no go is over three steps.
func TestSheetsFollowTheGrading(t *testing.T) {
	var demos []model.Pattern
	for _, demo := range []func() (model.Pattern, error){DemoBlouse, DemoWaistcoat} {
		p, err := demo()
		if err != nil {
			t.Fatal(err)
		}
		demos = append(demos, p)
	}
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.SampledFrom(demos).Draw(t, "pattern")
		p.Target.Place = float64(rapid.IntRange(0, 2*(len(p.Chart.Sizes)-1)).Draw(t, "half sizes")) / 2
		p.Target.Method = rapid.SampledFrom([]model.Method{model.ByChart, model.BySteps}).Draw(t, "method")
		r, err := Grade(p)
		if err != nil {
			t.Fatal(err)
		}
		for i, s := range sheetsOf(t, p) {
			q, g := p.Pieces[i], r.Pieces[i]
			if len(s.Points) != len(q.Points)+len(q.Darts) {
				t.Fatalf("%s: %d points listed of %d and %d darts", q.Name, len(s.Points), len(q.Points), len(q.Darts))
			}
			printed, _ := q.Printed(s.From)
			for k, inc := range g.Points {
				got := s.Points[k]
				out := got.Out.Total()
				if !got.Right {
					out = -out
				}
				// Followers are redrawn along their leaders to 0.01 mm.
				if d := math.Hypot(out-inc.Across.Total, got.Down.Total()-inc.Along.Total); inc.Across.From == s.From && d > 0.02 {
					t.Fatalf("%s to %s: %s is %.4f mm from what was graded", q.Name, s.To, inc.Name, d)
				}
				if at := printed.Edges[k].Start().Add(q.FromAcrossAlong(out, got.Down.Total())); at.Dist(g.Edges[k].Start()) > 1e-9 {
					t.Fatalf("%s to %s: %s leads beside the new line", q.Name, s.To, inc.Name)
				}
			}
			for k, e := range q.Edges {
				for _, end := range []int{k, (k + 1) % len(q.Edges)} {
					if (e.Kind == model.Fold || e.Kind == model.Centre) && math.Abs(s.Points[end].Out.Total()) > 1e-6 {
						t.Fatalf("%s to %s: point %d of the %s goes across", q.Name, s.To, end+1, e.Name)
					}
				}
			}
			last, _ := p.Chart.Place(s.From)
			for _, name := range s.Stages[:len(s.Stages)-1] {
				place, ok := p.Chart.Place(name)
				if !ok || place == last || place-last > 3 || last-place > 3 {
					t.Fatalf("%s to %s: goes %v from %s", q.Name, s.To, s.Stages, s.From)
				}
				last = place
			}
			if math.Abs(p.Target.Place-float64(last)) > 3 && s.To != "" {
				t.Fatalf("%s to %s: the last of %v is over three steps", q.Name, s.To, s.Stages)
			}
		}
	})
}

// The stage of a size is what a sheet for that size has as its total.
func TestAStageIsThatSize(t *testing.T) {
	p, err := DemoWaistcoat()
	if err != nil {
		t.Fatal(err)
	}
	if p, err = Retarget(p, "24", model.ByChart); err != nil {
		t.Fatal(err)
	}
	for i, s := range sheetsOf(t, p) {
		for k, name := range s.Stages {
			at, err := Retarget(p, name, model.ByChart)
			if err != nil {
				t.Fatal(err)
			}
			alone := sheetsOf(t, at)[i]
			for j, q := range s.Points {
				if a := alone.Points[j]; q.Out.Stages[k] != a.Out.Total() || q.Down.Stages[k] != a.Down.Total() {
					t.Errorf("%s, %s at %s: %v and %v, alone %v and %v", s.Piece, q.Name, name,
						q.Out.Stages[k], q.Down.Stages[k], a.Out.Total(), a.Down.Total())
				}
			}
		}
	}
}

// A wearer's own measurements are drawn in shares of the way.
func TestWearerInShares(t *testing.T) {
	p, err := DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	p.Target.Wearer = "Maren"
	p.Target.Body = map[model.Measure]float64{model.Bust: 1190, model.Waist: 930}
	s := sheetsOf(t, p, "front")[0]
	if s.For != "Maren" || !strings.HasPrefix(s.To, "bust ") || !slices.Equal(s.Stages, []string{"half", "whole"}) {
		t.Errorf("for %s to %s in %v", s.For, s.To, s.Stages)
	}
	for _, q := range s.Points {
		// The bust is at 920 in 40: half the way is half the growth, a quarter
		// of it in the front.
		if q.Name == "underarm" && (math.Abs(q.Out.Stages[0]-(1190-920)/8.0) > 0.05 || math.Abs(q.Out.Total()-(1190-920)/4.0) > 0.05) {
			t.Errorf("underarm out %v", q.Out.Stages)
		}
	}
}

// What stays as printed is to be traced, with nothing to add.
func TestWhatStaysIsTraced(t *testing.T) {
	wanted, err := Retarget(square(t, 5), "20", model.ByChart)
	if err != nil {
		t.Fatal(err)
	}
	same := wanted
	same.Pieces = slices.Clone(same.Pieces)
	same.Pieces[0].OneForAll = true
	same.Pieces[0].Nest = same.Pieces[0].Nest[:1]
	frozen := wanted
	frozen.Pieces = slices.Clone(frozen.Pieces)
	frozen.Pieces[0].Nest = frozen.Pieces[0].Nest[1:2]
	printed := wanted
	printed.Target.Place = 2
	for _, c := range []struct {
		say, from, note string
		p               model.Pattern
	}{
		{"the same for all", "8", "the same in all sizes", same},
		{"one size printed", "10", "nothing says how it grows", frozen},
		{"a printed size", "10", "Size 10 is printed", printed},
	} {
		s := sheetsOf(t, c.p)[0]
		if s.From != c.from || s.To != "" || len(s.Stages) != 1 || len(s.Notes) != 1 || !strings.Contains(s.Notes[0], c.note) {
			t.Errorf("%s: from %s to %q in %v: %q", c.say, s.From, s.To, s.Stages, s.Notes)
		}
		for k, q := range s.Points {
			if q.Out.Total() != 0 || q.Down.Total() != 0 || s.Edges[k].How != "Trace the printed line" {
				t.Errorf("%s: %s goes %v and %v; %s", c.say, q.Name, q.Out.Total(), q.Down.Total(), s.Edges[k].How)
			}
		}
	}
}

// A slanting grain is turned to run down the page, and the amounts with it.
func TestGrainRunsDownThePage(t *testing.T) {
	p, err := Retarget(square(t, 5), "20", model.BySteps)
	if err != nil {
		t.Fatal(err)
	}
	upright := sheetsOf(t, p)[0]
	m := geom.Rotate(0.7)
	q := p.Pieces[0]
	q.Nest = slices.Clone(q.Nest)
	for i, o := range q.Nest {
		q.Nest[i].Edges = slices.Clone(o.Edges)
		for j, e := range o.Edges {
			q.Nest[i].Edges[j] = e.Transform(m)
		}
	}
	grain := geom.Path{geom.Line(geom.Pt(50, 50), geom.Pt(50, 250))}.Transform(m)
	q.Lines = []model.Line{{ID: "grain", Kind: model.Grain, Drawn: []model.SizedPath{{Path: grain}}}}
	p.Pieces = []model.Piece{q}
	turned := sheetsOf(t, p)[0]
	for k, a := range upright.Points {
		b := turned.Points[k]
		if a.At.Dist(b.At) > 1e-9 || math.Abs(a.Out.Total()-b.Out.Total()) > 1e-9 || math.Abs(a.Down.Total()-b.Down.Total()) > 1e-9 || a.Right != b.Right {
			t.Errorf("%s: %+v upright, %+v turned", a.Name, a, b)
		}
	}
}

func TestHandSheetRefusals(t *testing.T) {
	p, err := DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	var g grading.Grader
	if _, err := HandSheets(&g, p, []string{"front", "hat"}, ""); err == nil || !strings.Contains(err.Error(), `no piece "hat"`) {
		t.Errorf("a piece that is not there: %v", err)
	}
	p.Target.Place = 99
	if _, err := HandSheets(&g, p, nil, ""); err == nil {
		t.Error("a size off the chart gave a sheet")
	}
}

// Followers say whose line to trace, and the pages come out the same twice.
func TestFollowersTraceTheirLeaders(t *testing.T) {
	p, err := DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	sheets := sheetsOf(t, p)
	var hows []string
	for _, s := range sheets {
		for _, e := range s.Edges {
			hows = append(hows, s.Piece+": "+e.How)
		}
	}
	for _, want := range []string{"Front neck facing: Trace the new stand top and neckline of Front bodice", "Back neck facing: Trace the new neckline of Back bodice"} {
		if !slices.Contains(hows, want) {
			t.Errorf("no %q among %q", want, hows)
		}
	}
	paper, err := tile.ParsePaper("letter")
	if err != nil {
		t.Fatal(err)
	}
	var first, second bytes.Buffer
	for _, b := range []*bytes.Buffer{&first, &second} {
		if err := WriteHandSheets(b, sheetsOf(t, p), paper, p.Unit); err != nil {
			t.Fatal(err)
		}
	}
	if first.Len() == 0 || !bytes.Equal(first.Bytes(), second.Bytes()) {
		t.Errorf("%d bytes, then %d others", first.Len(), second.Len())
	}
}

// The whole of what two sheets say, to be read in a change.
func TestHandSheetGolden(t *testing.T) {
	waistcoat := printed(t, "us-misses", draft.Waistcoat, "8 10 12 14", "22")
	blouse, err := DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for _, s := range append(sheetsOf(t, waistcoat)[:1], sheetsOf(t, blouse, "front")...) {
		unit := measure.Centimetres
		if s.Pattern == waistcoat.Name {
			unit = measure.Inches
		}
		tell(&b, s, unit)
	}
	path := filepath.Join("testdata", "handsheet.golden")
	if *update {
		if err := os.WriteFile(path, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if b.String() != string(want) {
		t.Errorf("the sheets have changed; run with -update and read the difference\n%s", b.String())
	}
}

func tell(b *strings.Builder, s handsheet.Sheet, unit measure.Unit) {
	r := handsheet.RulerFor(s, unit)
	fmt.Fprintf(b, "%s, %s. %s. From %s to %s %s. %s\n", s.Pattern, s.Piece, s.Cut, s.From, s.To, s.Method, s.Date)
	fmt.Fprintf(b, "gaps %v, stages %v\n", s.Gaps, s.Stages)
	row := func(name string, m handsheet.Moves) {
		fmt.Fprintf(b, "  %s:", name)
		for i, mm := range append(slices.Clone(m.Gaps), m.Stages...) {
			if i == len(m.Gaps) {
				b.WriteString(" |")
			}
			shown, exact := r.Amount(mm)
			if mm < 0 && shown != "0" {
				shown = "-" + shown
			}
			if exact != "" {
				shown += " (" + exact + ")"
			}
			b.WriteString(" " + shown + ";")
		}
		b.WriteString("\n")
	}
	for k, q := range s.Points {
		fmt.Fprintf(b, "%d %s, out is right: %v\n", k+1, q.Name, q.Right)
		row("out", q.Out)
		row("down", q.Down)
	}
	for k, e := range s.Edges {
		fmt.Fprintf(b, "%d to %d %s: %s; %s\n", k+1, (k+1)%len(s.Edges)+1, e.Name, e.How, e.Mark)
	}
	for _, n := range s.Notes {
		b.WriteString(n + "\n")
	}
	b.WriteString("\n")
}
