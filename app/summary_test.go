package app

import (
	"bytes"
	"errors"
	"slices"
	"strings"
	"testing"

	"quarterstep/app/edit"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/printing/summary"
	"quarterstep/printing/tile"
)

// said is all the words of a summary, a line each.
func said(s summary.Summary) string {
	lines := []string{s.Title, s.Line, s.Date}
	for _, q := range s.Pieces {
		lines = append(lines, q.Name+": "+q.Cut)
	}
	for _, p := range s.Parts {
		lines = append(lines, "== "+p.Title)
		for _, row := range p.Table.Rows {
			lines = append(lines, strings.Join(row, " | "))
		}
		lines = append(lines, slices.Concat(p.Text, p.Points)...)
	}
	return strings.Join(lines, "\n")
}

func summaryOf(t *testing.T, p model.Pattern) string {
	t.Helper()
	s, err := Summary(p, "29 November 2026")
	if err != nil {
		t.Fatal(err)
	}
	return said(s)
}

// The summary says the sizes with their source, the measures, every piece and
// link, every check, and everything that is to be looked at.
func TestSummarySaysAll(t *testing.T) {
	for _, p := range demos(t) {
		p.Target.Wearer = "an invented player"
		text := summaryOf(t, p)
		want := []string{p.Name, "29 November 2026", "for an invented player", capital(p.Chart.Source), capital(p.Chart.Status), p.Note, "licensed for your own use"}
		for _, q := range p.Pieces {
			want = append(want, "\n"+q.Name+" | "+q.CutWords())
		}
		report, err := CheckFully(p)
		if err != nil {
			t.Fatal(err)
		}
		for _, k := range report.Checks {
			want = append(want, k.Title+" | ")
		}
		for _, f := range report.Findings {
			if f.Look {
				want = append(want, f.Say)
			}
		}
		for _, g := range report.Girths {
			want = append(want, p.Target.NameOn(p.Chart)+", wanted | ")
			for _, s := range g.Printed {
				want = append(want, s.Size+", printed | ")
			}
		}
		for _, w := range want {
			if !strings.Contains(text, w) {
				t.Errorf("%s: the summary does not say %q", p.Name, w)
			}
		}
		if n := strings.Count(text, " | sewn together | ") + strings.Count(text, " | same line | "); n != len(p.Links) {
			t.Errorf("%s: %d links of %d", p.Name, n, len(p.Links))
		}
	}
}

// The figures of the demo, by the published chart: size 48 is a bust of 110 cm
// (EN 13402-3), and the garment less the body is the ease.
func TestSummaryHasTheChartsFigures(t *testing.T) {
	text := summaryOf(t, demos(t)[0])
	for _, want := range []string{"Bust | size 48 of the chart | 110 cm", "48, wanted | 110 cm | 118.5 cm | 8.5 cm", "Printed | 34, 36, 38, 40", "cut nothing before it is 5 cm each way", "size 48 was not printed but worked out"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	inches := summaryOf(t, demos(t)[1])
	if !strings.Contains(inches, "cut nothing before it is 2 in each way") || strings.Contains(inches, " mm") {
		t.Errorf("in inches:\n%s", inches)
	}
}

// What her hand and her tape say is in it.
func TestSummaryOfAWearer(t *testing.T) {
	p := demos(t)[0]
	q := p.Pieces[0]
	var err error
	for _, e := range []func(model.Pattern) (model.Pattern, error){
		edit.MovePoint(q.ID, q.Points[0].ID, geom.Vec{Y: -6}), edit.OwnMeasures(map[model.Measure]float64{model.Bust: 1220}), edit.CutLining(q.ID, 2),
	} {
		if p, err = e(p); err != nil {
			t.Fatal(err)
		}
	}
	if p, err = Lengthen(p, []string{"Hem=30mm"}); err != nil {
		t.Fatal(err)
	}
	text := summaryOf(t, p)
	for _, want := range []string{"Bust | the wearer, size 52 | 122 cm", "== Made longer or shorter\nHem: 30 mm longer", q.Name + " | " + edit.Corrections(p)[0].What, "Cut 2, cut lining 2", "own measures, wanted"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	if strings.Contains(text, "Nothing.") {
		t.Error("it says that nothing was corrected by hand")
	}
}

// With a chart of children the rules for their clothes are named; else they are
// only reminded of. The names of the rules are from memory.
func TestSummaryForAChild(t *testing.T) {
	p := demos(t)[0]
	plain := summaryOf(t, p)
	if strings.Contains(plain, "EN 14682") || !strings.Contains(plain, "If it is for a child: nightwear and drawstrings") {
		t.Error("a chart of women is taken for one of children")
	}
	for _, name := range []string{"Lantern Street children (invented)", "Girls 4-12", "Boys' sizes", "Toddler"} {
		p.Chart.Name = name
		text := summaryOf(t, p)
		for _, want := range []string{"EN 14878", "16 CFR 1615", "EN 14682", "ASTM F1816"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: no %q", name, want)
			}
		}
	}
	for _, name := range []string{"Childs Hill players", "Playboy of the West", "women"} {
		if forChildren(model.SizeChart{Name: name}) {
			t.Errorf("%s is taken for a chart of children", name)
		}
	}
}

// A printed size is not said to be worked out; a pattern without links, name or
// pieces has a summary too.
func TestSummaryOfLittle(t *testing.T) {
	p := demos(t)[0]
	var err error
	if p, err = Retarget(p, "38", ""); err != nil {
		t.Fatal(err)
	}
	p.Links, p.Name = nil, ""
	text := summaryOf(t, p)
	if strings.Contains(text, "worked out") || !strings.Contains(text, "None are linked.") || !strings.HasPrefix(text, "Pattern without a name\n") {
		t.Errorf("it says\n%s", text)
	}
	for _, few := range []model.Pattern{{}, {Chart: p.Chart}} {
		var out bytes.Buffer
		if err := WriteSummary(&out, few, "", tile.Papers()[0]); err == nil && out.Len() == 0 {
			t.Errorf("of an empty pattern: %v, %d bytes", err, out.Len())
		}
	}
	full := errors.New("the disk is full")
	if err := WriteSummary(failing{full}, p, "", tile.Papers()[0]); !errors.Is(err, full) {
		t.Errorf("onto a full disk: %v", err)
	}
}
