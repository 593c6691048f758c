package follow

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// nextEdge follows the line beside a traced one, close to its course from corner
// to corner.
func (f *Field) nextEdge(traced, course []geom.Point, tol float64) Edge {
	from, to := course[0], course[len(course)-1]
	g := &guide{lines: [][]geom.Point{traced}, course: course}
	pts, doubts, err := f.along(g, from, to)
	if err != nil {
		return Edge{
			Path: geom.Path{geom.Line(from, to)}, Points: []geom.Point{from, to},
			Doubts: []Doubt{{At: from.Lerp(to, 0.5), Say: words.T("No printed line leads from corner to corner, so this edge is straight.")}},
		}
	}
	path, err := draw(pts, Options{Tol: tol}.tol())
	if err != nil {
		path = geom.Path{geom.Line(from, to)}
		doubts = append(doubts, Doubt{At: from.Lerp(to, 0.5), Say: words.T("This edge could not be drawn and is straight.")})
	}
	return Edge{Path: path, Points: pts, Doubts: f.web.closeBy(path, doubts, false)}
}

// nearEnd is how far from its corners in mm an edge runs as the traced one does
// rather than as its track, which leads straight on there.
const nearEnd = 10.0

// courseAlong is as many even steps as the traced edge has, along a stretch of a
// track, its ends carried to two places; near these as the traced edge runs.
func (s *nextSearch) courseAlong(line courseLine, from, to geom.Point, traced []geom.Point) []geom.Point {
	d := &s.sides[line.side]
	t := &d.tracks[line.track]
	n := len(traced) - 1
	span := line.to - line.from
	a, b := from.Sub(d.on(t, line.from)), to.Sub(d.on(t, line.to))
	p, q := from.Sub(traced[0]), to.Sub(traced[n])
	out := make([]geom.Point, n+1)
	for k := range out {
		u := float64(k) / float64(n)
		on := d.on(t, line.from+u*span).Add(a.Scale(1 - u)).Add(b.Scale(u))
		carried := traced[k].Add(p.Scale(1 - u)).Add(q.Scale(u))
		out[k] = carried.Lerp(on, within(span*math.Min(u, 1-u)/nearEnd, 0, 1))
	}
	return out
}
