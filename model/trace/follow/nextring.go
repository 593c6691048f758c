package follow

import (
	"math"

	"quarterstep/model/geom"
)

// Weights of what speaks for a line beside a side, by trial on rendered nests.
const (
	perRank    = 0.6  // each line between, for all of a side
	perCarried = 0.6  // a side that carried along with its corners lies on print
	perSide    = 0.4  // a side that lies outside for a larger size, inside for a smaller one
	perStrain  = 0.25 // a side whose corners move apart by its usual share
	mostStrain = 6.0
	perBent    = 80.0 // a side whose line bends a radian in a mm otherwise than it, for a mm
	freeBent   = 0.01 // of that costs nothing
	mostBent   = 3.0
	wellInked  = 0.85 // the share of a printed line, of whatever style, that is found to be ink
)

// pair is a crossing at a side's first corner and one at its last that the same
// track leads to.
type pair struct {
	p, q  int
	score float64
}

// chosen is a choice of one crossing for every turning corner.
type chosen []int

// weight is what a side counts for.
func (d *flank) weight() float64 { return within(d.length(), 10, 150) / 25 }

// together chooses a crossing for every corner so that all sides lie best.
// outward counts for a line further out.
func (s *nextSearch) together(cs [][]crossing, outward float64) chosen {
	m := len(s.sides)
	pairs := make([][]pair, m)
	for k := range m {
		pairs[k] = s.pairs(&s.sides[k], cs[k], cs[(k+1)%m], outward)
	}
	cut := 0
	for k := range cs {
		if len(cs[k]) < len(cs[cut]) {
			cut = k
		}
	}
	top, x := math.Inf(-1), 0
	for c := range cs[cut] {
		if w := around(cs, pairs, cut, c); w > top {
			top, x = w, c
		}
	}
	return trail(cs, pairs, cut, x)
}

func lost(n int) []float64 {
	v := make([]float64, n)
	for i := range v {
		v[i] = math.Inf(-1)
	}
	return v
}

// forward is the best way from crossing x of corner cut round to every other
// crossing, its own score included.
func forward(cs [][]crossing, pairs [][]pair, cut, x int) [][]float64 {
	m := len(cs)
	to := make([][]float64, m)
	to[cut] = lost(len(cs[cut]))
	to[cut][x] = cs[cut][x].score
	for step := range m - 1 {
		k, l := (cut+step)%m, (cut+step+1)%m
		to[l] = lost(len(cs[l]))
		for _, e := range pairs[k] {
			to[l][e.q] = max(to[l][e.q], to[k][e.p]+e.score)
		}
		for c := range to[l] {
			to[l][c] += cs[l][c].score
		}
	}
	return to
}

// around is the best way round the whole ring in which corner cut takes crossing
// x.
func around(cs [][]crossing, pairs [][]pair, cut, x int) float64 {
	last := (cut + len(cs) - 1) % len(cs)
	to, top := forward(cs, pairs, cut, x), math.Inf(-1)
	for _, e := range pairs[last] {
		if e.q == x {
			top = max(top, to[last][e.p]+e.score)
		}
	}
	return top
}

// trail is the best choice in which corner cut takes crossing x.
func trail(cs [][]crossing, pairs [][]pair, cut, x int) []int {
	m := len(cs)
	to := forward(cs, pairs, cut, x)
	at := make([]int, m)
	at[cut] = x
	want := x
	for step := m - 1; step > 0; step-- {
		k := (cut + step) % m
		top := math.Inf(-1)
		for _, e := range pairs[k] {
			if w := to[k][e.p] + e.score; e.q == want && w > top {
				top, at[k] = w, e.p
			}
		}
		want = at[k]
	}
	return at
}

// pairs lists how well a side lies on each of its tracks, from each crossing of
// its first corner to each of its last.
func (s *nextSearch) pairs(d *flank, from, to []crossing, outward float64) []pair {
	var out []pair
	for p := range from {
		for q := range to {
			if from[p].after == to[q].before {
				if score, ok := s.lies(d, from[p], to[q], outward); ok {
					out = append(out, pair{p, q, score})
				}
			}
		}
	}
	return out
}

// lies is how well a side lies between two crossings.
func (s *nextSearch) lies(d *flank, p, q crossing, outward float64) (float64, bool) {
	t := &d.tracks[p.after]
	length := d.length()
	span := q.ends - p.begins
	if span < 0.4*length {
		return 0, false
	}
	share := d.printed(t, p.begins, q.ends) / wellInked
	share = math.Min(share, 1) * (t.fresh + ownInk*(1-t.fresh))
	strain := q.by.Sub(p.by).Len() / (0.8 + 0.03*length)
	share += perCarried * s.carried(d, p.by, q.by)
	return d.weight()*(share-perRank*t.rank+(perSide+outward)*t.out) - math.Min(perStrain*strain*strain, mostStrain) - math.Min(perBent*math.Max(t.bent-freeBent, 0), mostBent) + t.prior, true
}

// carried is the share of a side that lies on print when its corners move and
// all between with them, at best with its middle a little further in or out.
func (s *nextSearch) carried(d *flank, a, b geom.Vec) float64 {
	const looks = 40
	bulges := []float64{0, -0.6, 0.6}
	if d.length() < 60 {
		bulges = bulges[:1]
	}
	inner := d.places[sideBeyond : len(d.places)-sideBeyond]
	step := max(1, len(inner)/looks)
	var best float64
	for _, bulge := range bulges {
		var on, all float64
		gap := 2 * step
		for k := step; k < len(inner)-1; k += step {
			p := inner[k]
			u := p.far / d.length()
			by := a.Scale(1 - u).Add(b.Scale(u)).Add(p.out.Scale(4 * u * (1 - u) * bulge))
			if gap += step; s.ink.near(p.at.Add(by), p.inkDir) {
				gap = 0
			}
			all++
			switch {
			case gap > max(2, step):
			case math.Abs(by.Dot(p.out)) < nearOwn:
				on += ownInk
			default:
				on++
			}
		}
		best = max(best, on/math.Max(all, 1)-0.02*math.Abs(bulge))
	}
	return best
}
