package trace

import (
	"math"
	"slices"

	"quarterstep/assets/words"
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
// without a word on the fold, and where nothing is followed.
func (h Hand) Edge(k model.Tracing, line model.TracedSize, j int, to geom.Point, via []geom.Point) follow.Edge {
	from := line.Corners[j]
	straight := geom.Polyline(append(append([]geom.Point{from}, via...), to)...)
	if !h.follows() || onFold(k, line, j, to) {
		return follow.Edge{Path: straight}
	}
	e, err := followed(h.Lines, from, to, via, guides(k, line, j, to), first(k, line))
	if err != nil {
		return follow.Edge{
			Path:   straight,
			Doubts: []follow.Doubt{{At: from.Lerp(to, 0.5), Say: words.T("no printed line leads there, so this edge is straight")}},
		}
	}
	return e
}

// first reports that no other size is done yet.
func first(k model.Tracing, line model.TracedSize) bool {
	return !slices.ContainsFunc(k.Sizes, func(s model.TracedSize) bool { return s.Closed && s.Size != line.Size })
}

// guides are the edges of the sizes traced already that are edge j of a line: the
// nearest, and those about as near. What is farther away tells less of how the
// line runs.
func guides(k model.Tracing, line model.TracedSize, j int, to geom.Point) []geom.Path {
	all := alongside(k, line, j, to)
	away := func(e geom.Path) float64 { return line.Corners[j].Dist(e.Start()) + off(e, to) }
	least := math.Inf(1)
	for _, e := range all {
		least = min(least, away(e))
	}
	const asNear, slack = 1.5, 1.0 // times, and mm
	return slices.DeleteFunc(all, func(e geom.Path) bool { return away(e) > asNear*least+slack })
}

// alongside are the same edges of all sizes that are done, run the same way.
func alongside(k model.Tracing, line model.TracedSize, j int, to geom.Point) []geom.Path {
	var out []geom.Path
	for _, s := range k.Sizes {
		if s.Size == line.Size || !s.Closed || j >= len(s.Corners) {
			continue
		}
		if i, back := sameEdge(s, line, j, to); back {
			out = append(out, s.Edges[i].Reverse())
		} else {
			out = append(out, s.Edges[i])
		}
	}
	return out
}

// sameEdge is the edge of a size done that is edge j of a line, which may have
// been begun at another corner and run the other way round: its first corner
// tells where, its second, or where the first edge leads to, which way.
func sameEdge(s, line model.TracedSize, j int, to geom.Point) (i int, back bool) {
	second := to
	if len(line.Corners) > 1 && j > 0 {
		second = line.Corners[1]
	}
	n := len(s.Corners)
	c := nearestCorner(s, line.Corners[0])
	onward, before := s.Edges[c], s.Edges[(c+n-1)%n]
	if off(onward, second) <= off(before, second) {
		return (c + j) % n, false
	}
	return (c - 1 - j + 2*n) % n, true
}

// onFold reports that edge j of a line was said to lie on the fold.
func onFold(k model.Tracing, line model.TracedSize, j int, to geom.Point) bool {
	if len(k.Sizes) == 0 || len(k.Edges) == 0 {
		return false
	}
	if s := k.Sizes[0]; s.Size != line.Size {
		if !s.Closed || j >= len(s.Corners) {
			return false
		}
		j, _ = sameEdge(s, line, j, to)
	}
	return j < len(k.Edges) && k.Edges[j].Kind == model.Fold
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

// EdgeNear is the edge of a line nearest to a place; false where it has none.
func EdgeNear(line model.TracedSize, at geom.Point) (int, bool) {
	best := -1
	for j, e := range line.Edges {
		if best < 0 || off(e, at) < off(line.Edges[best], at) {
			best = j
		}
	}
	return best, best >= 0
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
