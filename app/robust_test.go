package app

import (
	"bytes"
	"errors"
	"io"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	pdfmodel "github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/printing/tile"
)

// outputs is everything that can be made of a pattern, by name.
func outputs(p model.Pattern, c PrintChoice) map[string]func(io.Writer) error {
	out := map[string]func(io.Writer) error{
		"summary": func(w io.Writer) error { return WriteSummary(w, p, c.Date, tile.Papers()[0]) },
		"increment sheets": func(w io.Writer) error {
			var g grading.Grader
			sheets, err := HandSheets(&g, p, nil, c.Date)
			if err != nil {
				return err
			}
			return WriteHandSheets(w, sheets, tile.Papers()[0], p.Unit)
		},
		"pages": func(w io.Writer) error {
			setup, err := PrintSetup("a4", "", "")
			if err != nil {
				return err
			}
			job, err := Plan(p, c, setup)
			if err != nil {
				return err
			}
			return job.WritePDF(w)
		},
	}
	for _, as := range Exports {
		out[as] = func(w io.Writer) error { return Export(w, p, c, as) }
	}
	return out
}

// valid holds a PDF to the strict reading of an outside program, pdfcpu.
func valid(t *testing.T, what string, data []byte) {
	t.Helper()
	if !bytes.HasPrefix(data, []byte("%PDF")) {
		return
	}
	api.DisableConfigDir()
	conf := pdfmodel.NewDefaultConfiguration()
	conf.ValidationMode = pdfmodel.ValidationStrict
	if err := api.Validate(bytes.NewReader(data), conf); err != nil {
		t.Errorf("%s: %v", what, err)
	}
}

// Names no font has letters for, that are no ordinary text or much too long are
// printed as well as can be: every file is made and sound.
func TestNamesOfAnyKind(t *testing.T) {
	chart := demos(t)[0].Chart
	for _, name := range []string{
		"Vest 🧵🪡", "앞판", "جلو", "a\x00b\x07", "two\nlines\tand tabs", "\xff\xfe", strings.Repeat("very long ", 60),
		strings.Repeat("Unbreakable", 40), "", "  ", "\u202Eturned", "<b>&amp;\"'", "=1+1", "\U0010FFFF",
	} {
		p := slab(chart, name, 120, 300, func(q *model.Piece) {
			q.Edges[3].Kind, q.Edges[1].Name, q.Points[0].Name = model.Fold, name, name
		})
		p.Name, p.Target.Wearer, p.Note = name, name, name
		for what, write := range outputs(p, PrintChoice{Marks: true, Stitching: true, Date: name}) {
			var out bytes.Buffer
			if err := write(&out); err != nil || out.Len() == 0 {
				t.Errorf("%s for %.20q: %v, %d bytes", what, name, err, out.Len())
			}
			valid(t, what, out.Bytes())
		}
	}
}

// A piece of no size or with a place that is no number is refused in one
// sentence that names it, with nothing written, and soon; where a table can
// still be made of it, it is.
func TestPiecesThatCannotBe(t *testing.T) {
	chart := demos(t)[0].Chart
	begun := time.Now()
	for _, c := range []struct{ w, h float64 }{
		{0, 0}, {0, 100}, {100, 0}, {math.NaN(), 100}, {math.Inf(1), 100}, {1e-9, 1e-9}, {1e9, 1e9}, {1e300, 10},
	} {
		p := slab(chart, "Tab", c.w, c.h, nil)
		for _, sizes := range [][]string{nil, {"40", "42"}} {
			for what, write := range outputs(p, PrintChoice{Marks: true, Stitching: true, Sizes: sizes}) {
				if what == "json" && sizes != nil {
					continue
				}
				var out bytes.Buffer
				err := write(&out)
				if err == nil {
					if what == "pages" || what == "svg" || what == "json" && math.IsNaN(c.w) {
						t.Errorf("%g x %g is written as %s, %d bytes", c.w, c.h, what, out.Len())
					}
					continue
				}
				if !strings.Contains(err.Error(), "Tab") || strings.Contains(err.Error(), "\n") || out.Len() > 0 {
					t.Errorf("%g x %g as %s: %v, %d bytes", c.w, c.h, what, err, out.Len())
				}
			}
		}
	}
	if d := time.Since(begun); d > 20*time.Second {
		t.Errorf("that took %v", d)
	}
}

// Onto a disk that fills up at any byte, whatever is made says so and no more.
func TestADiskThatFillsUp(t *testing.T) {
	p := demos(t)[1]
	full := errors.New("no space")
	for what, write := range outputs(p, PrintChoice{Marks: true}) {
		var whole bytes.Buffer
		if err := write(&whole); err != nil {
			t.Fatal(what, err)
		}
		for _, room := range []int{0, 1, whole.Len() / 2, whole.Len() - 1} {
			if err := write(&filling{room, full}); !errors.Is(err, full) || strings.Contains(err.Error(), "\n") {
				t.Errorf("%s with room for %d of %d bytes: %v", what, room, whole.Len(), err)
			}
		}
		if err := write(&filling{whole.Len(), full}); err != nil {
			t.Errorf("%s with room enough: %v", what, err)
		}
	}
}

// filling is a writer with room for so many bytes.
type filling struct {
	room int
	full error
}

func (f *filling) Write(p []byte) (int, error) {
	if len(p) > f.room {
		n := f.room
		f.room = 0
		return n, f.full
	}
	f.room -= len(p)
	return len(p), nil
}

// A piece wider than the roll is laid over several widths or refused by name,
// never cut off: all of it is on the pages.
func TestAPieceWiderThanARoll(t *testing.T) {
	p := slab(demos(t)[0].Chart, "Curtain", 1500, 900, func(q *model.Piece) {
		q.Lines = []model.Line{{ID: "g", Kind: model.Grain, Drawn: []model.SizedPath{{Path: geom.Polyline(geom.Pt(300, 100), geom.Pt(300, 800))}}}}
	})
	setup, err := PrintSetup("roll 610 mm", "", "")
	if err != nil {
		t.Fatal(err)
	}
	job, err := Plan(p, PrintChoice{Marks: true}, setup)
	if err != nil {
		if !strings.Contains(err.Error(), "Curtain") {
			t.Errorf("it says %v", err)
		}
		return
	}
	var shown geom.Box
	for _, s := range job.Plan.Sheets {
		shown = shown.Union(s.Window)
	}
	ink := job.Plan.Pieces[0].Piece.Outline.Transform(job.Plan.Pieces[0].At).Bounds()
	if !shown.Contains(ink.Min) || !shown.Contains(ink.Max) || job.Pages() < 2 {
		t.Errorf("%d pages show %v of %v", job.Pages(), shown, ink)
	}
}
