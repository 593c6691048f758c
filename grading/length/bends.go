package length

import (
	"math"

	"quarterstep/model/geom"
)

// handleMost is how far towards where its two end directions meet a handle may
// reach, unless it reached farther before.
const handleMost = 0.9

// bender keeps the curves of a piece bending as they did.
type bender struct {
	down geom.Vec // the way the length goes in
}

// keep mends curves that now bend back more than they did before: that bend one
// way and then the other where they bent one way only, or more so. First their
// handles are made shorter, for a curve folded short has handles too long for
// it. Where that does not do, the handle at a corner, where the edge does not run
// on smoothly, is turned as the edge as a whole is. What neither helps is left.
// Joints and ends stay.
func (b bender) keep(before, after geom.Path, smoothStart, smoothEnd bool) geom.Path {
	if len(before) != len(after) {
		return after
	}
	out := append(geom.Path{}, after...)
	for i, c := range after {
		most := back(before[i]) + backSlight
		if back(c) <= most {
			continue
		}
		turned := b.turn(before[i], c, i == 0 && !smoothStart, i == len(after)-1 && !smoothEnd)
		for _, try := range [3]geom.Cubic{shortHandles(before[i], c), turned, shortHandles(before[i], turned)} {
			if back(try) <= most {
				out[i] = try
				break
			}
		}
	}
	return out
}

// turn is c with its handles at a start and an end that may turn those of before,
// stretched as the whole of c is.
func (b bender) turn(before, c geom.Cubic, start, end bool) geom.Cubic {
	was := before.P3.Sub(before.P0).Dot(b.down)
	if was == 0 {
		return c
	}
	grows := c.P3.Sub(c.P0).Dot(b.down)/was - 1
	stretched := func(v geom.Vec) geom.Vec { return v.Add(b.down.Scale(grows * v.Dot(b.down))) }
	if start {
		c.P1 = c.P0.Add(stretched(before.P1.Sub(before.P0)))
	}
	if end {
		c.P2 = c.P3.Add(stretched(before.P2.Sub(before.P3)))
	}
	return c
}

// backSlight is how much more, in radians, a curve may bend back before it is
// mended: half a degree, which hardly shows.
const backSlight = math.Pi / 360

// handleLeast is the share of a handle that must be left for it to be shortened.
const handleLeast = 0.5

// back is by how much, in radians, the control polygon of c turns back: the
// lesser of its two turns where they go opposite ways, else 0, for then the curve
// bends one way only.
func back(c geom.Cubic) float64 {
	a, b, d := c.P1.Sub(c.P0), c.P2.Sub(c.P1), c.P3.Sub(c.P2)
	first, last := math.Atan2(a.Cross(b), a.Dot(b)), math.Atan2(b.Cross(d), b.Dot(d))
	if first*last >= 0 {
		return 0
	}
	return math.Min(math.Abs(first), math.Abs(last))
}

// shortHandles is c with its handles no longer, as a share of the way to where
// its end directions meet, than before's were or than handleMost; c itself where
// those do not meet ahead of both ends, or would leave too little of a handle.
func shortHandles(before, c geom.Cubic) geom.Cubic {
	u, v, ok := meetAhead(c)
	if !ok {
		return c
	}
	a, b := handleMost, handleMost
	if u0, v0, ok := meetAhead(before); ok {
		a = min(max(a, before.P0.Dist(before.P1)/u0), 1)
		b = min(max(b, before.P3.Dist(before.P2)/v0), 1)
	}
	start, end := c.P1.Sub(c.P0), c.P2.Sub(c.P3)
	if a*u < handleLeast*start.Len() || b*v < handleLeast*end.Len() {
		return c
	}
	c.P1 = c.P0.Add(start.Unit().Scale(min(start.Len(), a*u)))
	c.P2 = c.P3.Add(end.Unit().Scale(min(end.Len(), b*v)))
	return c
}

// meetAhead is how far along its two handles, from either end, the end
// directions of c meet, mm; false where not ahead of both.
func meetAhead(c geom.Cubic) (u, v float64, ok bool) {
	p, q := c.P1.Sub(c.P0).Unit(), c.P2.Sub(c.P3).Unit()
	turn := p.Cross(q)
	if turn == 0 {
		return 0, 0, false
	}
	across := c.P3.Sub(c.P0)
	u, v = across.Cross(q)/turn, across.Cross(p)/turn
	return u, v, u > 0 && v > 0
}
