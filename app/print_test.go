package app

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"quarterstep/model/geom"
)

func TestPrintSetupReadsLengths(t *testing.T) {
	for _, c := range []struct {
		paper, margin, overlap string
		m, o                   float64
	}{
		{"a4", "", "", usualMargin, usualOverlap},
		{"Letter", "3/8 in", "1/2\"", 9.525, 12.7}, // 1 in = 25.4 mm
		{"A3", "6", "15mm", 6, 15},
		{"914x3000mm", "0", "1,5 cm", 0, 15},
	} {
		s, err := PrintSetup(c.paper, c.margin, c.overlap)
		if err != nil || math.Abs(s.Margin-c.m) > 1e-12 || math.Abs(s.Overlap-c.o) > 1e-12 {
			t.Errorf("%v: margin %v, overlap %v, %v", c, s.Margin, s.Overlap, err)
		}
	}
	for _, c := range []struct{ paper, margin, overlap, want string }{
		{"", "", "", "no paper"},
		{"a9", "", "", `"a9" is no paper`},
		{"0x0mm", "", "", "cannot be printed"},
		{"a4", "wide", "", "margin: "},
		{"a4", "", "wide", "overlap: "},
		{"a4", "10 ells", "", "margin: "},
		{"a4", "-1", "", "less than nothing"},
		{"a4", "", "-1", "less than nothing"},
		{"a4", "60", "", "smaller margin"},
		{"a4", "", "100", "overlap of 100 mm"},
		{"100x100mm", "", "", "larger paper"},
	} {
		if _, err := PrintSetup(c.paper, c.margin, c.overlap); err == nil || !strings.Contains(err.Error(), c.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%q, %q, %q: %v, want %q", c.paper, c.margin, c.overlap, err, c.want)
		}
	}
}

func TestAJobNamesASizeThatIsNotThere(t *testing.T) {
	p, err := DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	setup, err := PrintSetup("a4", "", "")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Plan(p, PrintChoice{Sizes: []string{"48", "47"}}, setup); err == nil || !strings.Contains(err.Error(), `no size "47"`) {
		t.Errorf("size 47: %v", err)
	}
}

// The drawing has a solid line for the last size, each size its layer, and the
// printed nest behind where it is asked for.
func TestDrawingOfSeveralSizes(t *testing.T) {
	p, err := DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	p.Target.Wearer = "an invented player"
	d, err := Drawing(p, PrintChoice{Sizes: []string{"44", "46"}, WithTarget: true, Nest: true})
	if err != nil {
		t.Fatal(err)
	}
	if d.Note != "size 44, 46, 48, for an invented player" || len(d.Pieces) != len(p.Pieces) {
		t.Errorf("note %q, %d pieces", d.Note, len(d.Pieces))
	}
	for _, q := range d.Pieces {
		var layers []string
		for _, s := range q.Strokes {
			if s.Width == pointerWidth {
				continue // from a size's name to its line
			}
			layers = append(layers, s.Layer)
			if solid := len(s.Dash) == 0; solid != (s.Layer == "Size 48") {
				t.Errorf("%s: layer %s is solid: %v", q.Name, s.Layer, solid)
			}
		}
		want := "Printed size 34 Printed size 36 Printed size 38 Printed size 40 Size 44 Size 46 Size 48"
		if got := strings.Join(layers, " "); got != want {
			t.Errorf("%s: layers %s", q.Name, got)
		}
	}
}

// A printed size that is also chosen is drawn once, as a chosen one, and named.
func TestAPrintedSizeIsNotDrawnTwice(t *testing.T) {
	p, err := DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	d, err := Drawing(p, PrintChoice{Sizes: []string{"38", "44"}, Nest: true})
	if err != nil {
		t.Fatal(err)
	}
	for _, q := range d.Pieces {
		n, named := 0, 0
		for _, s := range q.Strokes {
			if s.Layer == "Printed size 38" {
				t.Errorf("%s: size 38 is drawn among the printed ones", q.Name)
			}
			if s.Layer == "Size 38" && s.Cut {
				n++
			}
		}
		for _, l := range q.Labels {
			if l.Layer == "Size 38" {
				named++
			}
		}
		if n != 1 || named == 0 {
			t.Errorf("%s: size 38 is drawn %d times and named %d times", q.Name, n, named)
		}
	}
}

// Laying a piece elsewhere moves that piece alone, and back again gives the
// same pages.
func TestRelayMovesOnePiece(t *testing.T) {
	p, err := DemoWaistcoat()
	if err != nil {
		t.Fatal(err)
	}
	setup, err := PrintSetup("a3", "", "")
	if err != nil {
		t.Fatal(err)
	}
	job, err := Plan(p, PrintChoice{Marks: true}, setup)
	if err != nil {
		t.Fatal(err)
	}
	var before, after bytes.Buffer
	if err := job.WritePDF(&before); err != nil {
		t.Fatal(err)
	}
	v := geom.Vec{X: 35, Y: 900}
	moved, err := job.Relay(1, v)
	if err != nil {
		t.Fatal(err)
	}
	for i, q := range moved.Plan.Pieces {
		was, is := job.Plan.Pieces[i].At.Apply(geom.Point{}), q.At.Apply(geom.Point{})
		want := geom.Vec{}
		if i == 1 {
			want = v
		}
		if d := is.Sub(was).Sub(want).Len(); d > 1e-9 {
			t.Errorf("piece %d is %.3f mm from where it was laid", i+1, d)
		}
	}
	back, err := moved.Relay(1, v.Scale(-1))
	if err != nil {
		t.Fatal(err)
	}
	if err := back.WritePDF(&after); err != nil {
		t.Fatal(err)
	}
	if back.Pages() != job.Pages() || !bytes.Equal(before.Bytes(), after.Bytes()) {
		t.Errorf("back again: %d pages of %d, or other bytes", back.Pages(), job.Pages())
	}
}
