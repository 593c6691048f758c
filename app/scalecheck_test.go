package app_test

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"quarterstep/app"
	"quarterstep/app/settings"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/printing"
	"quarterstep/printing/scale"
	"quarterstep/printing/tile"
)

var aDay = time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)

func paperNamed(t testing.TB, name string) tile.Paper {
	t.Helper()
	p, err := tile.ParsePaper(name)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// The whole way of a correction: a printer out by so much across and down of
// its paper prints the test page; the lengths on it are measured; then it prints
// a pattern on pages upright or on their side. Corrected drawing times the
// printer's error is the true size, on every sheet, and neighbouring sheets
// still share what they are glued by.
func TestCorrectedDrawingTimesErrorIsTrueSize(t *testing.T) {
	papers := []string{"A4", "Letter", "A4 or Letter", "A3", "A0"}
	outline := geom.Polyline(geom.Pt(0, 0), geom.Pt(700, 0), geom.Pt(700, 500), geom.Pt(0, 500), geom.Pt(0, 0))
	pieces := []printing.Piece{{Name: "Banner", Outline: outline, Strokes: []printing.Stroke{{Path: outline, Width: 0.3}}}}
	rapid.Check(t, func(t *rapid.T) {
		paper, err := tile.ParsePaper(rapid.SampledFrom(papers).Draw(t, "paper"))
		if err != nil {
			t.Fatal(err)
		}
		ex := rapid.Float64Range(0.985, 1.006).Draw(t, "error across")
		ey := ex + rapid.Float64Range(-0.004, 0.004).Draw(t, "error down")
		check := app.ScaleCheck{Paper: paper, Printer: "Hall"}
		x, y := measuredLengths(t, check)
		v, err := scale.Judge(scale.Printed{Paper: paper, Across: x, Down: y}, scale.Measured{Across: x * ex, Down: y * ey})
		if err != nil {
			t.Fatal(err)
		}
		if v.Kind == scale.Fine {
			return
		}
		// On A0 an error of 1 % may be that of a page made to fit: insist.
		s, err := app.RememberScale(settings.Settings{}, "Hall", v, true, aDay)
		if err != nil {
			t.Fatalf("%v: %q", err, v.Says)
		}
		setup := tile.Setup{Paper: paper, Margin: 10, Overlap: 10, Landscape: rapid.Bool().Draw(t, "on its side")}
		setup = app.SetupFor(s, "hall", setup)
		placed, err := tile.Arrange(pieces, setup)
		if err != nil {
			t.Fatal(err)
		}
		plan, err := tile.Layout(placed, setup)
		if err != nil {
			t.Fatal(err)
		}
		printed := geom.ScaleXY(ex, ey) // of the page
		if setup.Landscape {
			printed = geom.ScaleXY(ey, ex)
		}
		for _, sheet := range plan.Sheets {
			w := sheet.Window
			m := printed.Mul(plan.OnPage(sheet))
			across := m.Apply(geom.Pt(w.Max.X, w.Min.Y)).Sub(m.Apply(w.Min))
			down := m.Apply(geom.Pt(w.Min.X, w.Max.Y)).Sub(m.Apply(w.Min))
			if math.Abs(across.X-w.Width()) > 1e-9 || math.Abs(down.Y-w.Height()) > 1e-9 || math.Abs(across.Y) > 1e-9 || math.Abs(down.X) > 1e-9 {
				t.Fatalf("%s: %g x %g mm come out at %v and %v", sheet.Name, w.Width(), w.Height(), across, down)
			}
			if next, ok := plan.At(sheet.Row, sheet.Col+1); ok && math.Abs(w.Max.X-next.Window.Min.X-10/kx(setup)) > 1e-9 {
				t.Fatalf("%s and %s share %g mm", sheet.Name, next.Name, w.Max.X-next.Window.Min.X)
			}
		}
	})
}

func kx(s tile.Setup) float64 {
	k, _ := s.Printer.Scale()
	return k
}

// measuredLengths are those of the test page, mm.
func measuredLengths(t *rapid.T, c app.ScaleCheck) (across, down float64) {
	v, err := c.Judge("1 mm", "1 mm") // fits no length: only to see that it is judged
	if err != nil || v.Kind != scale.Again {
		t.Fatal(v, err)
	}
	w, h := c.Paper.Width, c.Paper.Height
	return 10 * math.Floor((w-30)/10+1e-9), 10 * math.Floor((h-30)/10+1e-9)
}

// A figure is taken in the unit that it fits; one with a unit is as it says.
func TestJudgeReadsWhatIsTyped(t *testing.T) {
	c := app.ScaleCheck{Paper: paperNamed(t, "A4"), Unit: model.Centimetres, Printer: "Hall"}
	if across, down, err := c.Lengths(); err != nil || across != "18 cm" || down != "26 cm" {
		t.Errorf("%s x %s, %v", across, down, err)
	}
	for _, k := range []struct {
		across, down string
		kind         scale.Kind
		comes        float64
	}{
		{"17.91", "25.87", scale.Correct, 179.1},
		{"179.1", "258,7 mm", scale.Correct, 179.1},
		{"7 1/16 in", "10.2", scale.Correct, 179.3875},
		{"7 1/16", `10 13/64"`, scale.Correct, 179.3875},
		{"18", "26", scale.Fine, 180},
		{"17.24", "24.9", scale.Setting, 172.4},
		{"18 mm", "26 mm", scale.Again, 18},
		{"26", "18", scale.Again, 260},
	} {
		v, err := c.Judge(k.across, k.down)
		if err != nil || v.Kind != k.kind || math.Abs(v.Across*180-k.comes) > 1e-6 {
			t.Errorf("%s x %s: %+v, %v", k.across, k.down, v, err)
		}
	}
	for _, bad := range [][2]string{{"wide", "26"}, {"18", ""}, {"0", "26"}, {"18", "-3"}} {
		if _, err := c.Judge(bad[0], bad[1]); err == nil {
			t.Errorf("%q is judged", bad)
		}
	}
	c.Paper = paperNamed(t, "projector")
	if _, _, err := c.Lengths(); err == nil {
		t.Error("a projector has a test page")
	}
}

func TestRememberScale(t *testing.T) {
	c := app.ScaleCheck{Paper: paperNamed(t, "A4"), Printer: "Hall"}
	judged := func(across, down string) scale.Verdict {
		v, err := c.Judge(across, down)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	s, err := app.RememberMargin(settings.Settings{}, "Hall", 4.5)
	if err != nil {
		t.Fatal(err)
	}
	s, err = app.RememberScale(s, " Hall ", judged("178.2", "260"), false, aDay)
	if err != nil {
		t.Fatal(err)
	}
	if p, _ := s.PrinterNamed("hall"); p != (settings.Printer{Name: "Hall", Across: p.Across, Down: 1, Date: "2026-03-01", Margin: 4.5}) || math.Abs(p.Across-180/178.2) > 1e-12 {
		t.Errorf("%+v", p)
	}
	upright := tile.Setup{Paper: c.Paper, Margin: 8}
	side := upright
	side.Landscape = true
	if up, down := app.SetupFor(s, "Hall", upright).Printer, app.SetupFor(s, "Hall", side).Printer; up.Across != down.Down || up.Across == 1 || down.Across != 1 {
		t.Errorf("upright %v, on its side %v", up, down)
	}
	if p := app.SetupFor(s, "Attic", app.SetupFor(s, "Hall", upright)).Printer; p != (tile.Printer{}) {
		t.Errorf("another printer is corrected by %v", p)
	}
	for name, k := range map[string]struct {
		printer, across, down string
		insist                bool
		says                  string
	}{
		"no name":        {" ", "178.2", "260", false, "which printer"},
		"misread":        {"Hall", "18 mm", "26 mm", true, "measure again"},
		"setting":        {"Hall", "172.4", "249", false, "looks like a print setting"},
		"insisted":       {"Hall", "172.4", "249", true, ""},
		"beyond remedy":  {"Hall", "90", "130", true, "too far out"},
		"nothing to fix": {"Hall", "180", "260", false, ""},
	} {
		if _, err := app.RememberScale(s, k.printer, judged(k.across, k.down), k.insist, aDay); (err == nil) != (k.says == "") || err != nil && !strings.Contains(err.Error(), k.says) {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, mm := range []float64{-1, 200, math.NaN()} {
		if _, err := app.RememberMargin(s, "Hall", mm); err == nil {
			t.Errorf("a margin of %g mm is remembered", mm)
		}
	}
}

func TestTestPageIsWritten(t *testing.T) {
	for _, name := range []string{"A4", "Roll 914 mm", "A4 or Letter"} {
		var b bytes.Buffer
		if err := (app.ScaleCheck{Paper: paperNamed(t, name), Unit: model.Inches}).WritePDF(&b); err != nil || !bytes.HasPrefix(b.Bytes(), []byte("%PDF-")) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
