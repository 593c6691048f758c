package pdf_test

import (
	"math"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/printing/proof"
	"quarterstep/printing/tile"
)

// chained is how well pages hold together that are glued by their marks alone.
type chained struct {
	wanted, found int     // marks
	worst         float64 // mm a page's corner lies from where the plan wants it
}

// assemble finds the cross-hairs of all buttons in pictures of the pages and
// glues each page to those before it by them, turned and shifted but never
// stretched: a fit that stretched would hide an error of scale. Where about a
// mark lies is known from the plan, as the eye knows it; size is what the
// printer makes of a mm.
func assemble(t *testing.T, plan tile.Plan, pages []proof.Picture, size float64) (c chained) {
	t.Helper()
	marks := make([]map[geom.Point]geom.Point, len(plan.Sheets)) // by place in the layout: on the page
	for i, s := range plan.Sheets {
		marks[i] = map[geom.Point]geom.Point{}
		m := plan.OnPage(s)
		for _, b := range s.Buttons {
			c.wanted++
			if at, ok := pages[i].Crosshair(m.Apply(b.At), 0.5, 1.5*b.R-0.15); ok {
				c.found++
				marks[i][rounded(b.At)] = geom.Pt(at.X*size, at.Y*size)
			}
		}
	}
	for i, m := range gluedTogether(plan, marks) {
		to := plan.OnPage(plan.Sheets[i])
		own := plan.Sheets[i].Own
		for _, q := range []geom.Point{own.Min, own.Max, geom.Pt(own.Min.X, own.Max.Y), geom.Pt(own.Max.X, own.Min.Y)} {
			on := to.Apply(q)
			c.worst = math.Max(c.worst, m.Apply(geom.Pt(on.X*size, on.Y*size)).Dist(q))
		}
	}
	return c
}

// gluedTogether glues the pages, the first where it belongs, then always the one
// that the pages already glued hold best: whose marks in common with them lie
// furthest apart. It takes each page to the layout. Pages that share no join
// with the others begin a part of their own.
func gluedTogether(plan tile.Plan, marks []map[geom.Point]geom.Point) []geom.Affine {
	place := make([]geom.Affine, len(marks))
	done := make([]bool, len(marks))
	for range marks {
		next, hold := -1, 0.0
		var bestFrom, bestTo []geom.Point
		for i := range marks {
			if done[i] {
				continue
			}
			from, to := inCommon(i, marks, place, done)
			if h := spread(from); next < 0 || h > hold {
				next, hold, bestFrom, bestTo = i, h, from, to
			}
		}
		if done[next] = true; hold < 50 {
			place[next], _ = plan.OnPage(plan.Sheets[next]).Inverse()
		} else {
			place[next] = rigidFit(bestFrom, bestTo)
		}
	}
	return place
}

// inCommon is the marks of page i that glued pages have, too: on the page, and
// where they lie.
func inCommon(i int, marks []map[geom.Point]geom.Point, place []geom.Affine, done []bool) (from, to []geom.Point) {
	for at, on := range marks[i] {
		for j := range marks {
			if other, ok := marks[j][at]; ok && done[j] {
				from, to = append(from, on), append(to, place[j].Apply(other))
			}
		}
	}
	return from, to
}

// spread is the root of the summed squares of the points' distances from their
// middle, mm.
func spread(pts []geom.Point) float64 {
	var sum geom.Vec
	for _, p := range pts {
		sum = sum.Add(p.Sub(geom.Point{}))
	}
	total := 0.0
	for _, p := range pts {
		d := p.Sub(geom.Point{}).Add(sum.Scale(-1 / float64(len(pts))))
		total += d.Dot(d)
	}
	return math.Sqrt(total)
}

// rigidFit is the turn and shift that brings the points nearest to their
// partners (least squares; the closed form in the plane, common textbook
// knowledge).
func rigidFit(from, to []geom.Point) geom.Affine {
	mean := func(pts []geom.Point) geom.Vec {
		var sum geom.Vec
		for _, p := range pts {
			sum = sum.Add(p.Sub(geom.Point{}))
		}
		return sum.Scale(1 / float64(len(pts)))
	}
	a, b := mean(from), mean(to)
	sin, cos := 0.0, 0.0
	for i := range from {
		u, v := from[i].Sub(geom.Point{}).Add(a.Scale(-1)), to[i].Sub(geom.Point{}).Add(b.Scale(-1))
		cos += u.Dot(v)
		sin += u.Cross(v)
	}
	return geom.Translate(b).Mul(geom.Rotate(math.Atan2(sin, cos))).Mul(geom.Translate(a.Scale(-1)))
}

// Pages rendered by three outside programs and glued by their joining buttons
// alone, page after page, hold together within 0.10 mm; printed at 99.5 % they
// do not.
func TestRenderedPagesAreGluedByTheirButtons(t *testing.T) {
	for _, name := range []string{"A4", "letter"} {
		s := setup(t, name)
		plan := planOf(t, wardrobe(1), s)
		o := options()
		o.Pages = plan.PageNames()[1:]
		data := written(t, plan, o)
		for _, r := range proof.Renderers() {
			pages := r.Pages(t, data, 600)
			if len(pages) != len(plan.Sheets) {
				t.Fatalf("%s: %d pages of %d", r.Name, len(pages), len(plan.Sheets))
			}
			c := assemble(t, plan, pages, 1)
			t.Logf("%s, %s: %d pages, %d of %d marks found, %.3f mm at worst", name, r.Name, len(pages), c.found, c.wanted, c.worst)
			if c.found != c.wanted || c.worst > 0.10 {
				t.Errorf("%s, %s: %d of %d marks found, %.3f mm at worst", name, r.Name, c.found, c.wanted, c.worst)
			}
			if c := assemble(t, plan, pages, 0.995); c.worst < 0.5 {
				t.Errorf("%s, %s: at 99.5 %% the pages still hold together within %.3f mm", name, r.Name, c.worst)
			}
		}
	}
}

func rounded(p geom.Point) geom.Point {
	return geom.Pt(math.Round(p.X*10)/10, math.Round(p.Y*10)/10)
}
