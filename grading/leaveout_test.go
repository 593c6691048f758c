package grading_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"quarterstep/grading"
	"quarterstep/grading/match"
	"quarterstep/model"
	"quarterstep/model/exchange"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
)

// drawn is a nest of the test data, less the layers of some sizes.
func drawn(t *testing.T, file, chart string, less ...string) model.Pattern {
	t.Helper()
	c, ok := sizechart.ByID(chart)
	if !ok {
		t.Fatalf("no chart %s", chart)
	}
	data, err := os.ReadFile(filepath.Join("..", "testdata", "nests", file))
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for _, s := range less {
		layer := regexp.MustCompile(`(?s)<g id="layer-` + s + `".*?</g>\n`)
		if n := len(layer.FindAllString(text, -1)); n != 1 {
			t.Fatalf("%s has %d layers %s", file, n, s)
		}
		text = layer.ReplaceAllString(text, "")
	}
	sheet, err := exchange.ReadSVG(strings.NewReader(text), c)
	if err != nil {
		t.Fatal(err)
	}
	pieces, doubts, err := match.Pieces(sheet, c)
	if err != nil || len(doubts) > 0 {
		t.Fatal(err, doubts)
	}
	return model.Pattern{Name: file, Chart: c, Pieces: pieces}
}

// The sheet itself is the truth: a size is left out of the drawing and worked
// out from the others, past their end and between them. The sheets' numbers
// have six digits, so the lines waver by some thousandths of a millimetre.
func TestASizeLeftOutIsFoundAgain(t *testing.T) {
	for _, c := range []struct {
		file, chart string
		sizes       []string
	}{
		{"blouse-eu-36-42.svg", "en13402-women", []string{"36", "38", "40", "42"}},
		{"waistcoat-us-12-18.svg", "us-misses", []string{"12", "14", "16", "18"}},
	} {
		whole := drawn(t, c.file, c.chart)
		for _, size := range c.sizes {
			less := drawn(t, c.file, c.chart, size)
			if len(less.Pieces) != len(whole.Pieces) {
				t.Fatalf("%d pieces of %d", len(less.Pieces), len(whole.Pieces))
			}
			var g grading.Grader
			for i, q := range mustGrade(t, &g, at(t, less, size)).Pieces {
				printed, ok := whole.Pieces[i].Printed(size)
				if !ok || q.Name != whole.Pieces[i].Name || q.Printed {
					t.Fatalf("%s: printed %v, name %s", q.Name, ok, whole.Pieces[i].Name)
				}
				off := apart(q.Outline(), geom.Join(printed.Edges...))
				t.Logf("%s less %s: %s is %.4f mm off", c.file, size, q.Name, off)
				if off > 0.05 {
					t.Errorf("%s less %s: %s is %.4f mm off the printed line", c.file, size, q.Name, off)
				}
			}
		}
	}
}
