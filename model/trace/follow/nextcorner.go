package follow

import (
	"cmp"
	"math"
	"slices"

	"quarterstep/model/geom"
)

// crossing is a way of a corner from the traced size to the wanted one: where a
// line beside the side that ends there meets one beside the side that begins.
type crossing struct {
	by            geom.Vec
	before, after int     // tracks
	ends, begins  float64 // mm along the sides where they meet
	score         float64
}

const (
	mostStep   = 12.0 // mm that a corner may move from one size to the next
	farther    = 0.02 // what a mm of a corner's way costs
	perRanks   = 0.25 // a line more between on one side of a corner than on the other
	perBeyond  = 1.4  // print that goes on beyond a corner on both sides
	perShape   = 1.0  // an arm whose shape lies on print
	armReach   = 25.0 // mm of line on either side of a corner that are to fit
	nearArm    = 12.0 // mm of an arm that are near the corner
	perArm     = 0.8  // an arm near the corner that is all print
	mostOnEach = 90   // crossings of a corner that are kept
)

// crossings lists where corner k of the turning ones may go, best first.
func (s *nextSearch) crossings(k int) []crossing {
	m := len(s.sides)
	in, on := &s.sides[(k+m-1)%m], &s.sides[k]
	from := s.from.corner(on.corners[0])
	var out []crossing
	for a := range in.tracks {
		for b := range on.tracks {
			c, ok := meeting(in, on, a, b, from)
			if !ok || c.by.Len() > s.reachOf(on.corners[0]) {
				continue
			}
			out = append(out, c)
		}
	}
	out = append(out, s.byPlaces(in, on, out)...)
	before, after := s.from.arms(on.corners[0], armReach)
	for i := range out {
		out[i].score += s.speaks(in, on, out[i]) + perShape*(s.onPrint(before, out[i].by)+s.onPrint(after, out[i].by))
	}
	slices.SortStableFunc(out, func(a, b crossing) int { return cmp.Compare(b.score, a.score) })
	if len(out) > mostOnEach {
		out = out[:mostOnEach]
	}
	return out
}

// reachOf is how far a corner may go.
func (s *nextSearch) reachOf(i int) float64 {
	if s.want == nil {
		return mostStep
	}
	return math.Min(mostStep, 3+1.3*s.want[i].Len())
}

// meeting is where track a of the side that ends at a corner meets track b of
// the one that begins there.
func meeting(in, on *flank, a, b int, corner geom.Point) (crossing, bool) {
	if in.tracks[a].own && on.tracks[b].own {
		return crossing{before: a, after: b, ends: in.length()}, true
	}
	const reach = sideBeyond + 1
	lo, hi := int(in.index(in.length()-reach)), len(in.places)-1
	end := int(math.Ceil(on.index(reach)))
	p, q := in.tracks[a].pts, on.tracks[b].pts
	best, found := crossing{before: a, after: b}, false
	least := math.Inf(1)
	for i := lo; i < hi; i++ {
		for j := range end {
			u, v, ok := cross(p[i], p[i+1], q[j], q[j+1])
			if !ok {
				continue
			}
			at := p[i].Lerp(p[i+1], u)
			if d := at.Dist(corner); d < least {
				least, found = d, true
				best.by = at.Sub(corner)
				best.ends = in.places[i].far + u*(in.places[i+1].far-in.places[i].far)
				best.begins = on.places[j].far + v*(on.places[j+1].far-on.places[j].far)
			}
		}
	}
	if found {
		return best, true
	}
	return passing(in, on, a, b, corner)
}

// passing is the place beside a corner that hardly turns where two tracks go on
// in one another, which do not cross.
func passing(in, on *flank, a, b int, corner geom.Point) (crossing, bool) {
	const together = 0.6 // mm
	i, j := in.index(in.length()), on.index(0)
	u, v := atIndex(in.tracks[a].off, i), atIndex(on.tracks[b].off, j)
	if math.Abs(u-v) > together {
		return crossing{}, false
	}
	out := in.places[int(i)].out
	return crossing{by: out.Scale((u + v) / 2), before: a, after: b, ends: in.length()}, true
}

// cross is where the stretches a and b cross, by their shares.
func cross(a0, a1, b0, b1 geom.Point) (u, v float64, ok bool) {
	p, q := a1.Sub(a0), b1.Sub(b0)
	d := p.Cross(q)
	if math.Abs(d) < 1e-9 {
		return 0, 0, false
	}
	w := b0.Sub(a0)
	u, v = w.Cross(q)/d, w.Cross(p)/d
	return u, v, u >= 0 && u <= 1 && v >= 0 && v <= 1
}

// speaks is what speaks for a crossing by the print beside it and by its way.
func (s *nextSearch) speaks(in, on *flank, c crossing) float64 {
	a, b := &in.tracks[c.before], &on.tracks[c.after]
	score := -s.unlikely(on.corners[0], c.by)
	for _, arm := range []struct {
		side     *flank
		t        *track
		at, sign float64
	}{{in, a, c.ends, -1}, {on, b, c.begins, 1}} {
		reach := math.Min(nearArm, arm.side.length()/2)
		near := arm.side.printed(arm.t, arm.at, arm.at+arm.sign*reach)
		if arm.t.own {
			score += perArm * ownInk * near
			continue
		}
		score += perArm*near - perBeyond/2*arm.side.printed(arm.t, arm.at-arm.sign*2, arm.at-arm.sign*6)
	}
	if !a.own && !b.own {
		score -= perRanks * math.Abs(a.rank-b.rank)
	}
	return score
}

// printed is the share of a track between two places of a side that is print.
func (d *flank) printed(t *track, from, to float64) float64 {
	a, b := d.index(math.Min(from, to)), d.index(math.Max(from, to))
	return within((atIndex(t.seen, b)-atIndex(t.seen, a))/math.Max(math.Abs(to-from), 1), 0, 1)
}

// unlikely is what a corner's way costs by its length alone, or by how far it
// is off what two traced sizes let expect.
func (s *nextSearch) unlikely(i int, by geom.Vec) float64 {
	if s.want == nil {
		return farther * by.Len()
	}
	return offWanted(by.Sub(s.want[i]).Len(), s.want[i])
}

// offWanted is what being so many mm off a way that is expected costs.
func offWanted(off float64, way geom.Vec) float64 {
	off /= 1 + 0.15*way.Len()
	return math.Min(off*off, 10)
}
