package girth

import (
	"slices"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// span is a stretch of a level, from lo to hi across the grain, mm.
type span struct{ lo, hi float64 }

// takenUp is how much of the level at height h, between two sides, lies in
// darts: between the two legs of each. Darts drawn twice count once.
func (s *sheet) takenUp(h, from, to float64) float64 {
	level := geom.Polyline(s.place(from, h), s.place(to, h))
	var all []span
	for _, path := range s.dartLines() {
		var at []float64
		for _, x := range geom.Intersect(level, path, tol) {
			at = append(at, s.side(x.At))
		}
		slices.Sort(at)
		for i := 0; i+1 < len(at); i += 2 {
			all = append(all, span{at[i], at[i+1]})
		}
	}
	return covered(all)
}

// dartLines is the two legs of each dart, as one line; lines that meet at the
// tip are one dart.
func (s *sheet) dartLines() []geom.Path {
	var out []geom.Path
	for _, d := range s.darts {
		out = append(out, geom.Polyline(d.Leg1, d.Apex, d.Leg2))
	}
	for _, l := range s.lines {
		if l.Kind == model.DartLine && len(l.Path) > 0 {
			out = joinLegs(out, l.Path)
		}
	}
	return out
}

// joinLegs adds a dart line to those before it, as the other leg of one that
// ends where it does.
func joinLegs(all []geom.Path, leg geom.Path) []geom.Path {
	const near = 0.5 // mm between two legs' tips, as drawn by hand
	if leg.Closed(near) {
		return append(all, leg)
	}
	for i, other := range all {
		for _, a := range [2]geom.Path{other, other.Reverse()} {
			for _, b := range [2]geom.Path{leg, leg.Reverse()} {
				if !other.Closed(near) && a.End().Dist(b.Start()) <= near {
					all[i] = geom.Join(a, b)
					return all
				}
			}
		}
	}
	return append(all, leg)
}

// covered is the length that spans cover together.
func covered(all []span) float64 {
	slices.SortFunc(all, func(a, b span) int {
		if a.lo < b.lo {
			return -1
		}
		return 1
	})
	var sum float64
	for i, done := 0, 0.0; i < len(all); i++ {
		lo := all[i].lo
		if i > 0 {
			lo = max(lo, done)
		}
		if all[i].hi > lo {
			sum += all[i].hi - lo
		}
		if i == 0 || all[i].hi > done {
			done = all[i].hi
		}
	}
	return sum
}
