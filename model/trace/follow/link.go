package follow

import (
	"cmp"
	"math"
	"slices"

	"quarterstep/model/geom"
)

// reach is the widest gap in mm over which a line is believed to go on: what a
// size label leaves out of a dashed line, with the dashes' own gaps beside it.
const reach = 15.0

// dotReach is the same from and to a dot, which has no direction to go by.
const dotReach = 5.0

// mostLinks is how many ways on a dash keeps from each end, and a dot in all.
const (
	mostLinks    = 7
	mostDotLinks = 14
	mostOver     = 2   // ways more, over a label
	overLabel    = 6.0 // mm: a gap that a size label may have made
)

// A way of travelling the dashes is a node: a dash walked forwards or
// backwards, or a dot come upon from a certain dash. link leads from one to
// the next.
type link struct {
	to   int32   // node
	gap  float64 // mm without ink
	dir  float64 // direction from centre to centre, in radians
	span float64 // mm from centre to centre
}

// node is a dash and the direction it is passed in.
type node struct {
	dash    int32
	forward bool
	dir     float64 // of travel, in radians
}

// web is all dashes and the ways between them.
type web struct {
	dashes  []dash
	grid    grid
	nodes   []node
	into    [][]arrow         // by node: the links that lead to it
	out     [][]link          // by node; those of a dot under its first node
	intoDot map[int32][]int32 // by dot: its nodes
	crowd   crowd             // by node
	first   []int32           // by dash: its first node; a dot's further ones follow the dashes' nodes
}

// newWeb links the dashes.
func newWeb(ds []dash) *web {
	w := &web{dashes: ds, grid: newGrid(ds, 2), intoDot: map[int32][]int32{}}
	for i := range ds {
		w.first = append(w.first, int32(len(w.nodes)))
		w.nodes = append(w.nodes, node{int32(i), true, ds[i].dir})
		if ds[i].dot {
			w.intoDot[int32(i)] = []int32{w.first[i]}
		} else {
			w.nodes = append(w.nodes, node{int32(i), false, ds[i].dir + math.Pi})
		}
	}
	plain := len(w.nodes)
	w.out = make([][]link, plain)
	seen := make([]int32, len(ds))
	mark := int32(0)
	for n := range plain {
		mark++
		w.out[n] = w.ways(int32(n), seen, mark)
	}
	w.out = append(w.out, make([][]link, len(w.nodes)-plain)...)
	w.into = make([][]arrow, len(w.nodes))
	for n := range w.nodes {
		for _, l := range w.onward(int32(n)) {
			w.into[l.to] = append(w.into[l.to], arrow{int32(n), l})
		}
	}
	return w
}

// arrow is a link with the node it leaves.
type arrow struct {
	from int32
	link link
}

// onward is the links of node n.
func (w *web) onward(n int32) []link {
	if d := w.nodes[n].dash; w.dashes[d].dot {
		return w.out[w.first[d]]
	}
	return w.out[n]
}

type candidate struct {
	link
	dash    int32
	forward bool
	cost    float64
}

// ways finds the links of node n, and makes the nodes of dots they lead to.
func (w *web) ways(n int32, seen []int32, mark int32) []link {
	from := w.nodes[n]
	d := &w.dashes[from.dash]
	var all []candidate
	r, most := reach, mostLinks
	if d.dot {
		r, most = dotReach, mostDotLinks
	}
	end := d.end(from.forward)
	w.grid.near(end, r, func(j int32) {
		if seen[j] == mark || j == from.dash {
			return
		}
		seen[j] = mark
		for _, forward := range []bool{true, false} {
			if c, ok := w.candidate(from, j, forward); ok {
				all = append(all, c)
			}
			if w.dashes[j].dot {
				break
			}
		}
	})
	slices.SortFunc(all, func(a, b candidate) int { return cmp.Compare(a.cost, b.cost) })
	all = kept(all, most)
	out := make([]link, 0, len(all))
	for _, c := range all {
		if w.dashes[c.dash].dot {
			c.to = int32(len(w.nodes))
			w.nodes = append(w.nodes, node{c.dash, true, c.dir})
			w.intoDot[c.dash] = append(w.intoDot[c.dash], c.to)
		} else {
			c.to = w.first[c.dash]
			if !c.forward {
				c.to++
			}
		}
		out = append(out, c.link)
	}
	return out
}

// kept are the first of the ways there are, and a few that lead over a gap as
// wide as a size label, which would be lost among ways to the label's strokes.
func kept(all []candidate, most int) []candidate {
	if len(all) <= most {
		return all
	}
	out := all[:most:most]
	for _, c := range all[most:] {
		if c.gap > overLabel && len(out) < most+mostOver {
			out = append(out, c)
		}
	}
	return out
}

// candidate is the way from a node to dash j walked forward or backward.
func (w *web) candidate(from node, j int32, forward bool) (candidate, bool) {
	d, e := &w.dashes[from.dash], &w.dashes[j]
	a, b := d.end(from.forward), e.end(!forward)
	c := candidate{dash: j, forward: forward}
	if gap := b.Sub(a); gap.Dot(gap) > reach*reach {
		return c, false
	}
	v := e.centre.Sub(d.centre)
	c.dir, c.span, c.gap = math.Atan2(v.Y, v.X), v.Len(), b.Sub(a).Len()
	if c.span < 0.3 || ((d.dot || e.dot) && c.gap > dotReach) {
		return c, false
	}
	if d.dot && e.dot {
		c.cost = c.gap
		return c, true
	}
	step := b.Sub(a)
	if !d.dot && (step.Dot(unit(from.dir)) < -0.4 || math.Abs(turn(from.dir, c.dir)) > 1) {
		return c, false
	}
	heading := e.heading(forward)
	if !e.dot && (step.Dot(unit(heading)) < -0.4 || math.Abs(turn(c.dir, heading)) > 1) {
		return c, false
	}
	into := from.dir
	if d.dot {
		into = c.dir
	}
	c.cost = gapCost(c.gap) + bend*w.bending(from.dash, into, c.link, j, heading)
	if d.dot {
		c.cost = c.gap // which way it was come upon is not known yet
	}
	return c, true
}

func unit(dir float64) geom.Vec { return geom.Vec{X: math.Cos(dir), Y: math.Sin(dir)} }

// Costs. A way's cost has no unit: what matters is how its parts weigh against
// one another. Found by trial on rendered nests.
const (
	bend      = 20.0 // one mm of a bend of radius 1 mm
	perMM     = 0.01 // a mm of way
	perGap    = 0.03 // a mm without ink, as dashed lines have it
	gapFree   = 3.6  // mm: a wider gap is in no dashed line
	perWide   = 0.06 // a mm² of gap beyond that
	labelled  = 9.0  // mm: what a size label leaves out
	perLost   = 0.25 // a mm of gap beyond that: of the dashes' own gaps on either side
	perFaint  = 0.25 // a mm of line that is hardly there
	perBeside = 8.0  // a mm² off the clicked place
	perMissed = 1.0  // a mm² of white paper beside a corner, beyond gapFree
	dotShake  = 0.06 // radians: how far off its line a dot may make a step point
)

func gapCost(gap float64) float64 {
	wide := max(min(gap, labelled)-gapFree, 0)
	return (perMM+perGap)*gap + perWide*wide*wide + perLost*max(gap-labelled, 0)
}

// cornerGap is gapCost between a corner and the first ink: a line that begins
// at a corner begins within a gap of it, and what is further off is another.
func cornerGap(gap float64) float64 {
	wide := max(gap-gapFree, 0)
	return (perMM+perGap)*gap + perMissed*wide*wide
}

// bending is the bend in 1/mm of the line over a link that leaves a node of
// direction into and goes on in direction heading: the integral of the squared
// bend of the cubic between, for small angles. A dot has no direction of its
// own: the line turns there from one link to the next.
func (w *web) bending(from int32, into float64, l link, to int32, heading float64) float64 {
	a := turn(l.dir, into)
	if w.dashes[from].dot || w.dashes[to].dot {
		a = math.Copysign(max(0, math.Abs(a)-dotShake), a)
	}
	switch fromDot, toDot := w.dashes[from].dot, w.dashes[to].dot; {
	case fromDot && toDot:
		return a * a / l.span
	case toDot:
		return 3 * a * a / l.span
	case fromDot:
		a /= 2
	}
	b := turn(l.dir, heading)
	return 4 * (a*a + a*b + b*b) / l.span
}
