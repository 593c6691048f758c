package follow

import (
	"cmp"
	"math"
	"slices"

	"quarterstep/model/geom"
)

const (
	armReach  = 25.0 // mm of line on either side of a corner that are to fit
	gridStep  = 0.5  // mm between the places that are tried
	mostMoves = 36   // places of a corner that are kept
	ownInk    = 0.4  // what ink that the traced size has counts for
	farther   = 0.02 // what a mm of a corner's way costs
	nearArm   = 6    // places of an arm that are near the corner
	perBeyond = 0.6  // print that goes on beyond a corner on both sides
)

// cornerMoves lists where corner i may go: the places at which the lines on
// both sides of it lie on print, best first.
func (s *nextSearch) cornerMoves(i int) []move {
	before, after := s.from.arms(i, armReach)
	centre, r := s.reachOf(i)
	n := int(r / gridStep)
	var all []move
	for y := -n; y <= n; y++ {
		for x := -n; x <= n; x++ {
			off := geom.Vec{X: float64(x) * gridStep, Y: float64(y) * gridStep}
			if off.Len() > r {
				continue
			}
			by := centre.Add(off)
			score := s.onPrint(before, by) + s.onPrint(after, by) - s.overshoot(i, by) - s.unlikely(i, by)
			all = append(all, move{by, score})
		}
	}
	slices.SortStableFunc(all, func(a, b move) int { return cmp.Compare(b.score, a.score) })
	var kept []move
	for _, m := range all {
		if len(kept) == mostMoves {
			break
		}
		if !slices.ContainsFunc(kept, func(k move) bool { return k.by.Add(m.by.Scale(-1)).Len() < 0.8 }) {
			kept = append(kept, m)
		}
	}
	return kept
}

// unlikely is what a corner's way costs by its length alone, or by how far it
// is off what two traced sizes let expect.
func (s *nextSearch) unlikely(i int, by geom.Vec) float64 {
	if s.want == nil {
		return farther * by.Len()
	}
	off := by.Add(s.want[i].Scale(-1)).Len() / (1 + 0.15*s.want[i].Len())
	return 0.1 * off * off
}

// overshoot is what speaks against corner i by print that goes straight on
// beyond it: there it is no corner of that print.
func (s *nextSearch) overshoot(i int, by geom.Vec) float64 {
	n := len(s.from.edges)
	last := s.from.edges[(i+n-1)%n]
	u, v := last[len(last)-1], s.from.edges[i][0]
	if math.Abs(turnOf(u.dir, v.dir)) < 0.5 {
		return 0
	}
	var on float64
	for _, d := range []float64{1.6, 2.2, 2.8, 3.4, 4} {
		if s.ink.near(u.at.Add(by).Add(u.dir.Scale(d)), u.inkDir) {
			on++
		}
		if s.ink.near(v.at.Add(by).Add(v.dir.Scale(-d)), v.inkDir) {
			on++
		}
	}
	return perBeyond * on / 10
}

func turnOf(u, v geom.Vec) float64 { return math.Atan2(u.Cross(v), u.Dot(v)) }

// onPrint is the share of an arm that lies on print when moved, up to 1, the
// nearest to the corner counting more.
func (s *nextSearch) onPrint(arm []place, by geom.Vec) float64 {
	if len(arm) == 0 {
		return 0
	}
	var sum, all float64
	gap := 2
	for k, p := range arm {
		weight := 1.0
		if k < nearArm {
			weight = 2.5
		}
		all += weight
		if s.ink.near(p.at.Add(by), p.inkDir) {
			gap = 0
		} else {
			gap++
		}
		if gap > 1 {
			continue
		}
		if math.Abs(by.Dot(p.out)) < 0.5 {
			sum += weight * ownInk
		} else {
			sum += weight
		}
	}
	return sum / all
}
