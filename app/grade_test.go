package app

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/sizechart"
)

// printed is a demo garment printed in some sizes and wanted in another.
func printed(t *testing.T, chart string, make func(model.SizeChart, []string) (model.Pattern, error), sizes, want string) model.Pattern {
	t.Helper()
	c, ok := sizechart.ByID(chart)
	if !ok {
		t.Fatalf("no chart %s", chart)
	}
	p, err := make(c, strings.Fields(sizes))
	if err != nil {
		t.Fatal(err)
	}
	if p, err = Retarget(p, want, model.ByChart); err != nil {
		t.Fatal(err)
	}
	return p
}

// Figures: EN 13402-3 women, bust as published, waist and hip from memory; US
// misses home sewing since 1968, 22 and 24 from memory. Worked by hand.
func TestWhatStepsLeaveShort(t *testing.T) {
	const women, misses = "en13402-women", "us-misses"
	for _, c := range []struct {
		p    model.Pattern
		want []string
	}{
		{printed(t, women, draft.Blouse, "36 38 40 42", "48"), []string{
			"By steps the bust would be 20 mm short: the chart grows 140 mm from 42 to 48, the printed steps 120 mm.",
			"By steps the waist would be 20 mm short: the chart grows 140 mm from 42 to 48, the printed steps 120 mm.",
			"By steps the hip would be 10 mm short: the chart grows 130 mm from 42 to 48, the printed steps 120 mm.",
		}},
		// Within the print, and just past it, both say the same.
		{printed(t, women, draft.Blouse, "36 38 40 42", "38"), nil},
		{printed(t, women, draft.Blouse, "36 38 40 42", "46"), nil},
		// 8 to 14 grows 1, 1, 1 1/2, 2 in of bust in steps 8-10, 10-12, 12-14: mean 1 1/2.
		{printed(t, misses, draft.Waistcoat, "8 10 12 14", "20"), []string{
			"By steps the bust would be 1 1/2 in short: the chart grows 6 in from 14 to 20, the printed steps 4 1/2 in.",
			"By steps the waist would be 2 in short: the chart grows 6 in from 14 to 20, the printed steps 4 in.",
			"By steps the hip would be 1 1/2 in short: the chart grows 6 in from 14 to 20, the printed steps 4 1/2 in.",
		}},
		// Downwards from 14 with a step of 2 in: 30 at size 8, the chart has 31 1/2.
		{printed(t, misses, draft.Waistcoat, "14 16", "8"), []string{
			"By steps the bust would be 1 1/2 in short: the chart shrinks 4 1/2 in from 14 to 8, the printed steps 6 in.",
			"By steps the waist would be 2 in short: the chart shrinks 4 in from 14 to 8, the printed steps 6 in.",
			"By steps the hip would be 1 1/2 in short: the chart shrinks 4 1/2 in from 14 to 8, the printed steps 6 in.",
		}},
		// From 20 to 22 the waist grows 3 in, from 22 to 24 only 2.
		{printed(t, misses, draft.Waistcoat, "20 22", "24"), []string{
			"By steps the waist would be 1 in too wide: the chart grows 2 in from 22 to 24, the printed steps 3 in.",
		}},
	} {
		r, err := Grade(c.p)
		if err != nil {
			t.Fatal(err)
		}
		got := ShortText(c.p, r)
		if strings.Join(got, "\n") != strings.Join(c.want, "\n") {
			t.Errorf("to %s:\n%s\nwant\n%s", r.Size, strings.Join(got, "\n"), strings.Join(c.want, "\n"))
		}
	}
}

func TestRetargetKnowsItsChart(t *testing.T) {
	p, err := DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	q, err := Retarget(p, " 116 ", model.BySteps) // by its girth code
	if err != nil || p.Chart.NameAt(q.Target.Place) != "50" || q.Target.Method != model.BySteps || p.Target.Method != model.ByChart {
		t.Errorf("at %v by %s, %v", q.Target.Place, q.Target.Method, err)
	}
	if _, err := Retarget(p, "47", model.ByChart); err == nil || err.Error() != `the chart EN 13402-3 women has no size "47"; it goes from 32 to 62` {
		t.Errorf("size 47: %v", err)
	}
	if _, err := Retarget(model.Pattern{}, "48", model.ByChart); err == nil || err.Error() != "the pattern has no size chart" {
		t.Errorf("without a chart: %v", err)
	}
}

// What cannot be exported writes nothing.
func TestExportRefusals(t *testing.T) {
	p, err := DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range [][3]string{{"47", "svg", `no size "47"`}, {"48", "pdf", `"pdf" is not a way to export; choose svg, json, csv, measures`}} {
		var out bytes.Buffer
		if err := Export(&out, p, PrintChoice{Sizes: []string{c[0]}}, c[1]); err == nil || !strings.Contains(err.Error(), c[2]) || out.Len() > 0 {
			t.Errorf("size %s as %s: %v, %d bytes", c[0], c[1], err, out.Len())
		}
	}
	full := errors.New("the disk is full")
	for _, as := range Exports {
		if err := Export(failing{full}, p, PrintChoice{}, as); !errors.Is(err, full) {
			t.Errorf("as %s onto a full disk: %v", as, err)
		}
	}
	var out bytes.Buffer
	if err := Export(&out, p, PrintChoice{Sizes: []string{"46", "48"}}, "json"); err == nil || out.Len() > 0 {
		t.Errorf("two sizes as json: %v", err)
	}
	if err := Export(&out, p, PrintChoice{Pieces: []string{"hat"}}, "svg"); err == nil || !strings.Contains(err.Error(), `"hat"`) || out.Len() > 0 {
		t.Errorf("a piece that is not there: %v", err)
	}
}

type failing struct{ err error }

func (f failing) Write([]byte) (int, error) { return 0, f.err }

// A report counts what it says is to be looked at, and names places.
func TestReportSaysWhatToLookAt(t *testing.T) {
	p := printed(t, "en13402-women", draft.Blouse, "36 38 40 42", "48")
	p.Target.Method = model.BySteps
	r, err := Check(p)
	if err != nil {
		t.Fatal(err)
	}
	looks := 0
	for _, f := range r.Findings {
		if f.Look {
			looks++
		}
		if f.Say == "" || !strings.Contains(r.Text(), f.Say) {
			t.Errorf("the text leaves out %+v", f)
		}
	}
	if r.Look == 0 || r.Look != looks || r.Size != "48" || r.Method != "steps" || !strings.HasPrefix(r.Text(), "Lantern blouse, size 48 by steps: ") {
		t.Errorf("%d of %d to look at: %s", r.Look, looks, r.Text())
	}
	p.Target.Method = ""
	if r, err = Check(p); err != nil || r.Method != "chart" {
		t.Errorf("no method reads as %q, %v", r.Method, err)
	}
}
