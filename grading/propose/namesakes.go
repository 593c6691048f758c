package propose

import (
	"math"

	"quarterstep/assets/words"
)

// namesakes sews edges of two pieces that are called the same seam and are as
// long within 1/16 in in every printed size.
func (f *finder) namesakes() {
	var all []candidate
	for i, a := range f.sheets {
		for _, b := range f.sheets[i+1:] {
			if a.layer != b.layer {
				continue
			}
			for _, x := range a.singles() {
				for _, y := range b.singles() {
					if c, ok := f.namesake(x, y); ok {
						all = append(all, c)
					}
				}
			}
		}
	}
	f.take(all)
}

// singles is the edges that no other rule is for, each a run of its own.
func (s *sheet) singles() []run {
	var out []run
	for j, r := range s.role {
		if r == unknown || r == side || r == armSeam {
			out = append(out, run{s: s, edges: []int{j}})
		}
	}
	return out
}

func (r run) name() string { return plain(r.s.q.Edges[r.edges[0]].Name) }

func (f *finder) namesake(x, y run) (candidate, bool) {
	n := x.name()
	if bare(n) != bare(y.name()) || !seamWord.MatchString(n) || own.MatchString(n) || own.MatchString(y.name()) {
		return candidate{}, false
	}
	if !within(eases([]part{{x, false}}, y), sixteenth) {
		return candidate{}, false
	}
	reverse, told := against(x, y)
	c, ok := f.sew([]part{{x, false}}, part{y, reverse}, evenRoom, 0)
	c.Sure = c.Sure && told && bare(n) != "seam"
	return c, ok
}

// within reports that there are eases, and all are that small.
func within(eases []float64, mm float64) bool {
	for _, e := range eases {
		if !(math.Abs(e) <= mm) {
			return false
		}
	}
	return len(eases) > 0
}

// What two edges without a name must be to be taken for one seam.
const (
	agrees     = 0.5  // mm that their lengths may differ in any size
	leastSizes = 3    // that agree
	leastLong  = 40.0 // mm; shorter ones agree by chance
	leastGrown = 1.0  // mm from the smallest size to the largest, else all sizes are one
)

// unnamed proposes that two edges without a name are a seam when they are as
// long within half a millimetre in each of several sizes and neither is so with
// any other edge.
func (f *finder) unnamed() {
	var all []run
	for _, s := range f.sheets {
		for _, r := range s.singles() {
			if s.q.OneForAll || s.layer != cloth || f.taken.any(r.stretch(false), f.taken.sewn, f.taken.follows) {
				continue
			}
			all = append(all, r)
		}
	}
	partners := make([][]int, len(all))
	for i, x := range all {
		for j, y := range all {
			if i != j && x.s != y.s && agree(x, y) {
				partners[i] = append(partners[i], j)
			}
		}
	}
	var found []candidate
	for i, x := range all {
		if len(partners[i]) != 1 || partners[i][0] < i || len(partners[partners[i][0]]) != 1 {
			continue
		}
		y := all[partners[i][0]]
		if !numbered.MatchString(x.name()) || !numbered.MatchString(y.name()) {
			continue
		}
		reverse, _ := against(x, y)
		if c, ok := f.sew([]part{{x, false}}, part{y, reverse}, evenRoom, 0); ok {
			c.Sure = false
			c.How += words.T("; told by their lengths alone")
			found = append(found, c)
		}
	}
	f.take(found)
}

func agree(x, y run) bool {
	sizes := shared(x.s, y.s)
	if len(sizes) < leastSizes || !within(eases([]part{{x, false}}, y), agrees) {
		return false
	}
	first, last := x.length(sizes[0]), x.length(sizes[len(sizes)-1])
	return first >= leastLong && math.Abs(last-first) >= leastGrown
}
