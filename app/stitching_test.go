package app

import (
	"math"
	"strings"
	"testing"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// A box of 200 x 100 mm less 10, 15, 20 and 25 mm is a box of 165 x 70 mm: a
// closed form.
func TestStitchingLineOfABox(t *testing.T) {
	q := boxPiece(0, 0, 200, 100)
	q.Name = "Pocket"
	for i, a := range []float64{10, 15, 20, 25} { // top, right, bottom, left
		q.Edges = append(q.Edges, model.Edge{ID: string(rune('a' + i)), Allowance: a})
	}
	sewn, err := StitchingLine(q, grading.Piece{Edges: q.Nest[0].Edges})
	if err != nil {
		t.Fatal(err)
	}
	corners := []geom.Point{geom.Pt(25, 10), geom.Pt(185, 10), geom.Pt(185, 80), geom.Pt(25, 80)}
	for i, want := range corners {
		if got := sewn[i].Start(); got.Dist(want) > 1e-6 {
			t.Errorf("corner %d at %v, want %v", i+1, got, want)
		}
	}
	for i := range q.Edges {
		q.Edges[i].Allowance = 60
	}
	if _, err := StitchingLine(q, grading.Piece{Edges: q.Nest[0].Edges}); err == nil || !strings.Contains(err.Error(), "Pocket") {
		t.Errorf("too narrow for its allowances: %v", err)
	}
}

// Every place of a stitching line away from corners lies its allowance inside
// the cutting line, measured square to it; an edge without one is sewn on its
// own line. This is what a parallel line is.
func TestStitchingLineLiesItsAllowanceInside(t *testing.T) {
	const tol = 0.01
	for _, p := range demos(t) {
		for _, size := range []int{0, 3, 9} {
			p.Target.Place = float64(size)
			r, err := Grade(p)
			if err != nil {
				t.Fatal(err)
			}
			for i, q := range r.Pieces {
				sewn, err := StitchingLine(p.Pieces[i], q)
				if err != nil {
					t.Fatal(err)
				}
				whole := q.Outline()
				for j, e := range sewn {
					name := q.Name + ", " + p.Pieces[i].Edges[j].Name + ", size " + r.Size
					allowance := p.Pieces[i].Edges[j].Allowance
					m, err := geom.Measure(e, 1e-3)
					if err != nil {
						t.Fatal(err)
					}
					looked := 0
					for k := 1; k < 40; k++ {
						at := m.At(m.Length() * float64(k) / 40)
						c, u, d := q.Edges[j].Nearest(at, 1e-5)
						if c == 0 && u < 1e-6 || c == len(q.Edges[j])-1 && u > 1-1e-6 {
							continue // the corner is nearest
						}
						looked++
						if math.Abs(d-allowance) > tol {
							t.Errorf("%s: %.4f mm inside, want %g", name, d, allowance)
						}
						if allowance > 0 && !whole.Contains(at, 1e-3) {
							t.Errorf("%s: %v lies outside the piece", name, at)
						}
					}
					if looked < 10 {
						t.Errorf("%s: only %d places looked at", name, looked)
					}
				}
			}
		}
	}
}
