package tile

import (
	"math"
	"math/rand/v2"
	"slices"
)

// the work an arrangement may cost, in words of bitmaps gone through: some
// tenths of a second. By trial; a bound in time would give other places on
// another machine.
const (
	mostWork = 80_000_000
	// after so many tries in a row that were no better, the search begins again
	// from another of the first tries.
	patience = 120
	// nor does it go on after this many times the square of the pieces without
	// a better one: few pieces can lie in few ways.
	endurance = 50
)

// seek tries the usual orders on all widths that may serve, then changes the
// best tries a little, again and again, and keeps what is no worse.
func (a *arranging) seek() *try {
	least := a.least()
	good := a.begin()
	best := good[0]
	rng := rand.New(rand.NewPCG(1, uint64(len(a.items))))
	now, idle, next := good[0], 0, 1
	most := endurance * len(a.items) * len(a.items)
	for since := 0; since < most && a.work < mostWork && !a.cannotBeBettered(best.try, least); since++ {
		w := a.vary(now.way, rng)
		t := a.attempt(w)
		a.judge(t)
		if !now.try.better(t) {
			if t.better(now.try) {
				idle = 0
			}
			now = tried{w, t}
		}
		if t.better(best.try) {
			best, since = tried{w, t}, 0
		}
		if idle++; idle > patience {
			now, idle = good[next%len(good)], 0
			if next%2 == 1 {
				now = best
			}
			next++
		}
	}
	return a.polish(best)
}

// tried is a way and what came of it.
type tried struct {
	way way
	try *try
}

// mostGood is how many of the first tries are gone on from.
const mostGood = 6

// begin tries every usual way and gives the best ones, the very best first.
func (a *arranging) begin() []tried {
	var all []tried
	turns := slices.Repeat([]int8{-1}, len(a.items))
	for _, order := range orders(a.items) {
		for _, cols := range a.widths() {
			for k := range a.manners() {
				w := way{order: order, turns: turns, cols: cols, few: k == 0, aside: k == 2}
				t := a.attempt(w)
				a.judge(t)
				all = append(all, tried{w, t})
			}
			if a.work > mostWork/2 {
				break
			}
		}
	}
	slices.SortStableFunc(all, func(p, q tried) int {
		switch {
		case p.try.better(q.try):
			return -1
		case q.try.better(p.try):
			return 1
		}
		return 0
	})
	return all[:min(len(all), mostGood)]
}

// manners is how many ways there are to choose among places of one cost.
func (a *arranging) manners() int {
	if a.free {
		return 1
	}
	return 3
}

// judge works out what makes a free page dear: its length off a roll, its area
// for a projector, a long and narrow one counting as twice as long as wide.
func (a *arranging) judge(t *try) {
	switch {
	case a.setup.Paper.Roll():
		t.size = t.foot
	case a.free:
		long, short := max(t.reach, t.foot), min(t.reach, t.foot)
		t.size = long * max(short, long/2)
	}
}

// cannotBeBettered reports whether a try is at the least number of sheets with
// every small piece whole, on a page or two: more sheets are worth looking on
// for fewer joins.
func (a *arranging) cannotBeBettered(t *try, least int) bool {
	return !a.free && t.sheets <= least && t.splits == 0 && t.sheets <= 2
}

// least is the fewest sheets that could do: by area, and by what the largest
// piece needs alone.
func (a *arranging) least() int {
	area, n := 0.0, 1
	for _, it := range a.items {
		area += it.area
		alone := math.MaxInt
		for _, v := range it.views {
			for _, s := range v.sets {
				alone = min(alone, len(s.sheets))
			}
		}
		if alone < math.MaxInt {
			n = max(n, alone)
		}
	}
	if a.free {
		return 1
	}
	return max(n, int(math.Ceil(area/(a.px*a.py)-1e-9)))
}

// vary changes a way a little.
func (a *arranging) vary(w way, rng *rand.Rand) way {
	w = w.clone()
	n := len(w.order)
	for {
		i, j := rng.IntN(n), rng.IntN(n)
		switch rng.IntN(8) {
		case 0, 1:
			w.order[i], w.order[j] = w.order[j], w.order[i]
		case 2, 3:
			it := w.order[i]
			w.order = slices.Insert(slices.Delete(w.order, i, i+1), j, it)
		case 4, 5:
			w.turns[i] = int8(rng.IntN(1+len(a.items[i].views)) - 1)
		case 6:
			all := a.widths()
			w.cols = all[rng.IntN(len(all))]
		case 7:
			k := rng.IntN(a.manners())
			w.few, w.aside = k == 0, k == 2
		}
		if rng.IntN(3) > 0 {
			return w
		}
	}
}

// orders are the orders to try first: large pieces first, tall ones first, wide
// ones first.
func orders(items []*item) [][]int {
	by := func(size func(*item) float64) []int {
		order := make([]int, len(items))
		for i := range order {
			order[i] = i
		}
		slices.SortStableFunc(order, func(a, b int) int {
			if d := size(items[b]) - size(items[a]); d > 0 {
				return 1
			} else if d < 0 {
				return -1
			}
			return 0
		})
		return order
	}
	return [][]int{
		by(func(it *item) float64 { return it.area }),
		by(func(it *item) float64 { return it.views[0].height }),
		by(func(it *item) float64 { return it.views[0].width }),
	}
}

// widths are the widths of the floor to try: of a grid in sheets, from the
// widest piece's up to a little over a square; of a free page in cells.
func (a *arranging) widths() []int {
	least, area := 1, 0.0
	wide := 0.0
	for _, it := range a.items {
		least = max(least, Count(it.views[0].width, a.px, a.overlapX()))
		wide = math.Max(wide, it.views[0].width)
		area += it.area
	}
	switch {
	case a.setup.Paper.Roll():
		return []int{a.nx}
	case a.free:
		var out []int
		for k := 0.8; k < 2; k += 0.15 {
			out = append(out, int(math.Ceil(math.Max(wide, k*math.Sqrt(area))/a.cx)))
		}
		return slices.Compact(out)
	}
	most := max(least+2, int(math.Ceil(math.Sqrt(area/(a.sx*a.sy))))+1)
	var out []int
	for n := max(least, most-5); n <= most; n++ {
		out = append(out, n)
	}
	if out[0] > least {
		out = append([]int{least}, out...)
	}
	return out
}
