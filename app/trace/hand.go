package trace

import (
	"math"

	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/trace/follow"
)

// Hand is what tracing goes by on one flat picture.
type Hand struct {
	Lines    *follow.Field // nil while they are not ready: nothing is followed
	Reach    float64       // mm a click may be from what it means
	Straight bool          // edges are straight lines, whatever is printed
}

// mostReach is how far in mm a click is taken to a crossing at most, however
// far out the Table is zoomed: beyond it, it is another crossing.
const mostReach = 4

// follows reports whether printed lines are gone by.
func (h Hand) follows() bool { return h.Lines != nil && !h.Straight }

// Aim is where a click at a place means to go while a line is under way: its
// first corner, to close it; a crossing of printed lines; the middle of a
// printed line; or the place itself.
func (h Hand) Aim(line model.TracedSize, at geom.Point) (to geom.Point, closing bool) {
	if len(line.Corners) > 2 && line.Corners[0].Dist(at) <= h.Reach {
		return line.Corners[0], true
	}
	return h.OntoPrint(at), false
}

// OntoPrint is the crossing of printed lines nearest to a place within reach;
// where there is none, the middle of the printed line within half of that; else
// the place itself.
func (h Hand) OntoPrint(at geom.Point) geom.Point {
	if !h.follows() {
		return at
	}
	reach := min(h.Reach, mostReach)
	if c, ok := h.Lines.Corner(at, reach); ok {
		return c
	}
	if c, ok := h.Lines.Snap(at, reach/2); ok {
		return c
	}
	return at
}

// Edge is edge j of a line, from its corner j to a place by way of the points in
// via: along the printed line, beside the same edge of the sizes traced already;
// straight with a doubt that says so where no printed line leads there; straight
// without a word where nothing is followed.
func (h Hand) Edge(k model.Tracing, line model.TracedSize, j int, to geom.Point, via []geom.Point) follow.Edge {
	from := line.Corners[j]
	straight := geom.Polyline(append(append([]geom.Point{from}, via...), to)...)
	if !h.follows() {
		return follow.Edge{Path: straight}
	}
	e, err := h.Lines.Follow(from, to, via, follow.Options{Guides: guides(k, line, j, to)})
	if err != nil {
		return follow.Edge{
			Path:   straight,
			Doubts: []follow.Doubt{{At: from.Lerp(to, 0.5), Say: "no printed line leads there, so this edge is straight"}},
		}
	}
	return e
}

// guides are the edges of the sizes traced already that are edge j of a line,
// which may have been begun at another corner and run the other way round: its
// first corner tells where, its second, or where the first edge leads to, which
// way.
func guides(k model.Tracing, line model.TracedSize, j int, to geom.Point) []geom.Path {
	second := to
	if len(line.Corners) > 1 && j > 0 {
		second = line.Corners[1]
	}
	var out []geom.Path
	for _, s := range k.Sizes {
		n := len(s.Corners)
		if s.Size == line.Size || !s.Closed || j >= n {
			continue
		}
		c := nearestCorner(s, line.Corners[0])
		onward, back := s.Edges[c], s.Edges[(c+n-1)%n]
		if off(onward, second) <= off(back, second) {
			out = append(out, s.Edges[(c+j)%n])
		} else {
			out = append(out, s.Edges[(c-1-j+2*n)%n].Reverse())
		}
	}
	return out
}

func nearestCorner(s model.TracedSize, at geom.Point) int {
	best := 0
	for i, c := range s.Corners {
		if c.Dist(at) < s.Corners[best].Dist(at) {
			best = i
		}
	}
	return best
}

// off is how far a place lies from an edge, in mm.
func off(e geom.Path, at geom.Point) float64 {
	const tol = 0.01
	if len(e) == 0 {
		return math.Inf(1)
	}
	_, _, d := e.Nearest(at, tol)
	return d
}

// LineOf is a tracing's line of a size, and whether it has one.
func LineOf(k model.Tracing, size string) (model.TracedSize, bool) {
	for _, s := range k.Sizes {
		if s.Size == size {
			return s, true
		}
	}
	return model.TracedSize{Size: size}, false
}
