package handsheet

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model/measure"
)

// ofGaps is a sheet whose one point was printed with gaps, in inches.
func ofGaps(inches ...float64) Sheet {
	var m Moves
	for _, g := range inches {
		m.Gaps = append(m.Gaps, g*inch)
	}
	return Sheet{Points: []Point{{Out: m}}}
}

// Worked by hand, 1 in = 25.4 mm (international inch, 1959): six steps of 3/16
// are 18/16; three of 3/32 are 9/32; 1/16 + 1/8 + 3/16 are 6/16; a gap of 1/4
// and one of 5/16 average 9/32, four of which are 36/32.
func TestFractionsByHand(t *testing.T) {
	for _, c := range []struct {
		say          string
		gaps         []float64
		mm           float64
		shown, exact string
	}{
		{"6 x 3/16", []float64{3. / 16}, 6 * 4.7625, "1 1/8", ""},
		{"the same, inwards", []float64{3. / 16}, -6 * 4.7625, "1 1/8", ""},
		{"3 x 3/32, printed in 32nds", []float64{3. / 32, 3. / 32}, 3 * 2.38125, "9/32", ""},
		{"mixed gaps 1/16, 1/8, 3/16 added up", []float64{1. / 16, 1. / 8, 3. / 16}, 6 * 1.5875, "3/8", ""},
		{"4 x the mean of 1/4 and 5/16", []float64{1. / 4, 5. / 16}, 4 * 7.14375, "1 1/8", ""},
		{"3 x the mean of 1/4 and 5/16: 27/32", []float64{1. / 4, 5. / 16}, 3 * 7.14375, "7/8", "0.844"},
		{"43 mm", []float64{1. / 4}, 43, "1 11/16", ""},
		{"1.703 in: 1/64 from 1 11/16", []float64{1. / 4}, 1.7031 * 25.4, "1 11/16", ""},
		{"1.706 in: more than 1/64 from it", []float64{1. / 4}, 1.706 * 25.4, "1 11/16", "1.706"},
		{"nothing", []float64{1. / 4}, 0, "0", ""},
		{"less than half a 16th", []float64{1. / 4}, 0.02 * 25.4, "0", "0.020"},
	} {
		r := RulerFor(ofGaps(c.gaps...), measure.Inches)
		if shown, exact := r.Amount(c.mm); shown != c.shown || exact != c.exact {
			t.Errorf("%s: %q, exactly %q; want %q, %q", c.say, shown, exact, c.shown, c.exact)
		}
	}
}

// Millimetres go to the half: 45.2 is nearer 45 than 45.5.
func TestMillimetresByHand(t *testing.T) {
	r := RulerFor(ofGaps(3./32), measure.Centimetres)
	for mm, want := range map[float64]string{45.2: "45", 45.25: "45.5", 44.8: "45", -17.6: "17.5", 0.24: "0"} {
		if shown, exact := r.Amount(mm); shown != want || exact != "" {
			t.Errorf("%v mm: %q, exactly %q; want %q", mm, shown, exact, want)
		}
	}
}

// The ruler has 1/32 only where the print was made in 1/32.
func TestRuler(t *testing.T) {
	third := ofGaps(3./32, 1./8)
	third.Points[0].Down.Gaps = []float64{math.NaN(), 0}
	for _, c := range []struct {
		say  string
		s    Sheet
		want measure.Grain
	}{
		{"16ths", ofGaps(1./16, 3./16, 0), measure.Sixteenths},
		{"32nds, one gap unknown", third, measure.ThirtySeconds},
		{"traced near 32nds", ofGaps(3./32+0.002, 1./8), measure.Sixteenths},
		{"metric", ofGaps(10/25.4, 5/25.4), measure.Sixteenths},
		{"no gaps", ofGaps(), measure.Sixteenths},
	} {
		if got := RulerFor(c.s, measure.Inches); got.grain != c.want {
			t.Errorf("%s: %v, want %v", c.say, got.grain, c.want)
		}
	}
}

// What is shown is within 1/64 in of the amount, or the exact value is beside
// it, to a thousandth.
func TestNothingIsLostInRounding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom([]measure.Unit{measure.Inches, measure.Centimetres}).Draw(t, "unit")
		mm := rapid.Float64Range(-400, 400).Draw(t, "mm")
		r := RulerFor(ofGaps(rapid.SampledFrom([]float64{1. / 8, 3. / 32}).Draw(t, "gap")), unit)
		shown, exact := r.Amount(mm)
		off := inch / 64
		if exact != "" {
			shown, off = exact, 0.0005*inch
		}
		l, err := measure.Parse(shown, r.unit)
		if err != nil {
			t.Fatal(err)
		}
		if d := math.Abs(l.MM() - math.Abs(mm)); d > off+1e-9 {
			t.Fatalf("%v mm is shown as %q, exactly %q: %v off", mm, shown, exact, d)
		}
	})
}

// A cell that goes against its row says so.
func TestWays(t *testing.T) {
	r := RulerFor(Sheet{}, measure.Centimetres)
	for _, c := range []struct {
		mm    float64
		along bool
		row   string
		want  string
	}{
		{5, false, "out", "5"},
		{-5, false, "in", "5"},
		{-5, false, "out", "in 5"},
		{-2, true, "down", "up 2"},
		{2, true, "along", "down 2"},
		{0.1, true, "up", "0"},
		{math.NaN(), true, "up", "–"},
	} {
		if got, _ := r.cell(c.mm, c.along, c.row); got != c.want {
			t.Errorf("%v in a row %q: %q, want %q", c.mm, c.row, got, c.want)
		}
	}
}
