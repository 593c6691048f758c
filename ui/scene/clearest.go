package scene

import (
	"math"

	"quarterstep/model/geom"
)

// clearest is the place inside the outline where a label of w by h mm covers
// least of the lines and words that lie there already, and of those the one
// nearest the middle; false where the label does not fit in. It looks at a grid
// of places over the piece.
func (in Input) clearest(outline geom.Path, lines [][]geom.Point, said []Text, w, h float64) (geom.Point, bool) {
	const n = 12
	edge := outline.Flatten(2)
	words := make([]geom.Box, len(said))
	for i, t := range said {
		words[i] = in.wordsBox(t)
	}
	box := outline.Bounds()
	best, least := box.Centre(), math.Inf(1)
	for i := 1; i < 2*n; i++ {
		for j := 1; j < 2*n; j++ {
			at := geom.Pt(box.Min.X+box.Width()*float64(i)/(2*n), box.Min.Y+box.Height()*float64(j)/(2*n))
			half := geom.Vec{X: w / 2, Y: h / 2}
			label := geom.Box{Min: at.Add(half.Scale(-1)), Max: at.Add(half)}
			if label.Min.X < box.Min.X || label.Max.X > box.Max.X || label.Min.Y < box.Min.Y || label.Max.Y > box.Max.Y {
				continue
			}
			cost := at.Dist(box.Centre()) / 20
			for _, l := range lines {
				cost += lengthWithin(l, label)
			}
			for _, b := range words {
				under := overlap(b, label)
				cost += 2 * under.Width() * under.Height() / in.px(labelLead)
			}
			if cost >= least || lengthWithin(edge, label) > 0 {
				continue
			}
			if _, inside := clearance(at, edge); inside {
				best, least = at, cost
			}
		}
	}
	return best, !math.IsInf(least, 1)
}

// lengthWithin is how long a chain of chords runs inside a box, by cutting each
// chord at the box's sides (Liang and Barsky 1984).
func lengthWithin(pts []geom.Point, b geom.Box) float64 {
	var sum float64
	for i := 1; i < len(pts); i++ {
		p, d := pts[i-1], pts[i].Sub(pts[i-1])
		from, to := 0.0, 1.0
		for _, side := range [4][2]float64{
			{-d.X, p.X - b.Min.X}, {d.X, b.Max.X - p.X}, {-d.Y, p.Y - b.Min.Y}, {d.Y, b.Max.Y - p.Y},
		} {
			switch q := side[1] / side[0]; {
			case side[0] < 0:
				from = max(from, q)
			case side[0] > 0:
				to = min(to, q)
			case side[1] < 0:
				to = -1
			}
		}
		if to > from {
			sum += (to - from) * d.Len()
		}
	}
	return sum
}
