package follow

import (
	"cmp"
	"iter"
	"math"
	"slices"

	"quarterstep/model/geom"
)

// How a corner is looked for by the shape of the lines beside it.
const (
	gridStep   = 0.5 // mm between the places that are tried
	mostPlaces = 24  // places of a corner that are kept
	nearPlaces = 6   // places of an arm that count more
	nearOwn    = 0.8 // mm from the side at which ink that is found may be its own
	onTrack    = 0.7 // mm from a track within which a corner lies on it
)

// tried are the movements no more than r mm from centre that are tried, a grid, row
// by row.
func tried(centre geom.Vec, r float64) iter.Seq[geom.Vec] {
	return func(yield func(geom.Vec) bool) {
		n := int(r / gridStep)
		for y := -n; y <= n; y++ {
			for x := -n; x <= n; x++ {
				off := geom.Vec{X: float64(x) * gridStep, Y: float64(y) * gridStep}
				if off.Len() <= r && !yield(centre.Add(off)) {
					return
				}
			}
		}
	}
}

// places lists where corner i may go by the lines on both sides of it, which
// moved along are to lie on print.
func (s *nextSearch) places(i int) []geom.Vec {
	type found struct {
		by    geom.Vec
		score float64
	}
	before, after := s.from.arms(i, armReach)
	centre, r := geom.Vec{}, s.reachOf(i)
	if s.want != nil {
		centre, r = s.want[i], 2+0.3*s.want[i].Len()
	}
	var all []found
	for by := range tried(centre, r) {
		all = append(all, found{by, s.onPrint(before, by) + s.onPrint(after, by) - farther*by.Len()})
	}
	slices.SortStableFunc(all, func(a, b found) int { return cmp.Compare(b.score, a.score) })
	var kept []geom.Vec
	for _, m := range all {
		if len(kept) == mostPlaces {
			break
		}
		if !slices.ContainsFunc(kept, func(k geom.Vec) bool { return k.Sub(m.by).Len() < 0.8 }) {
			kept = append(kept, m.by)
		}
	}
	return kept
}

// onPrint is sharePrinted with the weights of a search by sides.
func (s *nextSearch) onPrint(arm []place, by geom.Vec) float64 {
	return sharePrinted(s.ink, arm, by, nearOwn, ownInk)
}

// sharePrinted is the share of an arm that lies on print when moved, up to 1, the
// nearest to the corner counting more. Places that move less than near mm
// across the line count own only: there they may lie on the traced size itself.
func sharePrinted(ink *inkMap, arm []place, by geom.Vec, near, own float64) float64 {
	if len(arm) == 0 {
		return 0
	}
	var sum, all float64
	gap := 2
	for k, p := range arm {
		weight := 1.0
		if k < nearPlaces {
			weight = 2.5
		}
		all += weight
		if ink.near(p.at.Add(by), p.inkDir) {
			gap = 0
		} else {
			gap++
		}
		switch {
		case gap > 1:
		case math.Abs(by.Dot(p.out)) < near:
			sum += weight * own
		default:
			sum += weight
		}
	}
	return sum / all
}

// byPlaces are the crossings of a turning corner at the places that the shape of
// its lines lets expect, where tracks pass on both sides that are not known to
// meet there.
func (s *nextSearch) byPlaces(in, on *flank, known []crossing) []crossing {
	i := on.corners[0]
	var out []crossing
	for _, by := range s.places(i) {
		at := s.from.corner(i).Add(by)
		for a := range in.tracks {
			ends, offA := in.nearest(&in.tracks[a], at)
			if offA > onTrack {
				continue
			}
			for b := range on.tracks {
				meet := func(c crossing) bool { return c.before == a && c.after == b && c.by.Sub(by).Len() < 1 }
				if begins, offB := on.nearest(&on.tracks[b], at); offB <= onTrack && !slices.ContainsFunc(known, meet) {
					out = append(out, crossing{by: by, before: a, after: b, ends: ends, begins: begins, score: -0.5 * (offA + offB)})
				}
			}
		}
	}
	return out
}
