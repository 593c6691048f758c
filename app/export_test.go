package app

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/exchange"
	"quarterstep/model/geom"
)

// The drawing handed on, read back: every line of every size within 0.003 mm
// of the graded one where it lies on the Table, with its notches and darts.
func TestDrawingsReadBack(t *testing.T) {
	for _, p := range demos(t) {
		sizes := chartSizes(p, 3)
		var b bytes.Buffer
		if err := Export(&b, p, PrintChoice{Sizes: sizes, Marks: true}, "svg"); err != nil {
			t.Fatal(err)
		}
		sheet, err := exchange.ReadSVG(bytes.NewReader(b.Bytes()), p.Chart)
		if err != nil || len(sheet.Warnings) > 0 || len(sheet.Pieces) != len(p.Pieces) {
			t.Fatalf("%d pieces of %d, %v, %v", len(sheet.Pieces), len(p.Pieces), sheet.Warnings, err)
		}
		var g grading.Grader
		results, err := g.GradeSizes(p, sizes)
		if err != nil {
			t.Fatal(err)
		}
		corner := corner(t, p, results)
		for i, q := range sheet.Pieces {
			if q.Name != p.Pieces[i].Name || len(q.Outlines) != len(sizes) {
				t.Fatalf("%s comes back as %s in %d sizes", p.Pieces[i].Name, q.Name, len(q.Outlines))
			}
			kinds := map[string]int{}
			for _, l := range q.Lines {
				kinds[string(l.Kind)]++
			}
			want := map[string]int{}
			for k, r := range results {
				was := r.Pieces[i].Outline().Move(p.Pieces[i].At).Move(corner).Controls()
				is := q.Outlines[k].Ring.Controls()
				if len(was) != len(is) || q.Outlines[k].Size != sizes[k] {
					t.Fatalf("%s: size %s, %d points of %d", q.Name, q.Outlines[k].Size, len(is), len(was))
				}
				for n := range was {
					if d := was[n].Dist(is[n]); d > 0.003 {
						t.Errorf("%s, size %s: %.4f mm off", q.Name, sizes[k], d)
					}
				}
				for _, n := range r.Pieces[i].Notches {
					want["notch"] += len(notchLines(n))
				}
				want["dart"] += len(r.Pieces[i].Darts)
				for _, l := range r.Pieces[i].Lines {
					if l.Kind == model.DartLine {
						want["dart"]++
					}
				}
			}
			for kind, n := range want {
				if kinds[kind] != n {
					t.Errorf("%s: %d lines of kind %s, want %d", q.Name, kinds[kind], kind, n)
				}
			}
		}
	}
}

// corner is how the page's corner moves what lies left of it or above.
func corner(t *testing.T, p model.Pattern, results []grading.Result) geom.Vec {
	t.Helper()
	const free = 20 // mm the writer leaves round a drawing
	var all geom.Box
	for _, r := range results {
		for i, q := range r.Pieces {
			all = all.Union(q.Outline().Move(p.Pieces[i].At).Bounds())
		}
	}
	var out geom.Vec
	if all.Min.X < 0 {
		out.X = free - all.Min.X
	}
	if all.Min.Y < 0 {
		out.Y = free - all.Min.Y
	}
	return out
}

// The table of measures: the girths that the checks measure, ease the garment
// less the body, and edges as long as their stitching line.
func TestMeasuresExported(t *testing.T) {
	for _, p := range demos(t) {
		per := 10.0
		if p.Unit == model.Inches {
			per = 25.4 // mm, exactly
		}
		var b bytes.Buffer
		if err := Export(&b, p, PrintChoice{}, "measures"); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&b).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		if want := fmt.Sprintf("place,size,from,body %[1]s,body by,garment %[1]s,ease %[1]s", p.Unit); strings.Join(rows[0], ",") != want {
			t.Errorf("the heading is %v", rows[0])
		}
		r, err := Grade(p)
		if err != nil {
			t.Fatal(err)
		}
		table, err := GirthsOf(p, r)
		if err != nil {
			t.Fatal(err)
		}
		met, edges := 0, 0
		for _, row := range rows[1:] {
			mm := func(i int) float64 {
				v, err := strconv.ParseFloat(row[i], 64)
				if err != nil {
					t.Fatal(row, err)
				}
				return v * per
			}
			if !strings.Contains(row[0], ", ") {
				if d := mm(5) - mm(3) - mm(6); math.Abs(d) > 0.01 {
					t.Errorf("%v: ease is %.3f mm off", row, d)
				}
				for _, g := range table.Rows {
					if row[2] == "graded" && row[0] == string(g.Measure) {
						met++
						if d := mm(5) - g.Target.Finished; math.Abs(d) > 0.01 {
							t.Errorf("%v: the garment is %.3f mm off", row, d)
						}
					}
				}
				continue
			}
			edges++
			if row[3] != "" || row[6] != "" || mm(5) <= 0 {
				t.Errorf("an edge: %v", row)
			}
		}
		n := 0
		for _, q := range p.Pieces {
			n += len(q.Edges)
		}
		if met != len(table.Rows) || met == 0 || edges != n {
			t.Errorf("%s: %d girths of %d, %d edges of %d", p.Name, met, len(table.Rows), edges, n)
		}
	}
}

// The edges of the table are as long as the seams they are sewn in, as the
// check of seams measures those another way, within a tenth of a millimetre.
func TestMeasuresOfEdgesAgreeWithSeams(t *testing.T) {
	for _, p := range demos(t) {
		r, err := Grade(p)
		if err != nil {
			t.Fatal(err)
		}
		long := func(s model.Stretch) float64 {
			sum := 0.0
			i := p.PieceIndex(s.Piece)
			rows, err := edgeLengths(p.Pieces[i], r.Pieces[i], r.Size)
			if err != nil {
				t.Fatal(err)
			}
			for _, id := range s.Edges {
				sum += rows[p.Pieces[i].EdgeIndex(id)].Garment.MM
			}
			return sum
		}
		met := 0
		for _, seam := range r.Seams {
			for _, l := range p.Links {
				if l.ID != seam.Link {
					continue
				}
				met++
				lead := 0.0
				for _, s := range l.Leads() {
					lead += long(s)
				}
				if d := math.Max(math.Abs(lead-seam.Lead), math.Abs(long(l.Follow)-seam.Follow)); d > 0.1 {
					t.Errorf("%s, %s: %.3f mm off (%.2f, %.2f)", p.Name, l.ID, d, lead, long(l.Follow))
				}
			}
		}
		if met == 0 {
			t.Errorf("%s has no seam to compare", p.Name)
		}
	}
}

// The drawing for machines that cut, read back by the project's reader: each
// size's line within 0.003 mm of where the pages would have it.
func TestLaidDrawingsReadBack(t *testing.T) {
	for _, p := range demos(t) {
		setup, err := PrintSetup("roll 914 mm", "", "")
		if err != nil {
			t.Fatal(err)
		}
		for _, sizes := range [][]string{nil, chartSizes(p, 3)} {
			job, err := Plan(p, PrintChoice{Sizes: sizes, Marks: true, Stitching: true}, setup)
			if err != nil {
				t.Fatal(err)
			}
			var b bytes.Buffer
			if err := job.WriteSVG(&b); err != nil {
				t.Fatal(err)
			}
			sheet, err := exchange.ReadSVG(bytes.NewReader(b.Bytes()), p.Chart)
			if err != nil || len(sheet.Pieces) != len(p.Pieces) {
				t.Fatalf("%d pieces of %d, %v", len(sheet.Pieces), len(p.Pieces), err)
			}
			var ink geom.Box
			for _, q := range job.Plan.Pieces {
				for _, s := range q.Piece.Strokes {
					ink = ink.Union(s.Path.Transform(q.At).Bounds())
				}
			}
			const border = 5 // mm the writer leaves round a drawing
			corner := geom.Vec{X: border - ink.Min.X, Y: border - ink.Min.Y}
			for _, q := range sheet.Pieces {
				k := slices.IndexFunc(p.Pieces, func(o model.Piece) bool { return o.Name == q.Name })
				if k < 0 || len(q.Outlines) != max(1, len(sizes)) {
					t.Fatalf("%q comes back in %d sizes", q.Name, len(q.Outlines))
				}
				n := 0
				for _, s := range job.Plan.Pieces[k].Piece.Strokes {
					if !s.Cut {
						continue
					}
					was, is := s.Path.Transform(job.Plan.Pieces[k].At).Move(corner).Controls(), q.Outlines[n].Ring.Controls()
					n++
					if len(was) != len(is) {
						t.Fatalf("%s: %d points of %d", q.Name, len(is), len(was))
					}
					for i := range was {
						if d := was[i].Dist(is[i]); d > 0.003 {
							t.Errorf("%s: %.4f mm off", q.Name, d)
							break
						}
					}
				}
			}
		}
	}
}
