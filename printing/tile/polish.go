package tile

import "slices"

// sliver is the least breadth of what a sheet should show, mm: a page printed,
// trimmed and glued for less is a nuisance, and easily lost.
const sliver = 12.0

// standing is what an arrangement costs when its slivers count, too, and the
// pieces that lie on one sheet but over a join with the next, where the sheet
// is trimmed.
type standing struct{ sheets, splits, slivers, trimmed, trouble int }

func (s standing) less(o standing) bool {
	return slices.Compare(
		[]int{s.sheets, s.splits, s.slivers, s.trimmed, s.trouble},
		[]int{o.sheets, o.splits, o.slivers, o.trimmed, o.trouble}) < 0
}

// polish shifts pieces over the sheets, one at a time and all together, as long
// as that saves slivers or joins, at no sheet more.
func (a *arranging) polish(best tried) *try {
	t := best.try
	if a.free {
		return t
	}
	now, ok := a.weigh(t.spots)
	for changed := ok; changed; {
		changed = false
		for i := range a.items {
			if s, w, better := a.shiftOne(t.spots, i, now); better {
				t.spots[i], now, changed = s, w, true
			}
		}
		if spots, w, better := a.shiftAll(t.spots, now); better {
			t.spots, now, changed = spots, w, true
		}
	}
	return t
}

// shiftOne looks for a better place of one piece: straight to any side as far
// as a sheet is large, and about where it lies.
func (a *arranging) shiftOne(spots []spot, i int, now standing) (spot, standing, bool) {
	was, best, better := spots[i], spots[i], false
	defer func() { spots[i] = was }()
	if now.slivers == 0 && now.splits == 0 && now.trimmed == 0 && len(a.setOf(i, was).sheets) <= a.leastFor(i) {
		return was, now, false
	}
	for _, d := range a.shifts() {
		s := spot{was.view, was.x + d[0], was.y + d[1]}
		if s.x < 0 || s.y < 0 || a.clashesAt(spots, i, s) {
			continue
		}
		spots[i] = s
		if w, ok := a.weigh(spots); ok && w.less(now) {
			best, now, better = s, w, true
		}
	}
	return best, now, better
}

// leastFor is the fewest sheets that item i can lie on.
func (a *arranging) leastFor(i int) int {
	n := mostSheets
	for _, v := range a.items[i].views {
		for _, s := range v.sets {
			if s.bottom > s.top {
				n = min(n, len(s.sheets))
			}
		}
	}
	return n
}

// shifts are the ways to shift a piece, in cells.
func (a *arranging) shifts() [][2]int {
	const near, step = 12, 3
	var out [][2]int
	for d := 1; d < a.nx; d += 1 + a.nx/80 {
		out = append(out, [2]int{d, 0}, [2]int{-d, 0})
	}
	for d := 1; d < a.ny; d += 1 + a.ny/80 {
		out = append(out, [2]int{0, d}, [2]int{0, -d})
	}
	for dx := -near; dx <= near; dx += step {
		for dy := -near; dy <= near; dy += step {
			out = append(out, [2]int{dx, dy})
		}
	}
	return out
}

// shiftAll looks for a better place of the grid under the pieces.
func (a *arranging) shiftAll(spots []spot, now standing) ([]spot, standing, bool) {
	if now.slivers == 0 {
		return nil, now, false
	}
	var best []spot
	for dy := 0; dy < a.ny; dy += 4 {
		for dx := 0; dx < a.nx; dx += 4 {
			moved := slices.Clone(spots)
			for i := range moved {
				moved[i].x += dx
				moved[i].y += dy
			}
			if w, ok := a.weigh(moved); ok && w.less(now) {
				best, now = moved, w
			}
		}
	}
	return best, now, best != nil
}

// clashesAt reports whether item i at s is too near another.
func (a *arranging) clashesAt(spots []spot, i int, s spot) bool {
	v := a.items[i].views[s.view]
	for j, o := range spots {
		if j == i {
			continue
		}
		c := a.clashes.of(v, a.items[j].views[o.view])
		if c.has(s.x-o.x-c.dx, s.y-o.y-c.dy) {
			return true
		}
	}
	return false
}

// setOf is the set of sheets that item i needs at s; nil where it is not known.
func (a *arranging) setOf(i int, s spot) *sheetSet {
	v := a.items[i].views[s.view]
	for k := range v.sets {
		if v.sets[k].at.has(s.x%a.nx, s.y%a.ny) {
			return &v.sets[k]
		}
	}
	return nil
}

// weigh works out what the spots cost; false where that is not known, or where
// the grid would be beyond bounds.
func (a *arranging) weigh(spots []spot) (standing, bool) {
	var w standing
	shown := map[cellAt]patch{}
	rows, cols := 0, 0
	for i, s := range spots {
		set := a.setOf(i, s)
		if set == nil {
			return w, false
		}
		if set.split {
			w.splits++
		}
		w.trouble += len(set.sheets)
		for _, q := range set.sheets {
			at := cellAt{s.y/a.ny + q.r, s.x/a.nx + q.c}
			rows, cols = max(rows, at.r+1), max(cols, at.c+1)
			p := shown[at]
			a.addTo(&p, a.items[i].views[s.view].raster, s, at)
			shown[at] = p
		}
	}
	w.sheets = len(shown)
	w.trouble += 2*max(rows, cols) + rows*cols - w.sheets
	for _, p := range shown {
		if float64(p.x1-p.x0)*a.cx < sliver || float64(p.y1-p.y0)*a.cy < sliver {
			w.slivers++
		}
	}
	for i, s := range spots {
		if a.items[i].whole && a.isTrimmed(a.items[i].views[s.view], s, shown) {
			w.trimmed++
		}
	}
	return w, true
}

// isTrimmed reports whether a join between sheets that are shown runs through a
// piece on one sheet.
func (a *arranging) isTrimmed(v *view, s spot, shown map[cellAt]patch) bool {
	r, c := s.y/a.ny, s.x/a.nx
	there := func(dr, dc int) bool { _, ok := shown[cellAt{r + dr, c + dc}]; return ok }
	x, y := s.x-c*a.nx, s.y-r*a.ny
	half := func(strip int) int { return (strip + 1) / 2 }
	return x < half(a.stripX) && there(0, -1) || y < half(a.stripY) && there(-1, 0) ||
		x+v.wide > a.nx+a.stripX/2 && there(0, 1) || y+len(v.rows) > a.ny+a.stripY/2 && there(1, 0)
}

// patch is the box of the cells a sheet shows, from and up to.
type patch struct{ x0, x1, y0, y1 int }

// addTo adds what a sheet shows of a piece between the joins.
func (a *arranging) addTo(p *patch, r raster, s spot, at cellAt) {
	left, top := at.c*a.nx+a.stripX/2, at.r*a.ny+a.stripY/2
	if at.c == 0 {
		left = 0
	}
	if at.r == 0 {
		top = 0
	}
	right, foot := (at.c+1)*a.nx+a.stripX/2, (at.r+1)*a.ny+a.stripY/2
	for j := max(0, top-s.y); j < min(len(r.rows), foot-s.y); j++ {
		for _, q := range r.rows[j] {
			x0, x1 := max(left, s.x+q.a), min(right, s.x+q.b)
			if x0 >= x1 {
				continue
			}
			y := s.y + j
			if p.x0 == p.x1 {
				*p = patch{x0, x1, y, y + 1}
			}
			p.x0, p.x1, p.y0, p.y1 = min(p.x0, x0), max(p.x1, x1), min(p.y0, y), max(p.y1, y+1)
		}
	}
}
