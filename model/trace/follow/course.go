package follow

import (
	"math"

	"quarterstep/model/geom"
)

// coursing works out where a line from one place to another is expected, from
// the same edge in sizes traced already.
type coursing struct {
	lines [][]geom.Point // even steps along the traced edges, from near the one place to near the other
}

// courseStep is how far apart in mm the places of a course are.
const courseStep = 1.0

// courseOf is the guide for a line between two places: the nearest traced edge
// carried along with its two ends. Nil where no traced edge runs beside it.
func courseOf(from, to geom.Point, guides []geom.Path) *guide {
	c := newCoursing(from, to, guides)
	if len(c.lines) == 0 {
		return nil
	}
	return &guide{lines: c.lines, course: c.carried(from, to)}
}

// newCoursing turns every traced edge so as to lead from near the one place to
// near the other, and cuts it there; the nearest comes first.
func newCoursing(from, to geom.Point, guides []geom.Path) coursing {
	var c coursing
	least := math.Inf(1)
	for _, p := range guides {
		if len(p) == 0 {
			continue
		}
		line := cutBeside(stepped(p), from, to)
		if len(line) < 2 {
			continue
		}
		c.lines = append(c.lines, line)
		if off := from.Dist(line[0]) + to.Dist(line[len(line)-1]); off < least {
			least = off
			last := len(c.lines) - 1
			c.lines[0], c.lines[last] = c.lines[last], c.lines[0]
		}
	}
	return c
}

// stepped is places along p at even steps.
func stepped(p geom.Path) []geom.Point {
	var out []geom.Point
	for _, s := range walk(p, 1) {
		out = append(out, s.at)
	}
	return out
}

// cutBeside is the part of a traced edge that runs beside a line between two
// places, in that line's direction. An end of the edge that may be the corner
// the place belongs to is kept.
func cutBeside(line []geom.Point, from, to geom.Point) []geom.Point {
	i, di := nearestOf(line, from)
	j, dj := nearestOf(line, to)
	last := len(line) - 1
	if i > j || (i == j && from.Dist(line[0])+to.Dist(line[last]) > from.Dist(line[last])+to.Dist(line[0])) {
		back := make([]geom.Point, len(line))
		for k, p := range line {
			back[last-k] = p
		}
		line, i, j = back, last-i, last-j
	}
	if from.Dist(line[0]) < cornerLike*di+3 {
		i = 0
	}
	if to.Dist(line[last]) < cornerLike*dj+3 {
		j = last
	}
	if i >= j {
		return nil
	}
	return line[i : j+1]
}

// cornerLike is how many times as far as the edge its corner may lie from a
// place that is taken for the same corner of another size.
const cornerLike = 1.8

// carried is the nearest traced edge moved so that its ends come to lie on the
// two places; a second traced edge tells how the middle moves.
func (c coursing) carried(from, to geom.Point) []geom.Point {
	line := c.lines[0]
	n := len(line) - 1
	a, b := from.Sub(line[0]), to.Sub(line[n])
	out := make([]geom.Point, n+1)
	for k, p := range line {
		u := float64(k) / float64(n)
		out[k] = p.Add(a.Scale(1 - u)).Add(b.Scale(u))
	}
	if len(c.lines) < 2 {
		return out
	}
	other := c.lines[1]
	m := len(other) - 1
	step := func(u float64) geom.Vec { // from the nearest edge to the second
		return atShare(other, u).Sub(atShare(line, u))
	}
	p, q := other[0].Sub(line[0]), other[m].Sub(line[n])
	whole := p.Dot(p) + q.Dot(q)
	if whole < 1 {
		return out
	}
	share := within((a.Dot(p)+b.Dot(q))/whole, -2, 2)
	bows := make([]geom.Vec, n+1)
	for k := range bows {
		u := float64(k) / float64(n)
		bows[k] = step(u).Add(p.Scale(u - 1)).Add(q.Scale(-u))
		if bows[k].Len() > mostBowing {
			return out
		}
	}
	for k := range out {
		out[k] = out[k].Add(bows[k].Scale(share))
	}
	return out
}

// mostBowing is how far in mm the middle of a line moves beyond its ends from size to
// size, at most, for the next size to be expected to do as much.
const mostBowing = 4.0

// atShare is the place at a share of an evenly stepped line.
func atShare(line []geom.Point, u float64) geom.Point {
	s := u * float64(len(line)-1)
	k := min(int(s), len(line)-2)
	return line[k].Lerp(line[k+1], s-float64(k))
}
