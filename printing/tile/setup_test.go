package tile_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/printing/tile"
)

func TestSetupIsChecked(t *testing.T) {
	ok := a4()
	for name, c := range map[string]struct {
		change func(*tile.Setup)
		want   string
	}{
		"good":       {func(*tile.Setup) {}, ""},
		"on side":    {func(s *tile.Setup) { s.Landscape = true }, ""},
		"corrected":  {func(s *tile.Setup) { s.Printer = tile.Printer{Across: 50 / 49.6, Down: 50 / 50.2} }, ""},
		"no paper":   {func(s *tile.Setup) { s.Paper = tile.Paper{} }, "choose a paper"},
		"too long":   {func(s *tile.Setup) { s.Paper.Height = 6000 }, "5080 mm"},
		"inside out": {func(s *tile.Setup) { s.Margin = -1 }, "margin"},
		"no room":    {func(s *tile.Setup) { s.Margin = 30 }, "150 x 237 mm"},
		"all margin": {func(s *tile.Setup) { s.Margin = 200 }, "leaves 0 x 0 mm"},
		"apart":      {func(s *tile.Setup) { s.Overlap = -2 }, "overlap"},
		"all strip":  {func(s *tile.Setup) { s.Overlap = 60 }, "at most 52 mm"},
		"no number":  {func(s *tile.Setup) { s.Overlap = math.NaN() }, "ordinary numbers"},
		"endless":    {func(s *tile.Setup) { s.Paper.Width = math.Inf(1) }, "ordinary numbers"},
		"fitted":     {func(s *tile.Setup) { s.Printer.Down = 1 / 0.9 }, "fit to page"},
	} {
		s := ok
		c.change(&s)
		err := s.Validate()
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
}

// Worked values of n = ceil((W - o) / (p - o)), computed by hand: 1000 x 700 mm
// on a page of 190 x 277 and on one of 190.5 x 254, and 910 mm, which five
// pages of 190 with 10 mm shared fit exactly (10 + 5 x 180).
func TestCount(t *testing.T) {
	for _, c := range []struct {
		length, page, overlap float64
		want                  int
	}{
		{1000, 190, 10, 6},
		{700, 277, 10, 3},
		{1000, 190.5, 12.7, 6},
		{700, 254, 12.7, 3},
		{910, 190, 10, 5},
		{910.01, 190, 10, 6},
		{190, 190, 10, 1},
		{0, 190, 10, 1},
		{380, 190, 0, 2},
	} {
		if n := tile.Count(c.length, c.page, c.overlap); n != c.want {
			t.Errorf("%g mm on %g less %g: %d sheets, want %d", c.length, c.page, c.overlap, n, c.want)
		}
	}
}

// As many sheets cover the length, and one fewer does not.
func TestCountIsLeast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.Float64Range(1, 5000).Draw(t, "length")
		page := rapid.Float64Range(165, 900).Draw(t, "page")
		overlap := rapid.Float64Range(0, 40).Draw(t, "overlap")
		n := float64(tile.Count(length, page, overlap))
		if reach := overlap + n*(page-overlap); reach < length-1e-5 {
			t.Fatalf("%g sheets reach %g of %g mm", n, reach, length)
		}
		if reach := overlap + (n-1)*(page-overlap); n > 1 && reach >= length {
			t.Fatalf("%g sheets would do for %g mm", n-1, length)
		}
	})
}

func TestSheetNames(t *testing.T) {
	for _, c := range []struct {
		row, col int
		want     string
	}{{0, 0, "A1"}, {1, 1, "B2"}, {25, 9, "Z10"}, {26, 0, "AA1"}, {27, 2, "AB3"}, {701, 0, "ZZ1"}, {702, 0, "AAA1"}} {
		if got := tile.SheetName(c.row, c.col); got != c.want {
			t.Errorf("row %d, column %d is %s, want %s", c.row, c.col, got, c.want)
		}
	}
}
