package follow

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// straightEdge is the straight line between two corners, with a doubt where
// hardly anything is printed along it.
func (f *Field) straightEdge(from, to geom.Point) Edge {
	e := Edge{Path: geom.Path{geom.Line(from, to)}, Points: []geom.Point{from, to}}
	white, widest := f.web.whiteAlong(from, to)
	if length := from.Dist(to); white > 0.7*length {
		e.Doubts = append(e.Doubts, Doubt{
			At:  widest,
			Say: words.F("Only %.0f %% of this straight edge is printed.", 100*(1-white/length)),
		})
	}
	return e
}

// shortEdge is the longest edge in mm, such as a dart's cap, that is tried as
// a straight line beside the search.
const shortEdge = 40.0

// straightAcross is the cost of the straight line between two points, infinite
// where it is long or runs over white paper.
func (w *web) straightAcross(a, b geom.Point) float64 {
	length := a.Dist(b)
	if length > shortEdge {
		return math.Inf(1)
	}
	white, _ := w.whiteAlong(a, b)
	if length > gapFree && white > 0.6*length {
		return math.Inf(1)
	}
	return perMM*length + 3*perGap*white + 0.2
}

// whiteAlong is how many mm of the straight line from a to b have no ink under
// them that runs the same way, and the middle of the widest gap.
func (w *web) whiteAlong(a, b geom.Point) (white float64, widest geom.Point) {
	const step, beside, askew = 0.4, 0.45, 0.35
	v := b.Sub(a)
	dir := math.Atan2(v.Y, v.X)
	n := max(1, int(math.Ceil(v.Len()/step)))
	var gap, most float64
	for i := range n {
		p := a.Lerp(b, (float64(i)+0.5)/float64(n))
		inked := false
		w.grid.near(p, beside, func(j int32) {
			d := &w.dashes[j]
			if inked || (!d.dot && math.Abs(turn(along(d.dir, dir), dir)) > askew) {
				return
			}
			_, _, dist := d.nearest(p)
			inked = dist <= beside
		})
		if inked {
			gap = 0
			continue
		}
		white += v.Len() / float64(n)
		gap += v.Len() / float64(n)
		if gap > most {
			most, widest = gap, p
		}
	}
	return white, widest
}
