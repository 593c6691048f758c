package follow

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// onGuide is how far in mm from a traced line its ink lies at most.
const onGuide = 0.55

// guide is what the edges traced already say about where a line runs.
type guide struct {
	lines  [][]geom.Point // traced, from corner to corner
	course []geom.Point   // where the line is expected, at even steps
}

// leastPrinted is the share of a course that must be printed for it to be
// believed.
const leastPrinted = 0.3

// along is what was seen of the line between two places on a guide's course,
// or on any way where next to nothing is printed along the course.
func (f *Field) along(g *guide, from, to geom.Point) ([]geom.Point, []Doubt, error) {
	taken := g.lines
	if g.distTo(from) < onGuide && g.distTo(to) < onGuide {
		taken = nil // the edge is the same in both sizes
	}
	s := newStrip(f.web, g.course, g.away(), taken)
	l, other := s.best(s.ranks(s.asideOf(g.lines[0])))
	if l.printed() < leastPrinted {
		pts, doubts, err := f.treeFrom(from, noSide).wayTo(to)
		if err != nil {
			return nil, nil, err
		}
		return pts, append(doubts, Doubt{At: pts[len(pts)/2], Say: words.T("No printed line runs here as the traced size does.")}), nil
	}
	return l.points(from, to), l.doubts(other), nil
}

// away is how far in mm the course lies from the nearest traced line at most.
func (g *guide) away() float64 {
	var most float64
	for k, p := range g.course {
		most = max(most, p.Dist(g.lines[0][k]))
	}
	return most
}

// distTo is the distance in mm from p to the nearest traced line.
func (g *guide) distTo(p geom.Point) float64 {
	least := math.Inf(1)
	for _, line := range g.lines {
		_, d := nearestOf(line, p)
		least = min(least, d)
	}
	return least
}

// nearestOf is the point of the line nearest to p, and the distance of the
// line there. It jumps over points that cannot be nearer.
func nearestOf(line []geom.Point, p geom.Point) (k int, dist float64) {
	best := math.Inf(1)
	for i := 0; i < len(line); {
		d := p.Dist(line[i])
		if d < best {
			best, k = d, i
		}
		i += max(1, int((d-best)/4)) // points are a few mm apart at most
	}
	lo, hi := line[max(k-1, 0)], line[min(k+1, len(line)-1)]
	return k, min(segmentDist(lo, line[k], p), segmentDist(line[k], hi, p))
}

func segmentDist(a, b, p geom.Point) float64 {
	v := b.Sub(a)
	l := v.Dot(v)
	if l == 0 {
		return p.Dist(a)
	}
	return p.Dist(a.Lerp(b, min(max(p.Sub(a).Dot(v)/l, 0), 1)))
}

// dense is points along p about step mm apart.
func dense(p geom.Path, step float64) []geom.Point {
	out := []geom.Point{p.Start()}
	for _, c := range p {
		hull := c.P0.Dist(c.P1) + c.P1.Dist(c.P2) + c.P2.Dist(c.P3)
		n := max(1, int(math.Ceil(hull/step)))
		for k := 1; k <= n; k++ {
			out = append(out, c.At(float64(k)/float64(n)))
		}
	}
	return out
}
