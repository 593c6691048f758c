package tile

// clash is where one piece must not lie for another: bit (x, y) is set where
// its first cell, x+dx across and y+dy down from the other's, brings them
// closer than pad cells.
type clash struct {
	bitmap
	dx, dy int
}

// clashOf works out where a must not lie when b lies at (0, 0). Two rows of
// cells are too close while any run of the one, grown by pad, meets one of the
// other; rows are taken pad to either side. Stretches of a row that meet are
// gathered and set as one, for most of them lie on each other.
func clashOf(a, b raster) clash {
	near := thick(b.rows)
	c := clash{dx: 1 - a.wide - pad, dy: 1 - len(a.rows) - pad}
	c.bitmap = newBitmap(a.wide+b.wide+2*pad-1, len(a.rows)+len(near)-1)
	gathered := make([]run, c.high())
	for k, there := range near {
		for j, here := range a.rows {
			y := k - j + len(a.rows) - 1
			for _, p := range here {
				for _, q := range there {
					c.gather(&gathered[y], y, run{q.a - p.b + 1 - pad - c.dx, q.b - p.a + pad - c.dx})
				}
			}
		}
	}
	for y, r := range gathered {
		c.set(y, r.a, r.b)
	}
	return c
}

// gather adds r to what is gathered of row y; where the two do not meet, what
// was there is set and r takes its place.
func (b bitmap) gather(g *run, y int, r run) {
	if r.a <= g.b && g.a <= r.b {
		*g = run{min(g.a, r.a), max(g.b, r.b)}
		return
	}
	b.set(y, g.a, g.b)
	*g = r
}

// thick is rows of runs with, in each, the runs of the rows up to pad above and
// below; it begins pad rows before the first.
func thick(rows [][]run) [][]run {
	out := make([][]run, len(rows)+2*pad)
	for i := range out {
		var all []run
		for k := max(0, i-2*pad); k <= min(i, len(rows)-1); k++ {
			all = append(all, rows[k]...)
		}
		out[i] = merge(all)
	}
	return out
}

// clashes keeps what was worked out between the views of all pieces.
type clashes struct {
	views []*view
	known [][]*clash
}

func newClashes(items []*item) *clashes {
	c := &clashes{}
	for _, it := range items {
		for _, v := range it.views {
			v.number = len(c.views)
			c.views = append(c.views, v)
		}
	}
	c.known = make([][]*clash, len(c.views))
	for i := range c.known {
		c.known[i] = make([]*clash, len(c.views))
	}
	return c
}

// of is where view a must not lie for view b.
func (c *clashes) of(a, b *view) *clash {
	k := &c.known[a.number][b.number]
	if *k == nil {
		made := clashOf(a.raster, b.raster)
		*k = &made
	}
	return *k
}
