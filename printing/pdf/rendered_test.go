package pdf_test

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/printing/proof"
	"quarterstep/printing/tile"
)

// Every cutting line, rendered by three outside programs at 300 dots to the
// inch, lies within 0.05 mm of the pattern's, wherever nothing else is drawn
// beside it; at 99.5 % it does not.
func TestRenderedLinesAreTrue(t *testing.T) {
	s := setup(t, "A4")
	plan := planOf(t, wardrobe(1), s)
	o := options()
	o.Pages = plan.PageNames()[1:]
	data := written(t, plan, o)
	for _, r := range proof.Renderers() {
		pages := r.Pages(t, data, 300)
		for _, size := range []float64{1, 0.995} {
			wanted, seen, worst := 0, 0, 0.0
			for i, sh := range plan.Sheets {
				m := geom.ScaleXY(size, size).Mul(plan.OnPage(sh))
				for _, q := range plan.Pieces {
					for _, c := range q.Piece.Strokes[0].Path.Transform(q.At) {
						if !sh.Window.Grow(-2).Contains(c.At(0.5)) {
							continue
						}
						wanted++
						if off, ok := pages[i].Across(m.Apply(c.At(0.5)), c.Deriv(0.5), 1.6, 0.6); ok {
							seen++
							worst = math.Max(worst, off)
						}
					}
				}
			}
			t.Logf("%s at %.1f %%: %d of %d places seen, %.3f mm at worst", r.Name, size*100, seen, wanted, worst)
			if size == 1 && (wanted < 250 || float64(seen) < 0.8*float64(wanted) || worst > 0.05) {
				t.Errorf("%s: %d of %d places seen, %.3f mm at worst", r.Name, seen, wanted, worst)
			}
			if size != 1 && worst < 0.5 {
				t.Errorf("%s: a pattern at 99.5 %% lies within %.3f mm", r.Name, worst)
			}
		}
	}
}

// A layer switched off leaves no ink in three outside programs, and the others
// stay.
func TestHiddenLayersLeaveNoInk(t *testing.T) {
	plan := planOf(t, wardrobe(3), setup(t, "A2"))
	o := options()
	o.Pages = plan.PageNames()[len(plan.PageNames())-1:]
	shown := written(t, plan, o)
	for i := range plan.Pieces {
		all := plan.Pieces[i].Piece.Strokes
		plan.Pieces[i].Piece.Strokes = nil
		for _, s := range all {
			if s.Layer == "" || s.Layer == "Size 40" {
				plan.Pieces[i].Piece.Strokes = append(plan.Pieces[i].Piece.Strokes, s)
			}
		}
	}
	only := written(t, plan, o)
	hidden := switchOff(t, shown, 2) // the first two: sizes 36 and 38
	for _, r := range proof.Renderers() {
		all, off, want := r.Pages(t, shown, 60)[0], r.Pages(t, hidden, 60)[0], r.Pages(t, only, 60)[0]
		t.Logf("%s: %d dots with all layers, %d with two off, %d without their lines", r.Name, all.Ink(40), off.Ink(40), want.Ink(40))
		if off.Ink(40) != want.Ink(40) || all.Ink(40) < want.Ink(40)*5/4 {
			t.Errorf("%s: %d dots with all layers, %d with two off, %d without their lines", r.Name, all.Ink(40), off.Ink(40), want.Ink(40))
		}
	}
}

// switchOff switches off the first n layers of a file, as a viewer would.
func switchOff(t *testing.T, data []byte, n int) []byte {
	t.Helper()
	m := regexp.MustCompile(`/OCGs \[((?:\d+ 0 R )+)\] /D <</OFF \[\]`).FindSubmatchIndex(data)
	if m == nil {
		t.Fatal("the file has no list of layers")
	}
	var list []byte
	for _, ref := range regexp.MustCompile(`\d+ 0 R `).FindAll(data[m[2]:m[3]], n) {
		list = append(list, ref...)
	}
	at := m[1] - 1 // before the bracket
	table := bytes.LastIndex(data, []byte("xref\n0 "))
	out := append(append(append([]byte(nil), data[:at]...), list...), data[at:table]...)
	moved := regexp.MustCompile(`\d{10} 00000 n`).ReplaceAllFunc(data[table:], func(row []byte) []byte {
		offset, _ := strconv.Atoi(string(row[:10]))
		if offset > at {
			offset += len(list)
		}
		return fmt.Appendf(nil, "%010d 00000 n", offset)
	})
	end := bytes.LastIndex(moved, []byte("startxref\n"))
	return append(append(out, moved[:end]...), fmt.Sprintf("startxref\n%d\n%%%%EOF\n", table+len(list))...)
}

// A page for a projector is dark where it should be, its lines as broad as was
// asked for, and its squares as large.
func TestProjectorPage(t *testing.T) {
	s := setup(t, "projector")
	s.Projector = tile.Projector{Dark: true, Line: 2, Square: 50}
	plan := planOf(t, wardrobe(1), s)
	data := written(t, plan, options())
	pages := readPDF(t, data, geom.Identity())
	if len(pages) != 1 || plan.Cover() || len(plan.Sheets) != 1 {
		t.Fatalf("%d pages, %d sheets", len(pages), len(plan.Sheets))
	}
	f := compareAll(plan, pages[0])
	if f.wanted < 300 || f.seen != f.wanted {
		t.Errorf("%d of %d samples found", f.seen, f.wanted)
	}
	broad, squares := 0, map[float64]bool{}
	for _, d := range pages[0].drawn {
		switch {
		case d.op == "S" && math.Abs(d.width-2) < 1e-4:
			broad++
		case d.op == "S" && len(d.path) == 1 && d.path[0].P0.Y == 0 || d.op == "S" && len(d.path) == 1 && d.path[0].P0.X == d.path[0].P3.X:
			squares[math.Round(d.path[0].P0.X*1e3)/1e3] = true
		}
	}
	if broad < 2*len(plan.Pieces) || !squares[50] || !squares[100] || squares[75] {
		t.Errorf("%d broad lines, squares at %v", broad, squares)
	}
	for _, r := range proof.Renderers() {
		p := r.Pages(t, data, 20)[0]
		if dark := float64(p.Ink(200)) / float64(p.Wide*p.High); dark < 0.7 || dark > 0.99 {
			t.Errorf("%s: %.0f %% of the page is black", r.Name, 100*dark)
		}
	}
}

// compareAll is compare for a page whose lines have no ink of their own.
func compareAll(plan tile.Plan, page readPage) (f found) {
	s := plan.Sheets[0]
	back := s.Window.Min.Sub(geom.Pt(plan.Setup.Margin, plan.Setup.Margin))
	drawn := slices.Clone(page.drawn)
	for i := range drawn {
		drawn[i].path = drawn[i].path.Move(back)
	}
	for _, p := range plan.Pieces {
		for _, st := range p.Piece.Strokes {
			for _, q := range samples(st.Path.Transform(p.At)) {
				f.wanted++
				if drawnNear(drawn, q, back) {
					f.seen++
				}
			}
		}
	}
	return f
}

// qpdf finds nothing wrong with any kind of file.
func TestFilesPassQpdf(t *testing.T) {
	for _, name := range []string{"A4", "A4 or Letter", "A0", "roll 610 mm", "projector"} {
		plan := planOf(t, wardrobe(2), setup(t, name))
		o := options()
		proof.Check(t, written(t, plan, o))
		o.Pages = plan.PageNames()[:1]
		proof.Check(t, written(t, plan, o))
	}
}
