package propose

import (
	"math"

	"quarterstep/assets/words"
)

// A dart that nobody marked shows in the outline as two edges of one length
// that meet at its peak.
const (
	// legsDiffer is how much those two may differ in any size, mm.
	legsDiffer = 0.5
	// widestDart is how long they may be together, mm.
	widestDart = 120.0
)

// sewPastDart sews two side seams of which one has a dart that nobody marked,
// left out of the seam. It is never sure.
func (f *finder) sewPastDart(lead, follow run, reverse bool) (candidate, bool) {
	var best candidate
	found := false
	try := func(a, b run) {
		c, ok := f.sew([]part{{a, false}}, part{b, reverse}, evenRoom, unseamed)
		if ok && (!found || c.cost < best.cost) {
			best, found = c, true
		}
	}
	for _, r := range lead.withoutPeak() {
		try(r, follow)
	}
	for _, r := range follow.withoutPeak() {
		try(lead, r)
	}
	best.Sure = false
	best.How += words.T("; told with what seems a dart shut")
	return best, found
}

// withoutPeak is the run without any two of its inner edges that may be the
// mouth of a dart.
func (r run) withoutPeak() []run {
	var out []run
	for i := 1; i+2 < len(r.edges); i++ {
		if r.mayBeDart(r.edges[i], r.edges[i+1]) {
			edges := append(append([]int(nil), r.edges[:i]...), r.edges[i+2:]...)
			out = append(out, run{r.s, edges, r.where})
		}
	}
	return out
}

func (r run) mayBeDart(a, b int) bool {
	for _, size := range r.s.sizes {
		edges, ok := r.s.edges(size)
		if !ok {
			return false
		}
		x, errX := edges[a].Length(measureTol)
		y, errY := edges[b].Length(measureTol)
		if errX != nil || errY != nil || math.Abs(x-y) > legsDiffer || x+y > widestDart {
			return false
		}
	}
	return len(r.s.sizes) > 0
}
