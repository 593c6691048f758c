package testpage_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"quarterstep/assets"
	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/printing/testpage"
	"quarterstep/printing/tile"
)

func pageFor(t testing.TB, paper string, unit measure.Unit) testpage.Page {
	t.Helper()
	p, err := tile.ParsePaper(paper)
	if err != nil {
		t.Fatal(err)
	}
	return testpage.Page{Paper: p, Unit: unit, Regular: assets.LatoRegular, Bold: assets.LatoBold}
}

func written(t testing.TB, p testpage.Page) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := testpage.Write(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// poppler runs one of poppler's programs, an outside judge of what a file looks
// like, on data.
func poppler(t *testing.T, data []byte, program string, args ...string) []byte {
	t.Helper()
	if _, err := exec.LookPath(program); err != nil {
		t.Fatalf("this check needs %s: install the package poppler-utils", program)
	}
	name := filepath.Join(t.TempDir(), "page.pdf")
	if err := os.WriteFile(name, data, 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(program, append(args, name)...)
	if program == "pdftotext" {
		cmd.Args = append(cmd.Args, "-")
	}
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s: %v", program, err)
	}
	return out
}

// seen is a page rendered grey, 0 black to 255 white.
type seen struct {
	wide, high int
	grey       []byte
	px         float64 // mm
}

func render(t *testing.T, data []byte, dpi int) seen {
	t.Helper()
	out := poppler(t, data, "pdftoppm", "-r", fmt.Sprint(dpi), "-gray")
	p := seen{px: 25.4 / float64(dpi)}
	if _, err := fmt.Sscanf(string(out[:min(len(out), 40)]), "P5\n%d %d\n255\n", &p.wide, &p.high); err != nil {
		t.Fatal(err)
	}
	p.grey = out[len(out)-p.wide*p.high:]
	return p
}

// line is where the dark line within 0.8 mm of mm stands, seen along a row or
// column: the middle of its ink.
func (s seen) line(t *testing.T, mm, across float64, row bool) float64 {
	t.Helper()
	at := int(across / s.px)
	sum, weight := 0.0, 0.0
	for i := int((mm - 0.8) / s.px); i < int((mm+0.8)/s.px); i++ {
		j := i*s.wide + at
		if row {
			j = at*s.wide + i
		}
		if j < 0 || j >= len(s.grey) {
			t.Fatalf("%.1f mm is off the page", mm)
		}
		w := float64(255 - s.grey[j])
		sum += w * (float64(i) + 0.5)
		weight += w
	}
	if weight == 0 {
		t.Fatalf("no line at %.1f mm", mm)
	}
	return sum / weight * s.px
}

// The sides of the rectangle, worked by hand: the largest whole centimetres,
// or half inches, that leave 15 mm on both sides. A4: 180 and 267; Letter:
// 185.9 and 249.4; A3: 267 and 390.
func TestLengths(t *testing.T) {
	for _, c := range []struct {
		paper        string
		unit         measure.Unit
		across, down float64
	}{
		{"A4", measure.Millimetres, 180, 260},
		{"A4", measure.Inches, 7 * 25.4, 10.5 * 25.4},
		{"Letter", measure.Millimetres, 180, 240},
		{"Letter", measure.Inches, 7 * 25.4, 9.5 * 25.4},
		{"A3", measure.Centimetres, 260, 390},
		{"914.4x3000mm", measure.Millimetres, 880, 2970},
		{"A4 or Letter", measure.Millimetres, 180, 240},
		{"roll 610 mm", measure.Millimetres, 580, 470},
	} {
		across, down, err := pageFor(t, c.paper, c.unit).Lengths()
		if err != nil || math.Abs(across-c.across) > 1e-9 || math.Abs(down-c.down) > 1e-9 {
			t.Errorf("%s in %s: %g x %g, %v", c.paper, c.unit, across, down, err)
		}
	}
}

// The rectangle, the squares and the card, measured on a page rendered by
// poppler at 600 dots to the inch, within 0.03 mm (a pixel is 0.042); with a
// correction larger by that, so a page 0.5 % out would not pass. Squares 50 mm
// and 2 x 25.4 mm; card 85.60 x 53.98 mm (ISO/IEC 7810, ID-1).
func TestWhatIsMeasuredIsTrueWhenRendered(t *testing.T) {
	const near = 0.03
	for _, c := range []struct {
		paper string
		unit  measure.Unit
		with  tile.Printer
	}{
		{"A4", measure.Millimetres, tile.Printer{}},
		{"Letter", measure.Inches, tile.Printer{}},
		{"A3", measure.Millimetres, tile.Printer{}},
		{"A4", measure.Inches, tile.Printer{Across: 1.005, Down: 0.995}},
		{"Letter", measure.Millimetres, tile.Printer{Down: 1.02}},
	} {
		p := pageFor(t, c.paper, c.unit)
		p.With = c.with
		s := render(t, written(t, p), 600)
		across, down, err := p.Lengths()
		if err != nil {
			t.Fatal(err)
		}
		kx, ky := c.with.Scale()
		x, y := (p.Paper.Width-across*kx)/2, (p.Paper.Height-down*ky)/2
		gap := 1.5 * 25.4 / 8 // between eighths, and half-way between millimetres 4 and 5
		if c.unit != measure.Inches {
			gap = 4.5
		}
		box := func(name string, x, y, w, h, at float64) {
			row, col := y+at*ky, x+at*kx
			wide := s.line(t, x+w*kx, row, true) - s.line(t, x, row, true)
			high := s.line(t, y+h*ky, col, false) - s.line(t, y, col, false)
			if math.Abs(wide-w*kx) > near || math.Abs(high-h*ky) > near {
				t.Errorf("%s with %v: %s is %.3f x %.3f mm, want %.3f x %.3f", c.paper, c.with, name, wide, high, w*kx, h*ky)
			}
		}
		box("the frame", x, y, across, down, gap)
		box("5 cm", x+20, y+55, 50, 50, 10)
		box("2 in", x+20, y+55+50*ky+6, 50.8, 50.8, 10)
		box("the card", x+20+50.8*kx+6, y+55, 85.60, 53.98, 10)
	}
}

// The lines at the edges tell what a printer leaves white: at 3 mm from each
// edge there is the line of that number, correction or not.
func TestMarginLines(t *testing.T) {
	p := pageFor(t, "A4", measure.Millimetres)
	p.With = tile.Printer{Across: 1.01, Down: 1.01}
	s := render(t, written(t, p), 600)
	const first = -5.5 * 8.5 // the line of 2 mm, from the middle of the side
	for i, mm := range []float64{2, 3, 4, 5, 6} {
		along := first + 8.5*float64(i)
		for _, c := range []struct {
			want, across float64
			row          bool
		}{
			{mm, 105 + along, false},
			{297 - mm, 105 + along, false},
			{mm, 148.5 + along, true},
			{210 - mm, 148.5 + along, true},
		} {
			if at := s.line(t, c.want, c.across, c.row); math.Abs(at-c.want) > 0.03 {
				t.Errorf("the line of %g mm stands at %.3f", mm, at)
			}
		}
	}
}

// All that is said is on the page, whole.
func TestWords(t *testing.T) {
	p := pageFor(t, "Letter", measure.Inches)
	p.Printer, p.Date, p.With = "Wardrobe \U0001F9F5", "29 November 2026", tile.Printer{Across: 1.004}
	text := strings.Join(strings.Fields(string(poppler(t, written(t, p), "pdftotext", "-layout"))), " ")
	for _, want := range []string{
		"Scale check", "Letter, 29 November 2026", "100.40 % across, 100.00 % down", "Across should be 7 in (177.8 mm)",
		"Down should be 9 1/2 in (241.3 mm)", "Bank card", "5 cm", "2 in", `"Actual size"`, "printer's own margin.",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say %q: %s", want, text)
		}
	}
}

// In no language do words stand on each other or leave the page, as poppler
// sees them, and the file says which language they are in.
func TestWordsKeepApartInEveryLanguage(t *testing.T) {
	t.Cleanup(func() { _ = words.Use("en") })
	word := regexp.MustCompile(`<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">(.*?)</word>`)
	for _, l := range words.Languages() {
		if err := words.Use(l.Code); err != nil {
			t.Fatal(err)
		}
		for paper, unit := range map[string]measure.Unit{"A4": measure.Millimetres, "Letter": measure.Inches} {
			p := pageFor(t, paper, unit)
			p.With = tile.Printer{Across: 1.004}
			data := written(t, p)
			if !bytes.Contains(data, []byte("/Lang ("+l.Code)) {
				t.Errorf("%s: the file does not say its language", l.Name)
			}
			page := geom.Box{Max: geom.Pt(p.Paper.Width*72/25.4, p.Paper.Height*72/25.4)}
			var boxes []geom.Box
			var said []string
			for _, m := range word.FindAllStringSubmatch(string(poppler(t, data, "pdftotext", "-bbox")), -1) {
				var v [4]float64
				for i := range v {
					v[i], _ = strconv.ParseFloat(m[i+1], 64)
				}
				boxes, said = append(boxes, geom.Box{Min: geom.Pt(v[0], v[1]), Max: geom.Pt(v[2], v[3])}), append(said, m[5])
			}
			if len(boxes) < 100 {
				t.Fatalf("%s: only %d words are seen", l.Name, len(boxes))
			}
			for i, b := range boxes {
				if v := page.Union(b); v != page {
					t.Errorf("%s, %s: %q leaves the page", l.Name, paper, said[i])
				}
				for j, c := range boxes[:i] {
					if b.Grow(-0.5).Intersects(c.Grow(-0.5)) {
						t.Errorf("%s, %s: %q stands on %q", l.Name, paper, said[i], said[j])
					}
				}
			}
		}
	}
}

func TestSameBytesOnePageOfThePapersSize(t *testing.T) {
	p := pageFor(t, "A4", measure.Millimetres)
	a := written(t, p)
	if !bytes.Equal(a, written(t, p)) {
		t.Error("the same page gives other bytes")
	}
	if n := len(regexp.MustCompile(`/Type /Page\b[^s]`).FindAll(a, -1)); n != 1 {
		t.Errorf("%d pages", n)
	}
	if !bytes.Contains(a, []byte("/MediaBox [0 0 595.28 841.89]")) || !bytes.Contains(a, []byte("/PrintScaling /None")) {
		t.Error("the page is not A4, or does not ask for no scaling")
	}
}

func TestWhatCannotBeMade(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*testpage.Page)
		says   string
	}{
		"no paper":   {func(p *testpage.Page) { p.Paper = tile.Paper{} }, "choose a paper"},
		"projector":  {func(p *testpage.Page) { p.Paper = tile.Paper{Name: "Projector", Free: true, Screen: true} }, "set by the squares"},
		"small":      {func(p *testpage.Page) { p.Paper.Width = 148 }, "too small for the test page"},
		"no number":  {func(p *testpage.Page) { p.Paper.Height = math.NaN() }, "too small"},
		"no font":    {func(p *testpage.Page) { p.Bold = nil }, "bold font"},
		"out by 10%": {func(p *testpage.Page) { p.With.Down = 1.1 }, "wrong print setting"},
		"no scale":   {func(p *testpage.Page) { p.With.Across = math.NaN() }, "wrong print setting"},
	} {
		p := pageFor(t, "A4", measure.Millimetres)
		c.change(&p)
		var b bytes.Buffer
		if err := testpage.Write(&b, p); err == nil || !strings.Contains(err.Error(), c.says) || b.Len() > 0 {
			t.Errorf("%s: %v, %d bytes written", name, err, b.Len())
		}
	}
}
