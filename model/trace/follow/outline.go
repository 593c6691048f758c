package follow

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// outline is a traced size walked round in small steps.
type outline struct {
	edges [][]place // by edge, from its first corner to its last
}

// place is a step of an outline.
type place struct {
	at     geom.Point
	dir    geom.Vec // of the walk
	out    geom.Vec // at right angles to dir, away from the piece
	share  float64  // of the edge's length behind it
	inkDir int      // direction bin
	far    float64  // mm from the edge's first corner, along it
}

const outlineStep = 1.0 // mm

// newOutline walks the edges, which must close to a ring.
func newOutline(edges []geom.Path) (outline, error) {
	var o outline
	if len(edges) < 2 {
		return o, words.Errorf("a traced size needs two edges at least")
	}
	var whole geom.Path
	for i, e := range edges {
		next := edges[(i+1)%len(edges)]
		switch {
		case len(e) == 0 || len(next) == 0:
			return o, words.Errorf("an edge of a traced size is empty")
		case e.End().Dist(next.Start()) > 0.01:
			return o, words.Errorf("edge %d of a traced size does not end where the next one starts", i+1)
		}
		whole = append(whole, e...)
	}
	side := 1.0
	if whole.Area() < 0 {
		side = -1
	}
	for _, e := range edges {
		o.edges = append(o.edges, walk(e, side))
	}
	return o, nil
}

// walk is places along an edge; side is 1 where the piece lies to the right
// of the walk as seen on the paper, y down, and -1 where to the left.
func walk(e geom.Path, side float64) []place {
	pts := dense(e, 0.2)
	length := lengthOf(pts)
	n := max(4, int(math.Round(length/outlineStep)))
	out := make([]place, 0, n+1)
	s, i := 0.0, 1
	for k := range n + 1 {
		want := length * float64(k) / float64(n)
		for i < len(pts)-1 && s+pts[i].Dist(pts[i-1]) < want {
			s += pts[i].Dist(pts[i-1])
			i++
		}
		step := pts[i].Dist(pts[i-1])
		u := 0.0
		if step > 0 {
			u = min(max((want-s)/step, 0), 1)
		}
		lo, hi := pts[max(i-3, 0)], pts[min(i+2, len(pts)-1)]
		dir := hi.Sub(lo).Unit()
		out = append(out, place{
			at: pts[i-1].Lerp(pts[i], u), dir: dir, out: geom.Vec{X: dir.Y * side, Y: -dir.X * side},
			share: float64(k) / float64(n), far: want, inkDir: directionBin(math.Atan2(dir.Y, dir.X)),
		})
	}
	return out
}

// length of edge i in mm.
func (o outline) length(i int) float64 {
	e := o.edges[i]
	return e[len(e)-1].far
}

// corner i is where edge i starts.
func (o outline) corner(i int) geom.Point { return o.edges[i][0].at }

// arms are the places within reach mm of corner i on either side of it: those
// before it, walked back, and those after it.
func (o outline) arms(i int, reach float64) (before, after []place) {
	n := len(o.edges)
	left := reach
	for k := 1; k <= n && left > 0; k++ {
		e := o.edges[(i-k+n)%n]
		for j := len(e) - 2; j >= 0 && e[len(e)-1].far-e[j].far <= left; j-- {
			before = append(before, e[j])
		}
		left -= e[len(e)-1].far
	}
	left = reach
	for k := 0; k < n && left > 0; k++ {
		e := o.edges[(i+k)%n]
		for j := 1; j < len(e) && e[j].far <= left; j++ {
			after = append(after, e[j])
		}
		left -= e[len(e)-1].far
	}
	return before, after
}
