package pdf_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"quarterstep/printing/tile"
)

// poppler runs one of poppler's programs, an outside judge of what the file
// looks like.
func poppler(t *testing.T, data []byte, program string, args ...string) []byte {
	t.Helper()
	path, err := exec.LookPath(program)
	if err != nil {
		t.Fatalf("this check needs %s: install the package poppler-utils", program)
	}
	name := filepath.Join(t.TempDir(), "plan.pdf")
	if err := os.WriteFile(name, data, 0o600); err != nil {
		t.Fatal(err)
	}
	for i, a := range args {
		if a == "FILE" {
			args[i] = name
		}
	}
	var out, errs bytes.Buffer
	cmd := exec.Command(path, args...)
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); err != nil {
		t.Fatalf("%s: %v: %s", program, err, &errs)
	}
	return out.Bytes()
}

// picture is a grey picture, 0 black to 255 white.
type picture struct {
	wide, high int
	grey       []byte
}

func readPGM(t *testing.T, data []byte) picture {
	t.Helper()
	var p picture
	var most int
	if _, err := fmt.Sscanf(string(data[:min(len(data), 40)]), "P5\n%d %d\n%d\n", &p.wide, &p.high, &most); err != nil || most != 255 {
		t.Fatalf("not a grey picture: %v", err)
	}
	p.grey = data[len(data)-p.wide*p.high:]
	return p
}

// middle is the middle of the one dark line between two pixels of a row or
// column, to a fraction of a pixel: the mean place, each pixel weighing as it
// is dark.
func middle(at func(i int) byte, from, to int) float64 {
	sum, weight := 0.0, 0.0
	for i := from; i < to; i++ {
		w := float64(255 - at(i))
		sum += w * (float64(i) + 0.5)
		weight += w
	}
	return sum / weight
}

// The test squares of a page rendered by poppler at 600 dots to the inch are
// as large as they say, and where the file says; with a printer's correction,
// larger by that.
func TestSquaresAreTrueWhenRendered(t *testing.T) {
	const dpi, px = 600, 25.4 / 600
	for _, printer := range []tile.Printer{{}, {Across: 1.01, Down: 0.995}} {
		s := setup(t, "A4")
		s.Printer = printer
		plan, err := tile.Layout(nil, s)
		if err != nil {
			t.Fatal(err)
		}
		out := poppler(t, written(t, plan, options()), "pdftoppm", "-r", fmt.Sprint(dpi), "-gray", "-x", "0", "-y", "0", "-W", "1600", "-H", "3700", "-f", "1", "-l", "1", "FILE")
		p := readPGM(t, out)
		kx, ky := printer.Scale()
		for _, sq := range []struct {
			name string
			y    float64 // page mm of its upper side
			size float64
		}{{"50 mm", 41, 50}, {"2 in", 41 + 53.98 + 6, 2 * 25.4}} {
			// Middles of the four sides, seen along a row and a column a quarter
			// into the square, clear of its words.
			row, col := int((sq.y+sq.size/4)/px), int((10+sq.size/4)/px)
			across := func(i int) byte { return p.grey[row*p.wide+i] }
			down := func(i int) byte { return p.grey[i*p.wide+col] }
			side := func(at func(int) byte, mm float64) float64 {
				return px * middle(at, int((mm-1)/px), int((mm+1)/px))
			}
			left, right := side(across, 10), side(across, 10+sq.size*kx)
			top, foot := side(down, sq.y), side(down, sq.y+sq.size*ky)
			t.Logf("%s: %.4f x %.4f mm, want %.4f x %.4f", sq.name, right-left, foot-top, sq.size*kx, sq.size*ky)
			if math.Abs(right-left-sq.size*kx) > 0.02 || math.Abs(foot-top-sq.size*ky) > 0.02 {
				t.Errorf("%s square renders %.4f x %.4f mm", sq.name, right-left, foot-top)
			}
		}
	}
}

// What the words say can be read back, on their pages.
func TestWordsAreReadable(t *testing.T) {
	plan := planOf(t, wardrobe(1), setup(t, "A4"))
	text := string(poppler(t, written(t, plan, options()), "pdftotext", "-layout", "FILE", "-"))
	pages := strings.Split(text, "\f")
	for _, want := range []string{
		"Harlequin doublet", "Size 48, for the third player", "50 mm", "2 in", "Bank card", "Page map",
		"Measure both squares", "toile", "your own use", "nightwear and drawstrings",
	} {
		if !strings.Contains(pages[0], want) {
			t.Errorf("the cover does not say %q", want)
		}
	}
	for i, s := range plan.Sheets {
		if !strings.Contains(pages[i+1], s.Name) || !strings.Contains(pages[0], s.Name) {
			t.Errorf("%s is not named on its page and the map", s.Name)
		}
	}
	if !strings.Contains(pages[1], "glue A2 here") || !strings.Contains(pages[2], "trim") {
		t.Error("the strips do not say what to do with them")
	}
	for _, p := range plan.Pieces {
		if !strings.Contains(text, p.Piece.Name) {
			t.Errorf("%s is not named", p.Piece.Name)
		}
	}
}

// Letters the font lacks are shown as something.
func TestMissingLettersShow(t *testing.T) {
	plan, err := tile.Layout(nil, setup(t, "A4"))
	if err != nil {
		t.Fatal(err)
	}
	o := options()
	o.Title, o.Note = "Hose \u6F22\U0001D11E\nfür Zoë", "élan"
	text := string(poppler(t, written(t, plan, o), "pdftotext", "FILE", "-"))
	first, _, _ := strings.Cut(text, "\n")
	shown := []rune(first)
	if len(shown) != len([]rune("Hose ?? für Zoë")) || string(shown[:5]) != "Hose " || string(shown[7:]) != " für Zoë" || shown[5] != shown[6] {
		t.Errorf("title reads %q", first)
	}
	if !strings.Contains(text, "Élan") {
		t.Errorf("the note is not there, with a capital: %q", text[:80])
	}
}
