package sizechart

import (
	"slices"
	"strings"
	"testing"

	"quarterstep/assets/words"
	"quarterstep/model"
)

// What the built-in charts must say, column by column, in the chart's own
// unit. Sources, with how far they were checked:
//
// en13402-women: EN 13402-3; bust as in the documentation of a statistics
// package that cites EN 13402-3:2005, waist and hip from memory; size numbers
// common practice.
//
// us-misses: US home-sewing sizing since 1968; 6 to 20 as in a sewing
// teacher's chart of 2011, 22 and 24 from memory.
//
// astm-d5585: ASTM D5585-11e1, Table 1, as in a stored copy.
var published = []struct {
	id   string
	unit float64 // tenths of a mm, so that v*unit is exact
	size string
	cols map[model.Measure][]float64
}{
	{"astm-d5585", 254, "00 0 2 4 6 8 10 12 14 16 18 20", map[model.Measure][]float64{
		"bust":           {31.125, 31.75, 33, 34.125, 35.25, 36.25, 37.25, 38.75, 40.375, 42.125, 44, 46},
		"waist":          {23.875, 24.625, 25.375, 26.125, 27, 28, 29, 30.75, 32.5, 34.5, 36.75, 39},
		"waist straight": {25.375, 26.125, 26.875, 27.625, 28.5, 29.5, 30.5, 32.25, 34, 36, 38.25, 40.5},
		"under bust":     {25.75, 26.5, 27.25, 28, 29, 30, 31, 32.5, 34, 35.75, 37.625, 39.625},
		"upper chest":    {31.75, 32.25, 33.25, 34.125, 35, 35.875, 36.75, 38, 39.25, 40.625, 42.25, 43.875},
		"neck":           {13.25, 13.5, 13.75, 14, 14.25, 14.625, 14.875, 15.125, 15.5, 15.75, 16, 16.375},
		"shoulder girth": {37.125, 37.75, 38.375, 39, 39.75, 40.5, 41.25, 42, 43, 44.25, 45.5, 46.875},
	}},
	{"en13402-women", 100, "32 34 36 38 40 42 44 46 48 50 52 54 56 58 60 62", map[model.Measure][]float64{
		"bust":  {76, 80, 84, 88, 92, 96, 100, 104, 110, 116, 122, 128, 134, 140, 146, 152},
		"waist": {60, 64, 68, 72, 76, 80, 84, 88, 94, 100, 106, 112, 118, 124, 130, 136},
		"hip":   {84, 88, 92, 96, 100, 104, 108, 112, 117, 122, 127, 132, 137, 142, 147, 152},
	}},
	{"us-misses", 254, "6 8 10 12 14 16 18 20 22 24", map[model.Measure][]float64{
		"bust":              {30.5, 31.5, 32.5, 34, 36, 38, 40, 42, 44, 46},
		"waist":             {23, 24, 25, 26.5, 28, 30, 32, 34, 37, 39},
		"hip":               {32.5, 33.5, 34.5, 36, 38, 40, 42, 44, 46, 48},
		"back waist length": {15.5, 15.75, 16, 16.25, 16.5, 16.75, 17, 17.25, 17.375, 17.5},
	}},
}

func TestBuiltinAgainstWhatWasPublished(t *testing.T) {
	if len(Builtin()) != len(published) {
		t.Errorf("%d charts, want %d", len(Builtin()), len(published))
	}
	for i, want := range published {
		c, ok := ByID(want.id)
		if !ok || Builtin()[i].ID != want.id {
			t.Errorf("no chart %s in its place", want.id)
			continue
		}
		var names []string
		for _, s := range c.Sizes {
			names = append(names, s.Name)
		}
		if got := strings.Join(names, " "); got != want.size {
			t.Errorf("%s has sizes %s", c.ID, got)
		}
		if c.Name == "" || c.Source == "" || c.Status == "" || len(c.Measures) != len(want.cols) {
			t.Errorf("%s: name %q, source %q, status %q, measures %v", c.ID, c.Name, c.Source, c.Status, c.Measures)
		}
		for m, col := range want.cols {
			for k, v := range col {
				if got, ok := c.At(float64(k), m); !ok || got != v*want.unit/10 {
					t.Errorf("%s size %s %s: %v mm, want %v", c.ID, c.Sizes[k].Name, m, got, v*want.unit/10)
				}
			}
		}
	}
	if _, ok := ByID("none"); ok {
		t.Error("a chart that is not there was found")
	}
}

// The second name of EN 13402-3 women is the bust girth in cm (its size code),
// and it never means another size's number.
func TestGirthCodes(t *testing.T) {
	c, _ := ByID("en13402-women")
	for i, s := range c.Sizes {
		for _, name := range []string{s.Name, s.Alt} {
			if place, ok := c.Place(name); !ok || place != i {
				t.Errorf("%s is at place %d, want %d", name, place, i)
			}
		}
	}
	if place, _ := c.Place("92"); c.Sizes[place].Name != "40" {
		t.Errorf("code 92 is size %s, want 40", c.Sizes[place].Name)
	}
}

// The uneven steps that make equal gaps wrong: bust of EN 13402-3 grows 4 cm to
// code 104, then 6; US misses grow 1, 1, 1 1/2, then 2 in.
func TestStepsAreUneven(t *testing.T) {
	for _, c := range []struct {
		id   string
		unit float64
		want []float64
	}{
		{"en13402-women", 10, []float64{4, 4, 4, 4, 4, 4, 4, 6, 6, 6, 6, 6, 6, 6, 6}},
		{"us-misses", 25.4, []float64{1, 1, 1.5, 2, 2, 2, 2, 2, 2}},
	} {
		chart, _ := ByID(c.id)
		var got []float64
		for i := 1; i < len(chart.Sizes); i++ {
			a, b := chart.Sizes[i-1].Body[model.Bust], chart.Sizes[i].Body[model.Bust]
			got = append(got, float64(int((b-a)/c.unit*100+0.5))/100)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: steps %v, want %v", c.id, got, c.want)
		}
	}
}

// What the files of the charts say of themselves is there to be translated, word
// for word.
func TestTextsOfChartsAreInTheCatalogue(t *testing.T) {
	for _, c := range builtin() {
		for _, text := range []string{c.Name, c.Source, c.Status} {
			if !slices.Contains(chartTexts, words.Text(text)) {
				t.Errorf("%s: %q is not in chartTexts", c.ID, text)
			}
		}
	}
}
