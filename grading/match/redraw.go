package match

import (
	"math"

	"quarterstep/model/geom"
)

const (
	// redrawTol is how far in mm a redrawn edge should lie from the traced
	// one at most, penTol how far it may where a calm line comes no nearer:
	// half the width of a printed line.
	redrawTol = 0.1
	penTol    = 0.2
	// shortestCurve is the mean length in mm below which a redrawn edge's
	// curves would only draw the shaking of the hand, and tightest the
	// radius in mm of a bend no trace means.
	shortestCurve = 10.0
	tightest      = 4.0
	// stub is the length in mm of the scraps that a traced line may have at
	// a corner, which tell no direction.
	stub = 0.6
	// sampleEvery is the distance in mm of the places the drawing keeps to.
	sampleEvery = 6.0
)

// counts are the numbers of curves tried.
var counts = [...]int{1, 2, 3, 5, 7, 10, 14, 20, 28}

// redraw draws a traced edge anew with few smooth curves that keep within
// redrawTol of it, or else within penTol. An edge that cannot be drawn so with
// fewer curves than it has is kept, a polygon's rounded through its corners.
func redraw(edge geom.Path) geom.Path {
	edge = trimmed(edge)
	if straightSided(edge) {
		edge = rounded(edge)
	}
	length, err := edge.Length(ringTol)
	if err != nil {
		return edge
	}
	second := edge
	pts := spread(edge, length)
	for _, n := range counts {
		if n >= len(edge) || float64(n) > length/shortestCurve {
			break
		}
		p, off, err := geom.Fit(pts, geom.Vec{}, geom.Vec{}, n)
		if err != nil || off > penTol {
			continue
		}
		off = max(off, departure(p, edge))
		p[0].P0, p[len(p)-1].P3 = edge.Start(), edge.End()
		switch {
		case off <= redrawTol:
			return p
		case off <= penTol:
			second = p // the more curves, the nearer
		}
	}
	return second
}

// trimmed leaves out the scraps at an edge's ends.
func trimmed(edge geom.Path) geom.Path {
	a, b := edge.Start(), edge.End()
	for len(edge) > 2 && edge[0].P3.Dist(a) < stub {
		edge = edge[1:]
	}
	for len(edge) > 2 && edge[len(edge)-1].P0.Dist(b) < stub {
		edge = edge[:len(edge)-1]
	}
	out := append(geom.Path(nil), edge...)
	out[0].P0, out[len(out)-1].P3 = a, b
	for i := range []int{0, 1} { // a straight end stays straight
		k := i * (len(out) - 1)
		if edge[k].IsStraight(1e-6) {
			out[k] = geom.Line(out[k].P0, out[k].P3)
		}
	}
	return out
}

func straightSided(p geom.Path) bool {
	for _, c := range p {
		if !c.IsStraight(1e-6) {
			return false
		}
	}
	return true
}

// rounded is a smooth curve through the corners of a polygon: at each it runs
// in the direction from the corner before to the one after (Catmull and Rom
// 1974), each leg's handles a third of its length.
func rounded(p geom.Path) geom.Path {
	dir := func(i int) geom.Vec { // at the corner before leg i
		a, b := max(i-1, 0), min(i, len(p)-1)
		return p[b].P3.Sub(p[a].P0).Unit()
	}
	out := make(geom.Path, len(p))
	for i, c := range p {
		l := c.P0.Dist(c.P3) / 3
		out[i] = geom.Cubic{P0: c.P0, P1: c.P0.Add(dir(i).Scale(l)), P2: c.P3.Add(dir(i + 1).Scale(-l)), P3: c.P3}
	}
	return out
}

// spread is places all along an edge: its joints, and between them one about
// every sampleEvery mm.
func spread(edge geom.Path, length float64) []geom.Point {
	per := int(math.Ceil(length / float64(len(edge)) / sampleEvery))
	per = min(max(per, 2), 64)
	pts := []geom.Point{edge.Start()}
	for _, c := range edge {
		for k := 1; k <= per; k++ {
			pts = append(pts, c.At(float64(k)/float64(per)))
		}
	}
	return pts
}

// departure is how far in mm p goes from a traced edge between the places it was
// drawn by; infinite where it makes a bend that a trace does not mean.
func departure(p, edge geom.Path) float64 {
	const steps = 12
	var most float64
	for _, c := range p {
		for k := range steps + 1 {
			t := float64(k) / steps
			if math.Abs(c.Curvature(t)) > 1/tightest || c.Deriv(t).IsZero() {
				return math.Inf(1)
			}
			_, _, d := edge.Nearest(c.At(t), 0.01)
			most = math.Max(most, d)
		}
	}
	return most
}
