package seam

import (
	"cmp"
	"math"
	"slices"
)

// meetWithin is how far apart, in mm of seam, notches or corners of the two
// sides may lie in print, eased in evenly, and still be meant to meet: half of
// what usually lies between two notches (common practice).
const meetWithin = 30

// match finds which marks of the two sides meet, from the printed sizes. The
// two starts and the two ends do; so do corners of the same name, a join of the
// leader's pieces and the follower's corner nearest to it, and single with
// single, double with double notches in the same order.
func match(printed []sides) []pair {
	first := printed[0]
	met := []pair{{0, 0}, {len(first.lead.Marks) - 1, len(first.follow.Marks) - 1}}
	m := matcher{printed: printed}
	for _, wanted := range []func(a, b Mark) bool{sameCorner, joins, sameNotch} {
		met = m.more(met, wanted)
	}
	return met
}

type matcher struct{ printed []sides }

func corner(m Mark) bool { return m.Kind == Corner || m.Kind == Join }

func sameCorner(a, b Mark) bool { return corner(a) && corner(b) && a.Name != "" && a.Name == b.Name }

func joins(a, b Mark) bool { return a.Kind == Join && corner(b) }

func sameNotch(a, b Mark) bool { return a.Kind == Notch && b.Kind == Notch && a.Double == b.Double }

// more adds the pairs that may meet, nearest first, keeping them in order.
func (m matcher) more(met []pair, may func(a, b Mark) bool) []pair {
	type candidate struct {
		pair
		off float64
	}
	var all []candidate
	first := m.printed[0]
	for i, a := range first.lead.Marks {
		for j, b := range first.follow.Marks {
			if !may(a, b) {
				continue
			}
			if off := m.off(met, pair{i, j}); off <= meetWithin {
				all = append(all, candidate{pair{i, j}, off})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b candidate) int { return cmp.Compare(a.off, b.off) })
	for _, c := range all {
		at, clash := slices.BinarySearchFunc(met, c.pair, func(x, y pair) int { return cmp.Compare(x.lead, y.lead) })
		if clash || at == 0 || at == len(met) || met[at-1].follow >= c.follow || met[at].follow <= c.follow {
			continue
		}
		met = slices.Insert(met, at, c.pair)
	}
	return met
}

// off is how far apart two marks lie, in the mean of the printed sizes, the
// follower eased in evenly between the marks that meet already. It is measured
// from the nearer of these.
func (m matcher) off(met []pair, c pair) float64 {
	var sum float64
	for _, w := range m.printed {
		at, _ := slices.BinarySearchFunc(met, c, func(x, y pair) int { return cmp.Compare(x.lead, y.lead) })
		if at == 0 || at == len(met) {
			return math.Inf(1)
		}
		a, b := met[at-1], met[at]
		l0, l1, l := w.lead.Marks[a.lead].At, w.lead.Marks[b.lead].At, w.lead.Marks[c.lead].At
		f0, f1, f := w.follow.Marks[a.follow].At, w.follow.Marks[b.follow].At, w.follow.Marks[c.follow].At
		even := math.Abs((l-l0)/(l1-l0)*(f1-f0) - (f - f0))
		sum += min(even, math.Abs((l-l0)-(f-f0)), math.Abs((l1-l)-(f1-f)))
	}
	return sum / float64(len(m.printed))
}
