package tile_test

import (
	"math"
	"strings"
	"testing"

	"quarterstep/printing/tile"
)

// Sizes of ISO 216 and ANSI/ASME Y14.1, published; legal is common practice.
func TestPapers(t *testing.T) {
	for name, want := range map[string][2]float64{
		"A4": {210, 297}, "a3": {297, 420}, " A2 ": {420, 594}, "A1": {594, 841}, "A0": {841, 1189},
		"Letter": {215.9, 279.4}, "legal": {215.9, 355.6}, "TABLOID": {279.4, 431.8},
		"914.4x3000mm": {914.4, 3000}, "914.4 x 3000": {914.4, 3000}, "36x120in": {914.4, 3048},
		"a4 or letter": {210, 279.4}, `36 × 120 "`: {914.4, 3048}, "61 x 100.5 cm": {610, 1005}, "210x279.4 MM": {210, 279.4},
	} {
		p, err := tile.ParsePaper(name)
		if err != nil || math.Abs(p.Width-want[0]) > 1e-9 || math.Abs(p.Height-want[1]) > 1e-9 {
			t.Errorf("%q is %+v, %v; want %v", name, p, err, want)
		}
	}
	for name, want := range map[string]string{
		"": "A4", "A7": "914x3000mm", "foolscap": "Letter", "210": "width x height", "x": "width x height",
		"210x": "width x height", "210xNaN": "width x height", "0x300": "more than 0", "-5x300mm": "more than 0",
		"300x6000": "5080", "1e400x5": "width x height", "300xInf": "5080",
	} {
		if p, err := tile.ParsePaper(name); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q is %+v, %v; want an error with %q", name, p, err, want)
		}
	}
	for name, want := range map[string]float64{
		"Roll 914 mm": 914.4, "roll 610": 610, "roll 36 in": 914.4, "ROLL 61cm": 610, `roll 24"`: 609.6, "projector": 0,
	} {
		p, err := tile.ParsePaper(name)
		if err != nil || math.Abs(p.Width-want) > 1e-9 || !p.Free || p.Height != 0 || p.Roll() == p.Projected() || p.Projected() != (want == 0) {
			t.Errorf("%q is %+v, %v", name, p, err)
		}
	}
	for _, name := range []string{"roll", "roll up", "roll 0", "roll -5", "roll 6000", "roll NaN", "roll 10x20"} {
		if p, err := tile.ParsePaper(name); err == nil || !strings.Contains(err.Error(), "give its width") {
			t.Errorf("%q is %+v, %v", name, p, err)
		}
	}
	if again, err := tile.ParsePaper("610 x 5000.04 mm"); err != nil || again.Name != "610 x 5000 mm" {
		t.Errorf("name %q, %v", again.Name, err)
	}
}

func FuzzParsePaper(f *testing.F) {
	for _, s := range []string{"A4", "914.4x3000mm", "36x120in", "1 x 2 cm", "x", "5x", `3"x4"`, "roll 36in", "roll", "projector", "0x0", "1e9x1"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		p, err := tile.ParsePaper(s)
		if err != nil {
			return
		}
		for _, side := range []float64{p.Width, p.Height} {
			if !(side > 0 || p.Free && side == 0) || side > 5080.0001 {
				t.Errorf("%q is accepted as %+v", s, p)
			}
		}
		if p.Name == "" {
			t.Errorf("%q has no name", s)
		}
	})
}
