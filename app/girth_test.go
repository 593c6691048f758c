package app

import (
	"math"
	"testing"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/draft"
)

// US misses 14 to 24 (to 20 as published, 22 and 24 from memory): the bust
// grows 10 in, five printed steps of 1 1/2 give 7 1/2; the waist grows 11, five
// steps of 4/3 give 6 2/3.
func TestGirthsSayTheShortfallInTheUsersUnit(t *testing.T) {
	p := printed(t, "us-misses", draft.Waistcoat, "8 10 12 14", "24")
	var g grading.Grader
	for _, c := range []struct {
		method model.Method
		lost   string // at the waist
	}{{model.ByChart, ""}, {model.BySteps, "4 5/16 in too tight"}} {
		p.Target.Method = c.method
		table, err := Girths(&g, p)
		if err != nil {
			t.Fatal(err)
		}
		if table.Size != "24" || len(table.Rows) != 2 || len(table.Missing) != 2 {
			t.Fatalf("%+v", table)
		}
		for i, want := range []struct {
			m     model.Measure
			short float64
			says  string
		}{{model.Bust, 2.5 * 25.4, "2 1/2 in too tight"}, {model.Waist, 13.0 / 3 * 25.4, "4 5/16 in too tight"}} {
			row := table.Rows[i]
			if row.Measure != want.m || math.Abs(row.StepsShort-want.short) > 1e-6 || row.StepsText != want.says {
				t.Errorf("%s: %+v", want.m, row)
			}
		}
		if waist := table.Rows[1]; waist.LostText != c.lost {
			t.Errorf("by %s the waist has lost %q, want %q", c.method, waist.LostText, c.lost)
		}
	}
	p.Target = model.Target{Place: 2}
	table, err := Girths(&g, p)
	if err != nil || len(table.Rows) != 2 || table.Rows[1].StepsText != "" || table.Rows[1].LostText != "" {
		t.Errorf("at a printed size nothing is lost: %+v %v", table, err)
	}
	p.Target.Place = 99
	if _, err := Girths(&g, p); err == nil {
		t.Error("a size off the chart has girths")
	}
}

// The nests traced by a shaky hand and as polygons: their garment keeps its
// ease by chart and loses by steps what EN 13402-3 asks beyond them, 26 cm from
// 42 to 52 less five steps of 4 cm (bust as published, waist from memory). Both
// pieces say "cut 1" and end at their centre line, so both halves count.
func TestGirthsOfTracedNests(t *testing.T) {
	chart, err := Chart("en13402-women")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range []string{"blouse-traced-eu-36-42.svg", "blouse-polygons-eu-38-42.svg"} {
		got, err := BringIn("../testdata/nests/"+file, chart)
		if err != nil {
			t.Fatal(err)
		}
		for method, lost := range map[model.Method]float64{model.ByChart: 0, model.BySteps: 60} {
			p, err := Retarget(got.Pattern, "52", method)
			if err != nil {
				t.Fatal(err)
			}
			r, err := Grade(p)
			if err != nil {
				t.Fatal(err)
			}
			table, err := GirthsOf(p, r)
			if err != nil || len(table.Rows) != 2 {
				t.Fatalf("%s: %+v %v", file, table, err)
			}
			for _, row := range table.Rows {
				// The hand shook by 0.3 mm rms in each line, and the girth has four.
				if math.Abs(row.Lost()-lost) > 2 {
					t.Errorf("%s by %s, %s: %.2f mm lost, want %g", file, method, row.Measure, row.Lost(), lost)
				}
				for _, q := range row.Target.Parts {
					if q.Times != 2 || !q.Halves {
						t.Errorf("%s: %+v", file, q)
					}
				}
			}
		}
	}
}
