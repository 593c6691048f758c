package pdf_test

import (
	"math"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/printing"
	"quarterstep/printing/tile"
)

// near is how close a drawn line must be to the pattern's, mm.
const near = 0.003

// coloured is the wardrobe with an ink of its own for every stroke, so that
// drawn lines can be told apart.
func coloured(pieces []printing.Piece) []printing.Piece {
	n := 0
	for i := range pieces {
		for j := range pieces[i].Strokes {
			n++
			pieces[i].Strokes[j].Ink = printing.Ink{R: float64(n%97) / 100, G: float64(n/97) / 100, B: 0.99}
		}
	}
	return pieces
}

// found counts samples of the pattern's lines that should be seen, and those
// for which a line is drawn on the same sheet within near mm.
type found struct{ wanted, seen, sheets int }

func (f found) share() float64 { return float64(f.seen) / float64(f.wanted) }

// compare looks for every line of the plan on every sheet whose window it
// crosses. The pages are mapped back to the pattern here, by margin and window
// alone: no fit that could hide an error of scale.
func compare(plan tile.Plan, pages []readPage) (f found) {
	pages = pages[len(pages)-len(plan.Sheets):]
	f.sheets = len(pages)
	for i, s := range plan.Sheets {
		back := s.Window.Min.Sub(geom.Pt(plan.Setup.Margin, plan.Setup.Margin))
		byInk := map[printing.Ink][]drawn{}
		for _, d := range pages[i].drawn {
			d.path = d.path.Move(back)
			byInk[d.ink] = append(byInk[d.ink], d)
		}
		for _, p := range plan.Pieces {
			for _, st := range p.Piece.Strokes {
				for _, q := range samples(st.Path.Transform(p.At)) {
					if !s.Window.Grow(-0.01).Contains(q) {
						continue
					}
					f.wanted++
					if drawnNear(byInk[st.Ink], q, back) {
						f.seen++
					}
				}
			}
		}
	}
	return f
}

func drawnNear(lines []drawn, q geom.Point, back geom.Vec) bool {
	for _, d := range lines {
		if !d.visible(q.Add(back.Scale(-1)), 0) {
			continue
		}
		for _, c := range d.path {
			if geom.BoxOf(c.P0, c.P1, c.P2, c.P3).Grow(near).Contains(q) {
				if _, dist := c.Nearest(q, 1e-6); dist <= near {
					return true
				}
			}
		}
	}
	return false
}

// samples are points of a line, some 12 mm apart at most.
func samples(p geom.Path) []geom.Point {
	var out []geom.Point
	for _, c := range p {
		n := math.Ceil(c.P0.Dist(c.P3)/12) + 1
		for k := 0.0; k < n; k++ {
			out = append(out, c.At(k/n))
		}
	}
	return out
}

func TestEveryLineIsWhereItBelongs(t *testing.T) {
	cases := map[string]tile.Setup{
		"a4":        setup(t, "A4"),
		"letter":    setup(t, "letter"),
		"landscape": setup(t, "A3"),
		"edges":     setup(t, "A4"),
		"a0":        setup(t, "A0"),
		"roll":      setup(t, "914.4x3000mm"),
	}
	side := cases["landscape"]
	side.Landscape = true
	cases["landscape"] = side
	edges := cases["edges"]
	edges.Overlap, edges.Margin = 0, 6
	cases["edges"] = edges
	for name, s := range cases {
		t.Run(name, func(t *testing.T) {
			plan := planOf(t, coloured(wardrobe(3)), s)
			data := written(t, plan, options())
			f := compare(plan, readPDF(t, data, geom.Identity()))
			if f.wanted < 1000 || f.seen != f.wanted {
				t.Errorf("%d of %d samples found", f.seen, f.wanted)
			}
			// The check must be able to fail: a printer half a per cent out.
			if bad := compare(plan, readPDF(t, data, geom.ScaleXY(0.995, 0.995))); bad.share() > 0.05 {
				t.Errorf("at 99.5 %%, %.0f %% of the samples are still found", 100*bad.share())
			}
		})
	}
}

// A printer that prints 49.6 mm for 50 across comes out right once it is
// corrected: everything is 50/49.6 as wide in the file, and windows narrower.
func TestPrinterCorrection(t *testing.T) {
	s := setup(t, "A4")
	s.Printer = tile.Printer{Across: 50 / 49.6}
	plan := planOf(t, coloured(wardrobe(2)), s)
	// This printer also moves the margin; the shift takes that back.
	narrow := geom.Translate(geom.Vec{X: s.Margin * (1 - 49.6/50)}).Mul(geom.ScaleXY(49.6/50, 1))
	pages := readPDF(t, written(t, plan, options()), narrow)
	if f := compare(plan, pages); f.wanted < 1000 || f.seen != f.wanted {
		t.Errorf("%d of %d samples found", f.seen, f.wanted)
	}
	w := plan.Sheets[0].Window
	if want := 190 * 49.6 / 50; math.Abs(w.Width()-want) > 1e-9 || w.Height() != 277 {
		t.Errorf("window %g x %g mm, want %g x 277", w.Width(), w.Height(), want)
	}
}

// Nothing is drawn in a line's ink that is not on that line.
func TestNoLineIsAddedOrMoved(t *testing.T) {
	plan := planOf(t, coloured(wardrobe(2)), setup(t, "A4"))
	pages := readPDF(t, written(t, plan, options()), geom.Identity())[1:]
	lines := map[printing.Ink]geom.Path{}
	for _, p := range plan.Pieces {
		for _, st := range p.Piece.Strokes {
			lines[st.Ink] = st.Path.Transform(p.At)
		}
	}
	checked := 0
	for i, s := range plan.Sheets {
		back := s.Window.Min.Sub(geom.Pt(plan.Setup.Margin, plan.Setup.Margin))
		for _, d := range pages[i].drawn {
			line, ok := lines[d.ink]
			if !ok {
				continue
			}
			if !d.visible(geom.Pt(100, 100), 0) || d.visible(geom.Pt(5, 100), 0) {
				t.Fatalf("%s: a line is not clipped to the window", s.Name)
			}
			for _, q := range samples(d.path.Move(back)) {
				checked++
				if _, _, dist := line.Nearest(q, 1e-6); dist > near {
					t.Fatalf("%s: a line strays %.4f mm", s.Name, dist)
				}
			}
		}
	}
	if checked < 1000 {
		t.Errorf("only %d points checked", checked)
	}
}

// Dashes run on from sheet to sheet: wherever a broken line is taken up, its
// dashes are where they would be, had it been drawn from its start.
func TestDashesRunOn(t *testing.T) {
	plan := planOf(t, coloured(wardrobe(3)), setup(t, "A4"))
	pages := readPDF(t, written(t, plan, options()), geom.Identity())[1:]
	type known struct {
		m geom.Measured
		printing.Stroke
	}
	lines := map[printing.Ink]known{}
	for _, p := range plan.Pieces {
		for _, st := range p.Piece.Strokes {
			m, err := geom.Measure(st.Path.Transform(p.At), 1e-6)
			if err != nil {
				t.Fatal(err)
			}
			lines[st.Ink] = known{m, st}
		}
	}
	taken := 0
	for i, s := range plan.Sheets {
		back := s.Window.Min.Sub(geom.Pt(plan.Setup.Margin, plan.Setup.Margin))
		for _, d := range pages[i].drawn {
			l, ok := lines[d.ink]
			if !ok || len(l.Dash) == 0 {
				continue
			}
			period := 0.0
			for k, want := range l.Dash {
				period += want
				if math.Abs(d.dash[k]-want) > 1e-4 {
					t.Fatalf("%s: dashes %v, want %v", s.Name, d.dash, l.Dash)
				}
			}
			along, _, err := l.m.Path().NearestS(d.path.Start().Add(back), 1e-6)
			if err != nil {
				t.Fatal(err)
			}
			if along > l.m.Length()-0.01 {
				along = 0 // a closed line starts where it ends
			}
			if along > 1 && along < l.m.Length()-1 {
				taken++
			}
			if off := math.Remainder(along-d.phase, period); math.Abs(off) > 0.02 {
				t.Errorf("%s: dashes are %.3f mm off after %.1f mm", s.Name, off, along)
			}
		}
	}
	if taken < 50 {
		t.Errorf("only %d broken lines are taken up midway", taken)
	}
}
