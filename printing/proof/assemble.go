package proof

import (
	"math"

	"quarterstep/model/geom"
	"quarterstep/printing/tile"
)

// Chained is how well pages hold together that are glued by their marks alone.
type Chained struct {
	Wanted, Found int     // marks
	Worst         float64 // mm a page's corner lies from where the plan wants it
}

// Assemble finds the cross-hairs of all buttons in pictures of the pages and
// glues each page to those before it by them, turned and shifted but never
// stretched: a fit that stretched would hide an error of scale. Where about a
// mark lies is known from the plan, as the eye knows it; size is what the
// printer makes of a mm.
func Assemble(plan tile.Plan, pages []Picture, size float64) (c Chained) {
	marks := make([]map[geom.Point]geom.Point, len(plan.Sheets)) // by place in the layout: on the page
	for i, s := range plan.Sheets {
		marks[i] = map[geom.Point]geom.Point{}
		m := plan.OnPage(s)
		for _, b := range s.Buttons {
			c.Wanted++
			if at, ok := pages[i].Crosshair(m.Apply(b.At), 0.5, 1.5*b.R-0.15); ok {
				c.Found++
				marks[i][toTenths(b.At)] = geom.Pt(at.X*size, at.Y*size)
			}
		}
	}
	for i, m := range gluedTogether(plan, marks) {
		to := plan.OnPage(plan.Sheets[i])
		own := plan.Sheets[i].Own
		for _, q := range []geom.Point{own.Min, own.Max, geom.Pt(own.Min.X, own.Max.Y), geom.Pt(own.Max.X, own.Min.Y)} {
			on := to.Apply(q)
			c.Worst = math.Max(c.Worst, m.Apply(geom.Pt(on.X*size, on.Y*size)).Dist(q))
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

// toTenths is p to a tenth of a millimetre, by which marks are told apart.
func toTenths(p geom.Point) geom.Point {
	return geom.Pt(math.Round(p.X*10)/10, math.Round(p.Y*10)/10)
}
