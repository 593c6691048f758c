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
			score := s.onPrint(before, by) + s.onPrint(after, by) - s.unlikely(i, by)
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
		return farther * by.Len() / float64(s.rank)
	}
	off := by.Add(s.want[i].Scale(-1)).Len() / (1 + 0.15*s.want[i].Len())
	return 0.1 * off * off
}

// onPrint is the share of an arm that lies on print when moved, up to 1.
func (s *nextSearch) onPrint(arm []place, by geom.Vec) float64 {
	if len(arm) == 0 {
		return 0
	}
	var sum float64
	gap := 2
	for _, p := range arm {
		if s.ink.near(p.at.Add(by), p.inkDir) {
			gap = 0
		} else {
			gap++
		}
		if gap > 1 {
			continue
		}
		if math.Abs(by.Dot(p.out)) < 0.5 {
			sum += ownInk
		} else {
			sum++
		}
	}
	return sum / float64(len(arm))
}
