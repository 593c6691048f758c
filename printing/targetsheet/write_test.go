package targetsheet_test

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"quarterstep/assets"
	"quarterstep/model/geom"
	"quarterstep/model/trace/target"
	"quarterstep/printing/targetsheet"
	"quarterstep/printing/tile"
)

var (
	a4     = tile.Paper{Name: "A4", Width: 210, Height: 297}
	letter = tile.Paper{Name: "Letter", Width: 8.5 * 25.4, Height: 11 * 25.4}
)

func options(paper tile.Paper) targetsheet.Options {
	return targetsheet.Options{Paper: paper, Regular: assets.LatoRegular, Bold: assets.LatoBold}
}

func written(t *testing.T, set target.Set, paper tile.Paper) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := targetsheet.Write(&b, set, options(paper)); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// poppler runs one of poppler's programs, an outside judge of what the file
// looks like.
func poppler(t *testing.T, data []byte, program string, args ...string) []byte {
	t.Helper()
	path, err := exec.LookPath(program)
	if err != nil {
		t.Fatalf("this check needs %s: install the package poppler-utils", program)
	}
	name := filepath.Join(t.TempDir(), "targets.pdf")
	if err := os.WriteFile(name, data, 0o600); err != nil {
		t.Fatal(err)
	}
	var out, errs bytes.Buffer
	cmd := exec.Command(path, append(args, name)...)
	if program == "pdftotext" {
		cmd.Args = append(cmd.Args, "-")
	}
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); err != nil {
		t.Fatalf("%s: %v: %s", program, err, &errs)
	}
	return out.Bytes()
}

// rendered is the page at so many dots to the inch.
func rendered(t *testing.T, data []byte, dpi int) *image.Gray {
	t.Helper()
	out := poppler(t, data, "pdftoppm", "-r", fmt.Sprint(dpi), "-gray")
	var w, h, most int
	if _, err := fmt.Sscanf(string(out[:min(len(out), 40)]), "P5\n%d %d\n%d\n", &w, &h, &most); err != nil || most != 255 {
		t.Fatalf("not a grey picture: %v", err)
	}
	return &image.Gray{Pix: out[len(out)-w*h:], Stride: w, Rect: image.Rect(0, 0, w, h)}
}

// Rendered by poppler at 300 dots to the inch, every target of the set is found
// as itself where it belongs, to 0.02 mm, and no other.
func TestEveryTargetIsFound(t *testing.T) {
	const dpi = 300
	for _, set := range []target.Set{target.Strips, target.Corners} {
		for _, paper := range []tile.Paper{a4, letter} {
			found, err := target.Find(context.Background(), rendered(t, written(t, set, paper), dpi))
			if err != nil || len(found) != target.Parts*target.PerPart {
				t.Errorf("%s on %s: %d targets: %v", set, paper.Name, len(found), err)
			}
			worst := 0.0
			for i, f := range found {
				spot, ok := target.SpotOf(f.Code)
				if want := set.Code(i/target.PerPart, i%target.PerPart); !ok || f.Code != want {
					t.Errorf("%s on %s: code %d, want %d", set, paper.Name, f.Code, want)
					continue
				}
				at := geom.Pt(f.Centre.X*25.4/dpi, f.Centre.Y*25.4/dpi)
				worst = max(worst, at.Dist(targetsheet.Middle(set, paper).Add(geom.Vec(spot.Sheet))))
				if r := f.Size * 25.4 / dpi; r < spot.Radius-0.1 || r > spot.Radius+0.1 {
					t.Errorf("%s on %s: code %d has a radius of %.2f mm, want %.0f", set, paper.Name, f.Code, r, spot.Radius)
				}
			}
			t.Logf("%s on %s: off by up to %.4f mm", set, paper.Name, worst)
			if worst > 0.02 {
				t.Errorf("%s on %s: off by up to %.4f mm", set, paper.Name, worst)
			}
		}
	}
}

// For a printer that prints a little large one way and small the other, all is
// corrected about the middle of the page, so that it comes out where it belongs.
func TestTargetsCorrectedForThePrinter(t *testing.T) {
	const dpi = 300
	o := options(a4)
	o.Printer = tile.Printer{Across: 1.01, Down: 0.995}
	var b bytes.Buffer
	if err := targetsheet.Write(&b, target.Corners, o); err != nil {
		t.Fatal(err)
	}
	found, err := target.Find(context.Background(), rendered(t, b.Bytes(), dpi))
	if err != nil || len(found) != target.Parts*target.PerPart {
		t.Fatalf("%d targets: %v", len(found), err)
	}
	for _, f := range found {
		spot, _ := target.SpotOf(f.Code)
		v := targetsheet.Middle(target.Corners, a4).Add(geom.Vec(spot.Sheet)).Sub(geom.Pt(105, 148.5))
		want := geom.Pt(105+1.01*v.X, 148.5+0.995*v.Y)
		if d := geom.Pt(f.Centre.X*25.4/dpi, f.Centre.Y*25.4/dpi).Dist(want); d > 0.02 {
			t.Errorf("code %d: off by %.4f mm", f.Code, d)
		}
	}
	o.Printer.Across = 1.2
	if err := targetsheet.Write(&b, target.Corners, o); err == nil || !strings.Contains(err.Error(), "correction is too large") {
		t.Errorf("corrected by 20 %%: %v", err)
	}
}

// Nothing but the lines to cut along is printed within 8 mm of the paper's edges.
func TestMarginsAreWhite(t *testing.T) {
	const dpi = 100
	const edge = 31 // pixels: 7.9 mm
	for _, set := range []target.Set{target.Strips, target.Corners} {
		for _, paper := range []tile.Paper{a4, letter} {
			g := rendered(t, written(t, set, paper), dpi)
			w, h := g.Rect.Dx(), g.Rect.Dy()
			for y := range h {
				for x := range w {
					if x >= edge && x < w-edge && y >= edge && y < h-edge {
						continue
					}
					if g.Pix[y*g.Stride+x] < 100 {
						t.Fatalf("%s on %s: dark at %d, %d of %d, %d", set, paper.Name, x, y, w, h)
					}
				}
			}
		}
	}
}

// What the sheet says can be read, and goes from the first step to the last.
func TestSheetSaysWhatToDo(t *testing.T) {
	for set, want := range map[target.Set][]string{
		target.Strips:  {"Strips to lay", "5 cm", "2 in", "Strip 1", "Strip 4", "1. Print at 100 %", "2. Cut along", "3. Lay the piece flat", "5. Nothing need be"},
		target.Corners: {"Corner cards to lay", "5 cm", "2 in", "upper left", "lower left", "1. Print at 100 %", "6. Uncut"},
	} {
		for _, paper := range []tile.Paper{a4, letter} {
			text := strings.Join(strings.Fields(string(poppler(t, written(t, set, paper), "pdftotext", "-raw"))), " ")
			for _, w := range want {
				if !strings.Contains(text, w) {
					t.Errorf("%s on %s does not say %q:\n%s", set, paper.Name, w, text)
				}
			}
		}
	}
}

func TestWriteRefuses(t *testing.T) {
	var b bytes.Buffer
	for _, c := range []struct {
		set   target.Set
		paper tile.Paper
		want  string
	}{
		{"stars", a4, `no targets "stars"`},
		{target.Strips, tile.Paper{Name: "A5", Width: 148, Height: 210}, "A5 is too small"},
		{target.Corners, tile.Paper{Name: "A4 lying", Width: 297, Height: 210}, "too small"},
	} {
		if err := targetsheet.Write(&b, c.set, options(c.paper)); err == nil || !strings.Contains(err.Error(), c.want) || b.Len() > 0 {
			t.Errorf("%s on %s: %v", c.set, c.paper.Name, err)
		}
	}
	if err := targetsheet.Write(&b, target.Strips, targetsheet.Options{Paper: a4}); err == nil || b.Len() > 0 {
		t.Errorf("without a font: %v", err)
	}
	if !bytes.Equal(written(t, target.Strips, a4), written(t, target.Strips, a4)) {
		t.Error("the second time gives other bytes")
	}
}
