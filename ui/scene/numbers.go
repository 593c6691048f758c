package scene

import (
	"math"
	"slices"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// sizeNumbers writes each printed size on its line, along the edge where the
// nest lies widest, one further on than the other so that none covers another.
func (l *Layer) sizeNumbers(in Input, q model.Piece, m geom.Affine) {
	n := len(q.Nest)
	k, gap := widestEdge(q, in.px(20*float64(n)))
	if k < 0 {
		return // too small to be read
	}
	step := in.px(18) / reach(q.Nest[0].Edges[k])
	if gap/float64(n) > in.px(26) {
		step = 0 // wide enough apart to stand side by side
	}
	for _, middle := range [...]float64{0.62, 0.4, 0.78, 0.25} {
		var numbers []Text
		var box geom.Box
		for i, o := range q.Nest {
			share := middle + (float64(i)-float64(n-1)/2)*step
			at, _ := along(o.Edges[k].Transform(m), min(max(share, 0.08), 0.92))
			t := Text{Words: o.Label(), At: at, Size: 12, Bold: i == n-1, Ink: NestInk(i, n), Halo: in.ground()}
			numbers, box = append(numbers, t), box.Union(in.wordsBox(t))
		}
		var said []Text
		for _, o := range l.Texts {
			if meets(box, in.wordsBox(o)) {
				said = append(said, o)
			}
		}
		if !slices.ContainsFunc(numbers, func(t Text) bool { return in.covers(t, said) }) { // else they would be read as part of what is written there
			l.Texts = append(l.Texts, numbers...)
			return
		}
	}
}

// covers reports whether a text would lie on one of others.
func (in Input) covers(t Text, others []Text) bool {
	box := in.wordsBox(t)
	for _, o := range others {
		if meets(box, in.wordsBox(o)) {
			return true
		}
	}
	return false
}

// meets reports whether a and b share more than a side.
func meets(a, b geom.Box) bool {
	under := overlap(a, b)
	return under.Min.X < under.Max.X && under.Min.Y < under.Max.Y
}

// widestEdge is the edge, at least long mm from end to end, between whose
// middles the smallest and the largest printed size lie farthest apart, and that
// distance in mm; folds do not count. It is -1 for none.
func widestEdge(q model.Piece, long float64) (int, float64) {
	best, widest := -1, -1.0
	if len(q.Nest) == 0 {
		return best, 0
	}
	small, large := q.Nest[0], q.Nest[len(q.Nest)-1]
	for k, e := range q.Edges {
		if !shapeable(e) || !(reach(small.Edges[k]) >= long) {
			continue
		}
		a, d := along(small.Edges[k], 0.62)
		b, _ := along(large.Edges[k], 0.62)
		if gap := math.Abs(b.Sub(a).Cross(d)); gap > widest {
			best, widest = k, gap
		}
	}
	return best, widest
}

// reach is how far the ends of an edge lie apart, in mm.
func reach(p geom.Path) float64 { return p.Start().Dist(p.End()) }

// obstacles are the lines and darts that words on piece q keep clear of, on the
// Table.
func (in Input) obstacles(q model.Piece) [][]geom.Point {
	m := in.place(q)
	var out [][]geom.Point
	for _, l := range q.Lines {
		if n := len(l.Drawn); n > 0 {
			out = append(out, l.Drawn[n-1].Path.Transform(m).Flatten(2))
		}
	}
	if n := len(q.Nest); n > 0 {
		for _, d := range q.Darts {
			if legs := printedDart(q, q.Nest[n-1], d); legs != nil {
				out = append(out, legs.Transform(m).Flatten(2))
			}
		}
	}
	return out
}

// roomiest is the place inside the outline farthest from it and from the
// obstacles, and how far in mm, found on a grid made finer three times: good
// for placing words.
func roomiest(outline geom.Path, obstacles [][]geom.Point) (geom.Point, float64) {
	box := outline.Bounds()
	pts := outline.Flatten(2)
	best, room := box.Centre(), 0.0
	span := geom.Vec{X: box.Width() / 2, Y: box.Height() / 2}
	middle := best
	for range 3 {
		const n = 4
		for i := -n; i <= n; i++ {
			for j := -n; j <= n; j++ {
				p := middle.Add(geom.Vec{X: span.X * float64(i) / n, Y: span.Y * float64(j) / n})
				d, in := clearance(p, pts)
				if !in || d <= room {
					continue
				}
				for _, o := range obstacles {
					aside, _ := clearance(p, o)
					d = min(d, aside)
				}
				if d > room {
					best, room = p, d
				}
			}
		}
		middle, span = best, span.Scale(1.0/n)
	}
	return best, room
}

// clearance is how far p lies from the polygon's line, in mm, and whether it
// lies inside, should the polygon be closed.
func clearance(p geom.Point, pts []geom.Point) (float64, bool) {
	in, near := false, math.Inf(1)
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		if (a.Y > p.Y) != (b.Y > p.Y) && a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) > p.X {
			in = !in
		}
		ab, ap := b.Sub(a), p.Sub(a)
		t := 0.0
		if l2 := ab.Dot(ab); l2 > 0 {
			t = min(max(ap.Dot(ab)/l2, 0), 1)
		}
		d := ap.Sub(ab.Scale(t))
		near = min(near, d.Dot(d))
	}
	return math.Sqrt(near), in
}
