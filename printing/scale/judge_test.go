package scale_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model/measure"
	"quarterstep/printing/scale"
	"quarterstep/printing/tile"
)

func paper(t testing.TB, name string) tile.Paper {
	t.Helper()
	p, err := tile.ParsePaper(name)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func page(t testing.TB, name string) scale.Printed {
	t.Helper()
	return scale.Printed{Paper: paper(t, name), Across: 180, Down: 260}
}

func judge(t testing.TB, p scale.Printed, across, down float64) scale.Verdict {
	t.Helper()
	v, err := scale.Judge(p, scale.Measured{Across: across, Down: down})
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Figures measured with CUPS 2.4.2 and its filters on Debian 12: a 100 mm
// square on A4 through an A4 queue told to fit, 95.76 mm; through a Letter
// queue without options, 89.83 mm with margins and 102.79 mm without; on Letter
// through an A4 queue without options, 106.4 mm.
func TestWhatCUPSDoesIsTold(t *testing.T) {
	for _, c := range []struct {
		paper string
		comes float64 // of 100 mm
		looks string
		also  string
		not   string
	}{
		{"A4", 95.76, "shrunk to fit inside the printer's margins", "", "Letter"},
		{"A4", 89.83, "the A4 page was shrunk to fit on Letter", "A4 as the paper", "inside the printer's margins"},
		{"A4", 102.79, "the A4 page was enlarged to cover Letter", "without a border", "shrunk"},
		{"Letter", 106.4, "the Letter page was enlarged to cover A4", "Letter as the paper", "shrunk"},
	} {
		p := page(t, c.paper)
		v := judge(t, p, p.Across*c.comes/100, p.Down*c.comes/100)
		says := strings.Join(v.Says, " ")
		if v.Kind != scale.Setting || !strings.Contains(says, c.looks) || !strings.Contains(says, c.also) || !strings.Contains(says, `"Actual size"`) {
			t.Errorf("%s at %g %%: %v %q, want %q", c.paper, c.comes, v.Kind, says, c.looks)
		}
		if strings.Contains(strings.ReplaceAll(says, c.paper, ""), c.not) {
			t.Errorf("%s at %g %% is taken for %q too: %q", c.paper, c.comes, c.not, says)
		}
	}
}

// The largest scale at which a page fits a paper less a margin, and the least
// at which it covers one, worked by hand: A4 in A4 less 3 mm (204/210) and less
// 1/4 in (197.3/210); A4 in Letter without a margin (279.4/297) and Letter in
// A4 (210/215.9); A3 in A4 (210/297); two A4 pages on A4 (148.5/210) and four
// (1/2).
func TestSettingsInClosedForm(t *testing.T) {
	for _, c := range []struct {
		paper string
		comes float64
		looks string
	}{
		{"A4", 204 / 210.0, "inside the printer's margins"},
		{"A4", 197.3 / 210, "inside the printer's margins"},
		{"A4", 279.4 / 297, "shrunk to fit on Letter"},
		{"Letter", 210 / 215.9, "shrunk to fit on A4"},
		{"A3", 210 / 297.0, "shrunk to fit on A4"},
		{"Tabloid", 420 / 431.8, "shrunk to fit on A3"},
		{"A4", 148.5 / 210, "two pages were put on one sheet"},
		{"A4", 0.5, "four pages were put on one sheet"},
		{"A4", 1.025, "without a border"},
		{"A1", 0.9, "some setting changes the size"},
	} {
		p := page(t, c.paper)
		v := judge(t, p, p.Across*c.comes, p.Down*c.comes)
		if says := strings.Join(v.Says, " "); v.Kind != scale.Setting || !strings.Contains(says, c.looks) {
			t.Errorf("%s at %g: %v %q, want %q", c.paper, c.comes, v.Kind, says, c.looks)
		}
	}
	// A printer that says it leaves 36 pt white above and below fits A4 at
	// (842 - 72) / 842.
	wide := page(t, "A4")
	wide.Margin = 12.7
	if v := judge(t, wide, 180*770/842.0, 260*770/842.0); !strings.Contains(strings.Join(v.Says, " "), "inside the printer's margins") {
		t.Errorf("wide margins: %q", v.Says)
	}
	fits := page(t, "A4")
	if v := judge(t, fits, 180*0.9576, 260*0.9576); !v.CanInsist || math.Abs(v.Printer.Across*0.9576-1) > 1e-12 {
		t.Errorf("whoever insists gets %+v", v)
	}
	if v := judge(t, fits, 180*0.8983, 260*0.8983); v.CanInsist || v.Printer != (tile.Printer{}) {
		t.Errorf("a page a tenth too small can be insisted on: %+v", v)
	}
}

func TestMistypedFiguresAreAskedForAgain(t *testing.T) {
	p := page(t, "A4")
	p.With = tile.Printer{Across: 1.004}
	for name, c := range map[string]struct {
		across, down float64
		says         string
	}{
		"sides":         {259, 181, "wrong way round"},
		"inches as cm":  {70.9, 102.4, "Both lengths look as if inches were typed as centimetres"},
		"cm as inches":  {457, 660, "centimetres were typed as inches"},
		"inches as mm":  {7.09, 10.2, "inches were typed as millimetres"},
		"cm as mm":      {18, 26, "centimetres were typed as millimetres"},
		"one cm as mm":  {18, 260, "The length across looks as if centimetres"},
		"other in cm":   {180, 102.4, "The length down looks as if inches were typed as centimetres"},
		"mm as inches":  {4572, 6604, "millimetres were typed as inches"},
		"mm as cm":      {1800, 2600, "millimetres were typed as centimetres"},
		"the square":    {50, 50, "Measure the large frame"},
		"apart":         {179.8, 254, "measure both again"},
		"apart by much": {179.8, 130, "measure both again"},
	} {
		v := judge(t, p, c.across, c.down)
		if says := strings.Join(v.Says, " "); v.Kind != scale.Again || !strings.Contains(strings.ToLower(says), strings.ToLower(c.says)) {
			t.Errorf("%s: %v %q", name, v.Kind, says)
		}
		if v.Printer != p.With {
			t.Errorf("%s changes the correction to %v", name, v.Printer)
		}
	}
	for _, bad := range [][2]float64{{0, 260}, {180, -1}, {math.NaN(), 260}, {180, math.Inf(1)}} {
		if _, err := scale.Judge(p, scale.Measured{Across: bad[0], Down: bad[1]}); err == nil {
			t.Errorf("%v is judged", bad)
		}
	}
}

func TestSentences(t *testing.T) {
	p := page(t, "A4")
	for _, c := range []struct {
		across, down float64
		unit         measure.Unit
		kind         scale.Kind
		says         string
	}{
		{180, 260, "", scale.Fine, "This printer is true to scale. Nothing needs to change."},
		{179.8, 260.25, "", scale.Fine, "This printer is true to scale. Nothing needs to change."},
		{179.1, 259.9, "", scale.Correct, "This printer brings lengths out at 99.5 % across and 100 % down. It will be corrected by that from now on. Left as it is, 600 mm of a pattern would come out 3 mm too short. Print the test page once more to see it come out right."},
		{181.8, 260, measure.Inches, scale.Correct, "This printer brings lengths out at 101 % across and 100 % down. It will be corrected by that from now on. Left as it is, 24 in of a pattern would come out 1/4 in too long. Print the test page once more to see it come out right."},
	} {
		p.Unit = c.unit
		v := judge(t, p, c.across, c.down)
		if says := strings.Join(v.Says, " "); v.Kind != c.kind || says != c.says {
			t.Errorf("%g x %g: %v %q", c.across, c.down, v.Kind, says)
		}
	}
}

// Whatever a printer is out by, within its own 2 %: after the test page, and
// after a second one printed with the correction, what it prints is as long as
// it should be, to the ruler's half millimetre over the page.
func TestCorrectionTimesErrorIsTrue(t *testing.T) {
	sheet := page(t, "A4")
	rapid.Check(t, func(t *rapid.T) {
		ex := rapid.Float64Range(0.985, 1.006).Draw(t, "across")
		ey := ex + rapid.Float64Range(-0.004, 0.004).Draw(t, "down")
		p := sheet
		for range 2 {
			kx, ky := p.With.Scale()
			v, err := scale.Judge(p, scale.Measured{Across: p.Across * kx * ex, Down: p.Down * ky * ey})
			if err != nil {
				t.Fatal(err)
			}
			if v.Kind != scale.Correct && v.Kind != scale.Fine {
				t.Fatalf("a printer out by %g and %g is taken for %v: %q", ex, ey, v.Kind, v.Says)
			}
			if v.Kind == scale.Correct {
				if kx, ky = v.Printer.Scale(); math.Abs(kx*ex-1) > 1e-12 || math.Abs(ky*ey-1) > 1e-12 {
					t.Fatalf("the correction leaves %g and %g", kx*ex, ky*ey)
				}
			}
			p.With = v.Printer
		}
		kx, ky := p.With.Scale()
		if math.Abs(kx*ex-1)*p.Across > 0.3 || math.Abs(ky*ey-1)*p.Down > 0.3 {
			t.Fatalf("prints %g and %g", kx*ex, ky*ey)
		}
	})
}

// A page on its side goes through the printer upright: what is across on it is
// down on the paper.
func TestTurned(t *testing.T) {
	got := scale.Turned(tile.Printer{Across: 1.01, Down: 0.99})
	if got != (tile.Printer{Across: 0.99, Down: 1.01}) || scale.Turned(tile.Printer{}) != (tile.Printer{}) {
		t.Error(got)
	}
}
