package tile

import "slices"

// spot is where a piece goes: its turn and its first cell.
type spot struct{ view, x, y int }

// way is how an attempt goes about it: everything else follows from it.
type way struct {
	order []int  // of the items
	turns []int8 // the one turn an item may have; -1 for either
	cols  int    // width of the grid in sheets; of a free page in cells
	// few prefers, of places that open as many new sheets, one on few sheets;
	// aside looks for the place furthest left, not furthest up.
	few, aside bool
}

func (w way) clone() way {
	w.order, w.turns = slices.Clone(w.order), slices.Clone(w.turns)
	return w
}

// try is one arrangement and what it costs.
type try struct {
	spots  []spot
	sheets int
	splits int // pieces on several sheets that would fit on one
	joins  int // sheets counted once for every piece on them
	rows   int // of the grid in use
	width  int
	foot   int // rows of cells in use
	reach  int // columns of cells in use
	size   int // of a free page: what makes it dear
}

func (t *try) better(o *try) bool {
	if t.sheets != o.sheets {
		return t.sheets < o.sheets
	}
	if t.splits != o.splits {
		return t.splits < o.splits
	}
	if t.size != o.size {
		return t.size < o.size
	}
	return t.trouble() < o.trouble()
}

// trouble weighs joins through pieces against a grid that is long and narrow
// or full of blanks.
func (t *try) trouble() int {
	return t.joins + 2*max(t.rows, t.width) + t.rows*t.width - t.sheets
}

// placer places pieces one after the other; it is used again for every
// attempt, and counts its work.
type placer struct {
	mesh
	items   []*item
	clashes *clashes
	work    int // words gone through

	cols   int
	used   [][]bool // sheets by row and column
	placed []*view
	spots  []spot // of placed
	foot   int    // rows of cells in use
	barred []bitmap
	combos [][]combo
}

// combo is a set of sheets to place a view on: the block its first cell is in
// is row r, column c of the grid.
type combo struct {
	view, set, r, c int
}

// attempt places the pieces in the order of w.
func (p *placer) attempt(w way) *try {
	p.cols, p.foot = w.cols, 0
	p.placed, p.spots = p.placed[:0], p.spots[:0]
	p.used = p.used[:0]
	t := &try{spots: make([]spot, len(p.items))}
	for _, i := range w.order {
		it := p.items[i]
		s, sheets, split := p.place(it, w, w.turns[i])
		t.spots[i] = s
		v := it.views[s.view]
		p.placed, p.spots = append(p.placed, v), append(p.spots, s)
		p.foot = max(p.foot, s.y+len(v.rows))
		t.reach = max(t.reach, s.x+v.wide)
		if p.free {
			continue
		}
		for _, c := range sheets {
			r, col := s.y/p.ny+c.r, s.x/p.nx+c.c
			if !p.isUsed(r, col) {
				t.sheets++
				p.use(r, col)
				t.width = max(t.width, col+1)
			}
		}
		if split {
			t.splits++
		}
		t.joins += len(sheets)
	}
	t.rows, t.foot = len(p.used), p.foot
	return t
}

func (p *placer) isUsed(r, c int) bool { return r < len(p.used) && p.used[r][c] }

func (p *placer) use(r, c int) {
	for len(p.used) <= r {
		p.used = append(p.used, make([]bool, p.cols))
	}
	p.used[r][c] = true
}

// bar marks, in the first high rows, where view k of an item must not lie: on
// the pieces there and beyond the right side of the floor.
func (p *placer) bar(it *item, k, wide, last, high int) bitmap {
	for len(p.barred) <= k {
		p.barred = append(p.barred, bitmap{})
	}
	b := &p.barred[k]
	if words := (wide + 63) / 64; b.words != words || b.high() < high {
		*b = newBitmap(wide, 2*high)
	}
	b.wipe(high)
	p.work += high * b.words
	v := it.views[k]
	for i, o := range p.placed {
		c := p.clashes.of(v, o)
		p.work += b.or(c.bitmap, p.spots[i].x+c.dx, p.spots[i].y+c.dy, high)
	}
	for y := range high {
		b.set(y, last+1, b.words*64)
	}
	return *b
}

// place finds the cheapest place for an item, the sheets it lies on there, and
// whether it is split though it fits on one. Below the last row of sheets in
// use there is always room.
func (p *placer) place(it *item, w way, turn int8) (spot, []cellAt, bool) {
	if p.free {
		return p.placeFree(it, w, turn), nil, false
	}
	blocks := (p.foot+pad+p.ny-1)/p.ny + 1
	high := blocks * p.ny
	wide := float64(p.cols)*p.sx + p.overlapX()
	for i := range p.combos {
		p.combos[i] = p.combos[i][:0]
	}
	for k, v := range it.views {
		if turn >= 0 && int(turn) != k {
			continue
		}
		last := int((wide - v.width + 1e-6) / p.cx)
		p.bar(it, k, p.cols*p.nx+p.nx, last, high)
		p.list(v, k, blocks, last)
	}
	for _, combos := range p.combos {
		if len(combos) == 0 {
			continue
		}
		if s, set, ok := p.cheapest(it, combos, w); ok {
			return s, set.sheets, set.split
		}
	}
	panic("no room below all pieces")
}

// list sorts the sets of sheets that view k may lie on, in every block of the
// grid, by what they cost: new sheets first, then whether the piece is split.
func (p *placer) list(v *view, k, blocks, last int) {
	for i, set := range v.sets {
		right := 0
		for _, q := range set.sheets {
			right = max(right, q.c)
		}
		for r := range blocks {
			for c := 0; c+right < p.cols && c*p.nx <= last; c++ {
				cost := 0
				for _, q := range set.sheets {
					if !p.isUsed(r+q.r, c+q.c) {
						cost += 2
					}
				}
				if set.split {
					cost++
				}
				for len(p.combos) <= cost {
					p.combos = append(p.combos, nil)
				}
				p.combos[cost] = append(p.combos[cost], combo{k, i, r, c})
			}
		}
	}
}

// cheapest is the best free place among combos of one cost.
func (p *placer) cheapest(it *item, combos []combo, w way) (spot, *sheetSet, bool) {
	var at spot
	var on *sheetSet
	for _, q := range combos {
		set := &it.views[q.view].sets[q.set]
		if on != nil && w.few && len(set.sheets) > len(on.sheets) {
			continue
		}
		fewer := on != nil && w.few && len(set.sheets) < len(on.sheets)
		var limit *spot
		if on != nil && !fewer {
			limit = &at
		}
		if s, ok := p.within(q, set, limit, w.aside); ok {
			at, on = s, set
		}
	}
	return at, on, on != nil
}

// within looks through a combo for its best free place, better than limit.
func (p *placer) within(q combo, set *sheetSet, limit *spot, aside bool) (spot, bool) {
	if aside {
		return p.leftmost(q, set, limit)
	}
	barred := p.barred[q.view]
	for y := set.top; y < set.bottom; y++ {
		row := q.r*p.ny + y
		if limit != nil && row > limit.y {
			break
		}
		p.work += set.at.words
		if x := unset(barred.row(row), set.at.row(y), q.c*p.nx); x >= 0 {
			s := spot{q.view, q.c*p.nx + x, row}
			if limit == nil || row < limit.y || s.x < limit.x {
				return s, true
			}
			break
		}
	}
	return spot{}, false
}

// leftmost is within for the place furthest left, of those the upper one.
func (p *placer) leftmost(q combo, set *sheetSet, limit *spot) (spot, bool) {
	best, ok := spot{}, false
	if limit != nil {
		if q.c*p.nx > limit.x {
			return best, false
		}
		best = *limit
	}
	barred := p.barred[q.view]
	for y := set.top; y < set.bottom; y++ {
		row := q.r*p.ny + y
		p.work += set.at.words
		x := unset(barred.row(row), set.at.row(y), q.c*p.nx)
		if x < 0 {
			continue
		}
		s := spot{q.view, q.c*p.nx + x, row}
		if limit == nil && !ok || s.x < best.x || s.x == best.x && s.y < best.y {
			best, ok = s, true
		}
	}
	return best, ok
}

// placeFree finds the place furthest up on a page as long as it takes.
func (p *placer) placeFree(it *item, w way, turn int8) spot {
	var best spot
	found := false
	for k, v := range it.views {
		if turn >= 0 && int(turn) != k {
			continue
		}
		high := p.foot + pad + 1
		if found {
			high = min(high, best.y+1)
		}
		last := int((float64(w.cols)*p.cx - v.width + 1e-6) / p.cx)
		b := p.bar(it, k, w.cols+1, last, high)
		for y := range high {
			p.work += b.words
			if x := firstUnset(b.row(y)); x >= 0 {
				if s := (spot{k, x, y}); !found || s.y < best.y || s.y == best.y && s.x < best.x {
					best, found = s, true
				}
				break
			}
		}
	}
	return best
}
