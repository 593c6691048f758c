package follow

import (
	"cmp"
	"math"
	"slices"

	"quarterstep/model/geom"
)

const (
	mostMoves    = 36  // places of a corner that are kept
	perOvershoot = 0.6 // print that goes on beyond a corner on both sides
)

// cornerMoves lists where corner i may go: the places at which the lines on
// both sides of it lie on print, best first.
func (s *carry) cornerMoves(i int) []move {
	before, after := s.from.arms(i, armReach)
	centre, r := s.looked(i)
	var all []move
	for by := range tried(centre, r) {
		score := s.armOn(before, by) + s.armOn(after, by) - s.overshoot(i, by) - s.farOff(i, by)
		all = append(all, move{by, score})
	}
	slices.SortStableFunc(all, func(a, b move) int { return cmp.Compare(b.score, a.score) })
	var kept []move
	for _, m := range all {
		if len(kept) == mostMoves {
			break
		}
		if !slices.ContainsFunc(kept, func(k move) bool { return k.by.Sub(m.by).Len() < 0.8 }) {
			kept = append(kept, m)
		}
	}
	return kept
}

// overshoot is what speaks against corner i by print that goes straight on
// beyond it: there it is no corner of that print.
func (s *carry) overshoot(i int, by geom.Vec) float64 {
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
	return perOvershoot * on / 10
}

// armOn is sharePrinted with the weights of a carried outline.
func (s *carry) armOn(arm []place, by geom.Vec) float64 {
	return sharePrinted(s.ink, arm, by, 0.5, ownCarried)
}

// looked is where corner i is looked for: around a way, and how far around.
func (s *carry) looked(i int) (centre geom.Vec, r float64) {
	if s.want == nil {
		return geom.Vec{}, mostStep
	}
	return s.want[i], 2 + 0.3*s.want[i].Len()
}

// farOff is what a corner's way costs by its length alone, or by how far it is
// off what two traced sizes let expect.
func (s *carry) farOff(i int, by geom.Vec) float64 {
	if s.want == nil {
		return farther * by.Len()
	}
	off := by.Sub(s.want[i]).Len() / (1 + 0.15*s.want[i].Len())
	return 0.1 * off * off
}

// linesBeside lists, for every place of edge i, how far out printed lines of
// its direction run beside it, those further in with a minus.
func (s *carry) linesBeside(i int) [][]float64 {
	out := make([][]float64, len(s.from.edges[i]))
	for k, p := range s.from.edges[i] {
		start, on := 0.0, false
		for d := -mostStep; d <= mostStep; d += inkCell / 2 {
			ink := s.ink.bits(p.at.Add(p.out.Scale(d)))>>p.inkDir&1 == 1
			switch {
			case ink && !on:
				start = d
			case !ink && on:
				out[k] = append(out[k], (start+d)/2)
			}
			on = ink
		}
	}
	return out
}

// between counts the lines that run between place k of edge i and d mm out of
// it. What a dashed line leaves out is looked for a little further on.
func (s *carry) between(i, k int, d float64) int {
	const beside = 0.9
	most := 0
	lines := s.lines[i]
	for j := max(k-1, 0); j <= min(k+1, len(lines)-1); j++ {
		n := 0
		for _, l := range lines[j] {
			if (d > 0 && l > beside && l < d-beside) || (d < 0 && l < -beside && l > d+beside) {
				n++
			}
		}
		most = max(most, n)
	}
	return most
}

// at is place k of edge i when its corners move by a and b and its middle
// by bulge mm more to the outside.
func (s *carry) at(i, k int, a, b geom.Vec, bulge float64) geom.Point {
	p := s.from.edges[i][k]
	by := a.Scale(1 - p.share).Add(b.Scale(p.share)).Add(p.out.Scale(4 * p.share * (1 - p.share) * bulge))
	return p.at.Add(by)
}
