package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model"
	"quarterstep/model/geom"
)

func chartOf(t *testing.T, id string) model.SizeChart {
	t.Helper()
	c, err := Chart(id)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func nestFile(name string) string { return filepath.Join("..", "testdata", "nests", name) }

func TestANestComesInReadyToGrade(t *testing.T) {
	for _, c := range []struct {
		file, chart, size string
		unit              model.Unit
	}{
		{"blouse-eu-36-42.svg", "en13402-women", "42", model.Centimetres},
		{"waistcoat-us-12-18.svg", "us-misses", "18", model.Inches},
	} {
		got, err := BringIn(nestFile(c.file), chartOf(t, c.chart))
		if err != nil {
			t.Fatal(err)
		}
		p := got.Pattern
		if p.Name != strings.TrimSuffix(c.file, ".svg") || p.Unit != c.unit || p.Chart.ID != c.chart || p.Chart.NameAt(p.Target.Place) != c.size {
			t.Errorf("%s: %q in %s by %s at %s", c.file, p.Name, p.Unit, p.Chart.ID, p.Chart.NameAt(p.Target.Place))
		}
		if len(got.Remarks) != len(got.Doubts) {
			t.Errorf("%s: %d remarks, %d doubts: %v", c.file, len(got.Remarks), len(got.Doubts), got.Remarks)
		}
		if _, err := Grade(p); err != nil {
			t.Error(err)
		}
	}
}

func TestWhatCannotBeBroughtInIsToldInOneSentence(t *testing.T) {
	folder := t.TempDir()
	file := func(name, text string) string {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	huge := file("huge.svg", "")
	if err := os.Truncate(huge, maxDrawing+1); err != nil {
		t.Fatal(err)
	}
	svg, err := os.ReadFile(nestFile("blouse-eu-36-42.svg"))
	if err != nil {
		t.Fatal(err)
	}
	women := chartOf(t, "en13402-women")
	for _, c := range []struct {
		path  string
		chart model.SizeChart
		want  string
	}{
		{filepath.Join(folder, "gone.svg"), women, "gone.svg is not there"},
		{folder, women, "is a folder; choose an SVG file in it"},
		{huge, women, "huge.svg is larger than 64 MB"},
		{file("empty.svg", ""), women, "not an SVG"},
		{file("words.svg", "two metres of linen"), women, "not an SVG drawing"},
		{file("cut.svg", string(svg[:len(svg)/2])), women, "damaged"},
		{file("bare.svg", `<svg xmlns="http://www.w3.org/2000/svg" width="10mm" height="10mm"/>`), women, "no lines"},
		{file("unsized.svg", `<svg xmlns="http://www.w3.org/2000/svg" width="10mm" height="10mm"><path d="M0 0h5v5z"/></svg>`), women, "size"},
		{nestFile("blouse-eu-36-42.svg"), chartOf(t, "us-misses"), "US misses"},
		{nestFile("blouse-eu-36-42.svg"), model.SizeChart{}, "Choose a size chart"},
	} {
		got, err := BringIn(c.path, c.chart)
		if err == nil || !strings.Contains(err.Error(), c.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v, want %q", filepath.Base(c.path), err, c.want)
		}
		if len(got.Pattern.Pieces) > 0 {
			t.Errorf("%s: pieces came with the error", filepath.Base(c.path))
		}
	}
}

// The chart that knows most of the sizes is taken; where none knows any, the
// first chart's reason is told.
func TestTheChartThatKnowsMostIsTaken(t *testing.T) {
	women, misses := chartOf(t, "en13402-women"), chartOf(t, "us-misses")
	part := women
	part.ID, part.Sizes = "part", women.Sizes[:4] // 32 to 38
	for _, charts := range [][]model.SizeChart{{misses, part, women}, {women, part, misses}} {
		got, err := BringInByAnyChart(nestFile("blouse-eu-36-42.svg"), charts)
		if err != nil || got.Pattern.Chart.ID != women.ID {
			t.Errorf("by %q, %v", got.Pattern.Chart.ID, err)
		}
	}
	twin := women
	twin.ID = "twin"
	if got, err := BringInByAnyChart(nestFile("blouse-eu-36-42.svg"), []model.SizeChart{twin, women}); err != nil || got.Pattern.Chart.ID != "twin" {
		t.Errorf("of two as good: %q, %v", got.Pattern.Chart.ID, err)
	}
	_, err := BringInByAnyChart(nestFile("blouse-eu-36-42.svg"), []model.SizeChart{misses})
	if err == nil || !strings.Contains(err.Error(), "US misses") {
		t.Errorf("by a chart that knows none: %v", err)
	}
	if _, err := BringInByAnyChart(nestFile("blouse-eu-36-42.svg"), nil); err == nil {
		t.Error("without any chart the nest came in")
	}
}

// Inches are thought in where the first bust is a whole number of quarters of
// an inch of 25.4 mm, whatever the rounding.
func TestUnitOfAChart(t *testing.T) {
	chart := func(mm float64) model.SizeChart {
		return model.SizeChart{Sizes: []model.ChartSize{{Name: "1", Body: map[model.Measure]float64{model.Bust: mm}}}}
	}
	for quarters := 80; quarters <= 240; quarters++ {
		for _, mm := range []float64{25.4 * float64(quarters) / 4, 6.35 * float64(quarters), float64(quarters) * 25.4 * 0.25} {
			if got := unitOf(chart(mm)); got != model.Inches {
				t.Errorf("%d quarters of an inch (%v mm) read as %s", quarters, mm, got)
			}
		}
	}
	for _, mm := range []float64{760, 800, 840, 765, 0} {
		if got := unitOf(chart(mm)); got != model.Centimetres {
			t.Errorf("%v mm read as %s", mm, got)
		}
	}
	if got := unitOf(model.SizeChart{}); got != model.Centimetres {
		t.Errorf("no sizes read as %s", got)
	}
}

// boxPiece is a piece that is a box, printed in one size.
func boxPiece(x, y, w, h float64) model.Piece {
	a, b, c, d := geom.Pt(x, y), geom.Pt(x+w, y), geom.Pt(x+w, y+h), geom.Pt(x, y+h)
	return model.Piece{Nest: []model.Outline{{Size: "1", Edges: []geom.Path{
		geom.Polyline(a, b), geom.Polyline(b, c), geom.Polyline(c, d), geom.Polyline(d, a),
	}}}}
}

func TestPiecesDrawnOnEachOtherAreSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 8).Draw(t, "pieces")
		var pieces []model.Piece
		for range n {
			r := func(lo, hi float64, what string) float64 { return rapid.Float64Range(lo, hi).Draw(t, what) }
			pieces = append(pieces, boxPiece(r(-500, 500, "x"), r(-500, 500, "y"), r(10, 1500, "w"), r(10, 1500, "h")))
		}
		apart := true
		for i := range pieces {
			for k := range i {
				apart = apart && !nestBox(pieces[i]).Intersects(nestBox(pieces[k]))
			}
		}
		out := spread(pieces)
		laid := make([]geom.Box, n)
		for i, q := range out {
			b := nestBox(q)
			laid[i] = geom.Box{Min: b.Min.Add(q.At), Max: b.Max.Add(q.At)}
			if apart && q.At != (geom.Vec{}) {
				t.Fatalf("piece %d lay apart and was moved %v", i, q.At)
			}
			if !pieces[i].At.IsZero() {
				t.Fatal("the pieces given were changed")
			}
			for k := range i {
				if !apart && laid[i].Grow(gapOnTable-1e-6).Intersects(laid[k]) {
					t.Fatalf("pieces %d and %d lie less than %g mm apart: %v %v", i, k, gapOnTable, laid[i], laid[k])
				}
			}
			if !apart && (laid[i].Min.X < -1e-9 || laid[i].Max.X > rowOnTable && laid[i].Min.X > 1e-9) {
				t.Fatalf("piece %d lies at %v, beyond the row", i, laid[i])
			}
		}
	})
}
