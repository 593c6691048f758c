package nest

import (
	"math"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// squareTraced is how far from square, in radians on the mean of all sizes, a
// hand may trace a line that is meant to be square to the fold.
const squareTraced = 0.06

// steady gives the computed edges of a nest that was traced by hand what the
// print has and shaking took: the line runs smoothly through where it does in
// print, and leaves a fold or centre edge square where it does in print.
func (fit *Fit) steady(edges []geom.Path) {
	if !fit.shaken {
		return
	}
	for k := range edges {
		before := (k + len(edges) - 1) % len(edges)
		switch {
		case fit.edges[before].runs[1]:
			runThrough(edges, before, k, fit.edges[before].straight, fit.edges[k].straight)
		case fit.square[k]:
			fit.squareOff(edges, before, k)
		}
	}
}

// runThrough turns the handles at the end of edge a and the start of edge b into
// one direction: that of a straight edge, else half way.
func runThrough(edges []geom.Path, a, b int, straightA, straightB bool) {
	u, v := edges[a].EndDir(), edges[b].StartDir()
	switch {
	case straightA && straightB:
		return
	case straightA:
		v = u
	case straightB:
		u = v
	}
	dir := u.Add(v).Unit()
	if dir.IsZero() {
		return
	}
	if !straightA {
		edges[a] = turnEnd(edges[a], dir)
	}
	if !straightB {
		edges[b] = turnEnd(edges[b].Reverse(), dir.Scale(-1)).Reverse()
	}
}

// turnEnd is p with its last handle turned to end in direction dir.
func turnEnd(p geom.Path, dir geom.Vec) geom.Path {
	out := append(geom.Path(nil), p...)
	c := &out[len(out)-1]
	c.P2 = c.P3.Add(dir.Scale(-c.P2.Dist(c.P3)))
	return out
}

// squareOff makes the edge that meets a fold or centre edge at grade point k
// leave it square.
func (fit *Fit) squareOff(edges []geom.Path, before, k int) {
	if fit.still(before) {
		if fit.edges[k].straight {
			return
		}
		edges[k] = turnEnd(edges[k].Reverse(), squareTo(edges[before].EndDir(), edges[k].StartDir()).Scale(-1)).Reverse()
		return
	}
	if !fit.edges[before].straight {
		edges[before] = turnEnd(edges[before], squareTo(edges[k].StartDir(), edges[before].EndDir()))
	}
}

// squareTo is the direction square to line that is nearest to v.
func squareTo(line, v geom.Vec) geom.Vec {
	if s := line.Perp(); s.Dot(v) >= 0 {
		return s.Unit()
	}
	return line.Perp().Scale(-1).Unit()
}

// still reports that edge j is a fold or centre edge.
func (fit *Fit) still(j int) bool {
	kind := fit.piece.Edges[j].Kind
	return kind == model.Fold || kind == model.Centre
}

// readSquares finds the grade points at which an edge leaves a fold or centre
// edge square in print.
func (fit *Fit) readSquares() {
	n := len(fit.points)
	fit.square = make([]bool, n)
	for k := range fit.points {
		before := (k + n - 1) % n
		if fit.still(before) == fit.still(k) {
			continue
		}
		var lean float64
		for _, o := range fit.piece.Nest {
			u, v := endDir(o.Edges[before]), endDir(o.Edges[k].Reverse()).Scale(-1)
			lean += math.Asin(math.Max(-1, math.Min(1, u.Dot(v)))) / float64(len(fit.piece.Nest))
		}
		fit.square[k] = math.Abs(lean) < squareTraced
	}
}
