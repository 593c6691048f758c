package match

import (
	"math"
	"slices"
	"sort"
)

const degree = math.Pi / 180

const (
	// The turn that makes a corner of its own right, on a traced and on a
	// drawn ring; weaker ones need the other sizes to agree.
	strongTraced = 30 * degree
	strongDrawn  = 15 * degree
	// close is how near in mm to a corner another one is not looked for.
	close = 8.0
	// near is how far in mm a corner may lie from where its turn shows most.
	near = 6.0
	// window is how much of the ring in mm tells where exactly a corner lies.
	window = 24.0
)

// corner is a corner of one ring at one of its joints, or a place between two.
type corner struct {
	place
	s    float64 // mm from the ring's start
	turn float64 // radians, clockwise positive
	sure bool    // the ring itself shows it; else the other sizes asked for it
}

// place is a parameter on a cubic of a ring.
type place struct {
	i int
	t float64
}

// strongCorners finds the corners a ring shows by itself, in order; of a ring
// with more than mostCorners not all.
func strongCorners(r *ring) []corner {
	var out []corner
	least := strongDrawn
	if r.dense {
		least = strongTraced
	}
	for range 6 {
		p := newProfile(r, out, roomStrong)
		found := false
		for _, k := range peaks(p, least, int(close/r.step)) {
			if len(out) > mostCorners {
				break
			}
			s := float64(k) * r.step
			if tooClose(r, out, s, close/2) {
				continue
			}
			c := r.settle(s, near, out)
			c.turn, c.sure = p[k], true
			if !tooClose(r, out, c.s, close/2) {
				out = append(out, c)
				found = true
			}
		}
		if !found || !r.dense || len(out) > mostCorners {
			break
		}
	}
	sort.Slice(out, func(a, b int) bool { return out[a].s < out[b].s })
	return out
}

func tooClose(r *ring, have []corner, s, room float64) bool {
	return slices.ContainsFunc(have, func(c corner) bool { return r.apart(c.s, s) < room })
}

// peaks lists the samples where |p| is at least least and greatest within
// reach samples, strongest first.
func peaks(p profile, least float64, reach int) []int {
	var out []int
	n := len(p)
	for k, t := range p {
		a := math.Abs(t)
		if a < least {
			continue
		}
		top := true
		for j := 1; j <= reach && top; j++ {
			b, f := math.Abs(p[(k-j+n)%n]), math.Abs(p[(k+j)%n])
			top = b < a && f <= a
		}
		if top {
			out = append(out, k)
		}
	}
	sort.SliceStable(out, func(a, b int) bool { return math.Abs(p[out[a]]) > math.Abs(p[out[b]]) })
	return out
}

// settle finds where within reach mm of s a corner lies exactly. Corners are
// drawn joints: on a drawn ring it is the joint that turns most, on a traced
// one the joint whose two sides the ring tells best as two smooth lines. Where
// no joint is near it is s itself.
func (r *ring) settle(s, reach float64, known []corner) corner {
	before, behind := window, window
	for _, c := range known {
		if d := r.ahead(c.s, s); d > reach {
			before = min(before, d)
		}
		if d := r.ahead(s, c.s); d > reach {
			behind = min(behind, d)
		}
	}
	best, least := -1, math.Inf(1)
	for _, i := range r.near(s, reach) {
		miss := -math.Abs(r.jump(i))
		if r.dense {
			miss = r.misfit(r.joints[i], s, before, behind)
		}
		if miss < least {
			best, least = i, miss
		}
	}
	if best < 0 {
		i, t := r.m.Locate(r.wrap(s))
		return corner{place: place{i, t}, s: r.wrap(s)}
	}
	return corner{place: place{best, 0}, s: r.joints[best], turn: r.jump(best)}
}
