package follow

import (
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// Options say how a line is to be followed.
type Options struct {
	Guides   []geom.Path // the same edge in sizes traced already
	Rim      bool        // no line of the nest runs on one side of the edge, as beside the outermost size
	Straight bool        // a straight line between the corners, whatever is printed
	Tol      float64     // how far in mm the cubics may lie from what was seen, as long as eight cubics reach that; 0 is DefaultTol
}

// DefaultTol is a fifth of a printed line's width.
const DefaultTol = 0.1

// Edge is a followed line between two corners.
type Edge struct {
	Path   geom.Path    // few clean cubics, exactly from corner to corner
	Points []geom.Point // what was seen of the line, in order, corners included
	Doubts []Doubt      // where another line was nearly as good
}

// Doubt is a place of an edge to be looked at.
type Doubt struct {
	At  geom.Point
	Say string
}

// Follow is the printed line from one corner to another, by way of the points
// in via. The search from a corner is kept until another corner is asked for,
// so that the line to a moving pointer costs little more than drawing it.
//
// It is an error where no printed line leads to the end.
func (f *Field) Follow(from, to geom.Point, via []geom.Point, o Options) (Edge, error) {
	if !from.Finite() || !to.Finite() {
		return Edge{}, words.Errorf("following a line: a corner's place is not a number")
	}
	if from.Dist(to) < 0.5 {
		return Edge{}, words.Errorf("following a line: the two corners are less than half a millimetre apart")
	}
	if o.Straight {
		return f.straightEdge(from, to), nil
	}
	var e Edge
	at := from
	for _, next := range append(slices.Clone(via), to) {
		leg, doubts, err := f.leg(at, next, o)
		if err != nil {
			return Edge{}, words.Errorf("following a line: %w", err)
		}
		if len(e.Points) > 0 {
			leg = leg[1:]
		}
		e.Points = append(e.Points, leg...)
		e.Doubts = append(e.Doubts, doubts...)
		at = next
	}
	path, err := draw(e.Points, o.tol())
	if err != nil {
		return Edge{}, words.Errorf("following a line: %w", err)
	}
	if d, ok := stickingOut(path, e.Points); ok {
		e.Doubts = append(e.Doubts, d)
	}
	e.Path, e.Doubts = path, f.web.closeBy(path, e.Doubts, len(o.Guides) == 0)
	return e, nil
}

func (o Options) tol() float64 {
	if o.Tol > 0 {
		return o.Tol
	}
	return DefaultTol
}

// leg is what was seen of the line between two places: close to the course
// that the traced sizes let expect, or anywhere where there is no such course
// or no line along it.
func (f *Field) leg(from, to geom.Point, o Options) ([]geom.Point, []Doubt, error) {
	g := courseOf(from, to, o.Guides)
	switch {
	case g == nil && o.Rim:
		return f.onRim(from, to)
	case g == nil:
		return f.treeFrom(from, noSide).wayTo(to)
	}
	return f.along(g, from, to)
}

// treeFrom is the search from a corner over all lines: the one kept, or a new
// one.
func (f *Field) treeFrom(from geom.Point, free side) *tree {
	f.mu.Lock()
	defer f.mu.Unlock()
	for i, t := range f.kept {
		if t.from == from && t.free == free {
			f.kept = append(append(slices.Clone(f.kept[:i]), f.kept[i+1:]...), t)
			return t
		}
	}
	t := f.web.plant(from, free)
	f.kept = append(f.kept, t)
	if len(f.kept) > mostKept {
		f.kept = f.kept[1:]
	}
	return t
}

// mostKept is how many searches are remembered: the one under the pointer and
// those that a few points on the way need, for either free side.
const mostKept = 8

// arrival is how a way ends: at a node, or part of the way along its dash.
type arrival struct {
	node  int32 // -1: straight from the corner, over white paper
	inner bool  // within the node's dash
	near  touch
	cost  float64
}

// wayTo walks back from the end and lists the points from corner to end.
func (t *tree) wayTo(to geom.Point) ([]geom.Point, []Doubt, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	best := t.arrive(to)
	if math.IsInf(best.cost, 1) {
		return nil, nil, words.Errorf("no printed line leads to the place %.0f mm from the corner; click points on the way, or draw it straight", t.from.Dist(to))
	}
	if best.node < 0 {
		return []geom.Point{t.from, to}, nil, nil
	}
	pts := t.points(best, to)
	return pts, t.doubts(best, pts, to), nil
}

// arrive is the cheapest way to a point, once every way nearly as good is
// known.
func (t *tree) arrive(to geom.Point) arrival {
	for {
		best := t.cheapest(to)
		if !t.grow(growStep, best.cost+t.nearly()) {
			return t.cheapest(to)
		}
	}
}

// growStep is how many nodes are searched before it is asked again how far to
// search.
const growStep = 512

// cheapest is the cheapest way to a point known so far.
func (t *tree) cheapest(to geom.Point) arrival {
	best := arrival{node: -1, cost: math.Inf(1)}
	best.cost = t.web.straightAcross(t.from, to)
	t.web.around(to, func(j int32, near touch) {
		for _, a := range t.arrivals(to, j, near) {
			if a.cost < best.cost {
				best = a
			}
		}
	})
	return best
}

// arrivals are the ways to a point over dash j.
func (t *tree) arrivals(to geom.Point, j int32, near touch) []arrival {
	d := &t.web.dashes[j]
	var out []arrival
	n := t.web.first[j]
	if d.dot {
		v := to.Sub(d.centre)
		for _, k := range t.web.intoDot[j] {
			if math.IsInf(t.cost[k], 1) {
				continue
			}
			a := turn(t.dir(k), math.Atan2(v.Y, v.X))
			if v.Len() < 0.4 {
				a = 0
			}
			if math.Abs(a) < 1.1 {
				out = append(out, arrival{node: k, near: near, cost: t.cost[k] + cornerGap(near.dist) + bend*a*a/max(v.Len(), 1)})
			}
		}
		return out
	}
	for side, forward := range []bool{true, false} {
		k := n + int32(side)
		if math.IsInf(t.cost[k], 1) {
			continue
		}
		if near.inside {
			out = append(out, arrival{node: k, inner: true, near: near, cost: t.cost[k] + perBeside*near.dist*near.dist})
			continue
		}
		if cost, ok := t.web.entry(to, d, !forward); ok {
			out = append(out, arrival{node: k, near: near, cost: t.cost[k] + cost})
		}
	}
	return out
}

// way lists the nodes from the corner to an arrival.
func (t *tree) way(n int32) []int32 {
	var out []int32
	for ; n >= 0; n = t.prev[n] {
		out = append(out, n)
	}
	slices.Reverse(out)
	return out
}

// points lists what was seen of the line on the way to an arrival.
func (t *tree) points(a arrival, to geom.Point) []geom.Point {
	way := t.way(a.node)
	pts := []geom.Point{t.from}
	for i, n := range way {
		d := &t.web.dashes[t.web.nodes[n].dash]
		run := d.pts
		lo, hi := 0, len(run)
		if d.dot {
			pts = append(pts, d.centre)
			continue
		}
		forward := t.web.nodes[n].forward
		if i == 0 {
			if _, s, _ := d.nearest(t.from); forward {
				lo = int(math.Ceil(s))
			} else {
				hi = int(math.Floor(s)) + 1
			}
		}
		if i == len(way)-1 && a.inner {
			if forward {
				hi = int(math.Floor(a.near.t)) + 1
			} else {
				lo = int(math.Ceil(a.near.t))
			}
		}
		if lo >= hi {
			continue
		}
		seen := slices.Clone(run[lo:hi])
		if !forward {
			slices.Reverse(seen)
		}
		pts = append(pts, seen...)
	}
	return append(pts, to)
}
