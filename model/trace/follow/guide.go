package follow

import (
	"math"

	"quarterstep/model/geom"
)

// guide is what the edges traced already say about where a line runs: beside
// them, not across and not along them.
type guide struct {
	lines [][]geom.Point
	beside
	onLine bool // both ends of the wanted edge lie on a traced line
}

// beside is how each dash lies to the traced line nearest to it.
type beside struct {
	tilt []float64 // direction of the traced line there
	dist []float64 // mm from it; infinite beyond guideReach
}

const (
	guideReach = 30.0 // mm: how far from a traced line it still tells
	onGuide    = 0.55 // mm: a dash not further from a traced line is its ink
	leaning    = 1.5  // cost of a mm of way at right angles to the traced line
	perUsed    = 0.15 // cost of a mm on ink that is taken
)

// newGuide reads the dashes against the traced lines, each turned so as to
// start near from.
func newGuide(w *web, lines []geom.Path, from geom.Point) *guide {
	g := &guide{}
	for _, p := range lines {
		if len(p) == 0 {
			continue
		}
		if from.Dist(p.End()) < from.Dist(p.Start()) {
			p = p.Reverse()
		}
		g.lines = append(g.lines, dense(p, 1))
	}
	if len(g.lines) == 0 {
		return nil
	}
	n := len(w.dashes)
	g.tilt, g.dist = make([]float64, n), make([]float64, n)
	for i := range g.dist {
		g.dist[i] = math.Inf(1)
	}
	for _, line := range g.lines {
		g.read(w, line)
	}
	return g
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

func (g *guide) read(w *web, line []geom.Point) {
	box := geom.BoxOf(line...).Grow(guideReach)
	for i := range w.dashes {
		c := w.dashes[i].centre
		if !box.Contains(c) {
			continue
		}
		k, dist := nearestOf(line, c)
		if dist >= g.dist[i] || dist > guideReach {
			continue
		}
		a, b := line[max(k-1, 0)], line[min(k+1, len(line)-1)]
		v := b.Sub(a)
		g.tilt[i], g.dist[i] = math.Atan2(v.Y, v.X), dist
	}
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

// lean is the direction of the traced line beside dash i, 0 where there is
// none.
func (g *guide) lean(i int32) float64 { return g.tilt[i] }

func (g *guide) knows(i int32) bool { return !math.IsInf(g.dist[i], 1) }

// price is what it costs to go over dash i because a traced line has it.
func (g *guide) price(i int32, l link, length float64) float64 {
	if g.onLine || g.dist[i] > onGuide {
		return 0
	}
	return perUsed * (length + l.gap)
}
