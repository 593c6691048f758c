package app

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"quarterstep/app/paper"
	"quarterstep/model/geom"
	"quarterstep/model/trace/picture"
	"quarterstep/model/trace/straight"
	"quarterstep/model/trace/target"
	"quarterstep/printing/tile"
)

// sheetPhoto is a sheet of targets as poppler, an outside judge, draws it at 300
// dots to the inch when a printer makes it so many percent of its size.
func sheetPhoto(t *testing.T, set target.Set, percent float64) *paper.Photo {
	t.Helper()
	var pdf bytes.Buffer
	if err := WriteTargetSheet(&pdf, set, tile.Paper{Name: "A4", Width: 210, Height: 297}, tile.Printer{}); err != nil {
		t.Fatal(err)
	}
	path, err := exec.LookPath("pdftoppm")
	if err != nil {
		t.Fatal("this check needs pdftoppm: install the package poppler-utils")
	}
	name := filepath.Join(t.TempDir(), "targets.pdf")
	if err := os.WriteFile(name, pdf.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(path, "-gray", "-r", fmt.Sprint(3*percent), name).Output()
	if err != nil {
		t.Fatal(err)
	}
	var w, h, most int
	if _, err := fmt.Sscanf(string(out[:min(len(out), 40)]), "P5\n%d %d\n%d\n", &w, &h, &most); err != nil {
		t.Fatalf("not a grey picture: %v", err)
	}
	return &paper.Photo{Name: "sheet.png", Picture: picture.Picture{
		Gray: &image.Gray{Pix: out[len(out)-w*h:], Stride: w, Rect: image.Rect(0, 0, w, h)},
	}}
}

// A sheet of targets printed at 100 % gives the scale of the picture to 0.05 %,
// and agrees with a measured distance; one printed at 97 % is noticed by that
// distance, and the scale comes out right by it.
func TestSheetPrintedTooSmallIsNoticed(t *testing.T) {
	const perMM = 300 / 25.4
	for _, set := range []target.Set{target.Strips, target.Corners} {
		for _, c := range []struct {
			percent float64
			says    string
		}{{100, "Your distance agrees"}, {97, "The targets were printed at about 97 %: print them again at 100 %"}} {
			photo := sheetPhoto(t, set, c.percent)
			from, to := geom.Pt(300, 400), geom.Pt(1800, 2400) // 2500 pixels apart
			s, err := photo.Straighten(context.Background(), paper.Request{
				Reference: paper.Targets, Known: []straight.Known{{From: from, To: to, MM: 2500 / perMM}},
			})
			if err != nil {
				t.Fatal(err)
			}
			if !strings.Contains(s.Say, c.says) || s.Points != target.Parts*target.PerPart {
				t.Errorf("%s at %g %%: %d targets, says %q", set, c.percent, s.Points, s.Say)
			}
			mid := geom.Pt(float64(photo.Picture.Size().X)/2, float64(photo.Picture.Size().Y)/2)
			if got := s.Map.PerMM(mid); math.Abs(got/perMM-1) > 0.001 {
				t.Errorf("%s at %g %%: %.3f pixels to a mm, want %.3f", set, c.percent, got, perMM)
			}
		}
	}
}
