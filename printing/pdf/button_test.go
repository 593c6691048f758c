package pdf_test

import (
	"math"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/printing/tile"
)

// rims finds the rims and grooves of the joining buttons on a page (the bank
// card has as many parts, but nothing cut off): by centre, the quarters
// in which each is printed.
func rims(p readPage) map[geom.Point][]geom.Box {
	out := map[geom.Point][]geom.Box{}
	for _, d := range p.drawn {
		if d.op == "S" && len(d.path) == 8 && d.closed && len(d.clips) > 0 {
			out[d.origin] = d.clips[len(d.clips)-1]
		}
	}
	return out
}

// Pages glued by nothing but their buttons, each to the page before, come to
// lie where the pattern wants them; and each button then is whole, its parts
// side by side and none printed twice.
func TestButtonsBringThePagesTogether(t *testing.T) {
	for _, name := range []string{"A4", "letter", "A2"} {
		s := setup(t, name)
		plan := planOf(t, wardrobe(1), s)
		if len(plan.Sheets) < 3 {
			t.Fatalf("%s: only %d sheets", name, len(plan.Sheets))
		}
		pages := readPDF(t, written(t, plan, options()), geom.Identity())
		pages = pages[len(pages)-len(plan.Sheets):] // without the cover
		place := glue(t, plan, pages)
		first := plan.Sheets[0].Window.Min
		area := map[[2]int]float64{}
		seen := map[[2]int]int{}
		for i, sh := range plan.Sheets {
			want := sh.Window.Min.Sub(first)
			if off := place[i].Sub(want).Len(); off > near {
				t.Errorf("%s %s: glued %.4f mm out of place", name, sh.Name, off)
			}
			for at, parts := range rims(pages[i]) {
				q := at.Add(place[i])
				key := [2]int{int(math.Round(q.X * 10)), int(math.Round(q.Y * 10))}
				seen[key]++
				here := 0.0
				for _, b := range parts {
					here += b.Width() * b.Height()
				}
				// A quarter is a square of side R + 0.5 mm.
				if r := math.Sqrt(parts[0].Width() * parts[0].Height()); here > 3.1*r*r {
					t.Errorf("%s %s: a button is whole on one page", name, sh.Name)
				} else {
					area[key] += here / (r * r)
				}
			}
		}
		for key, a := range area {
			if math.Abs(a-4) > 1e-3 || seen[key] < 2 {
				t.Errorf("%s: the button at %v has %.2f quarters on %d pages", name, key, a, seen[key])
			}
		}
	}
}

// glue shifts every page so that its buttons fall on those of a page glued
// before.
func glue(t *testing.T, plan tile.Plan, pages []readPage) []geom.Vec {
	t.Helper()
	place := make([]geom.Vec, len(pages))
	glued := []int{0}
	for done := map[int]bool{0: true}; len(glued) < len(pages); {
		before := len(glued)
		for i := range pages {
			for _, j := range glued {
				if done[i] || !beside(plan.Sheets[i], plan.Sheets[j]) {
					continue
				}
				if shift, ok := matched(pages[i], pages[j], plan, i, j); ok {
					place[i] = place[j].Add(shift)
					done[i] = true
					glued = append(glued, i)
				}
			}
		}
		if len(glued) == before {
			t.Fatal("some pages have no button in common with the others")
		}
	}
	return place
}

func beside(a, b tile.Sheet) bool {
	return max(a.Row-b.Row, b.Row-a.Row)+max(a.Col-b.Col, b.Col-a.Col) == 1
}

// matched is the shift that brings the buttons of page i on the join with page
// j onto those of page j: the mean over the pairs. About where to look is known
// from the plan to a millimetre, as the eye does.
func matched(a, b readPage, plan tile.Plan, i, j int) (geom.Vec, bool) {
	about := plan.Sheets[i].Window.Min.Sub(plan.Sheets[j].Window.Min)
	var sum geom.Vec
	n := 0.0
	for p := range rims(a) {
		for q := range rims(b) {
			if d := q.Sub(p); d.Sub(about).Len() < 1 {
				sum = sum.Add(d)
				n++
			}
		}
	}
	return sum.Scale(1 / math.Max(n, 1)), n > 0
}
