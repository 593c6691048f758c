package paint

import "math"

// darkBits is how many binary places a darkness, of 255, has.
const darkBits = 16

// cover is how dark a chord makes the pixels of one row after the other: by
// their distance from it, as if the rim of the line crossed them square on, and
// by the pattern of dashes at their place along it.
type cover struct {
	edge, full       int // darkness in the middle, as if wide, and as it is
	side, step, more int // distance at the row's first pixel, a pixel, a row, as darkness
	dash             *dashes
	at, along, ahead uint32 // place in the pattern at the row's first pixel, a pixel, a row
	endless          bool   // the chord's ends do not count
	body             strip  // where they do not
	chord            *chord
	pen              *pen
}

// set makes v ready for the row that lies dy under the start of c.
func (v *cover) set(c *chord, n *pen, dy float64) {
	const dark, half = 255 << darkBits, 1 << (darkBits - 1)
	dx := 0.5 - c.p.x
	v.edge, v.full = int((n.r+0.5)*dark)+half, int(min(2*n.r, 1)*dark)+half
	v.side, v.step, v.more = int((c.d.x*dy-c.d.y*dx)*dark), int(c.d.y*dark), int(c.d.x*dark)
	v.dash = n.dash
	if d := n.dash; d != nil {
		v.at, v.along, v.ahead = d.place(c.at+c.d.x*dx+c.d.y*dy), d.steps(c.d.x), d.steps(c.d.y)
	}
	round := n.round && n.dash != nil
	v.endless = c.from == c.first && c.to == c.last && !round
	if v.endless {
		return
	}
	v.chord, v.pen = c, n
	v.body = newStrip(c.p.x, c.d.x, c.d.y*dy, c.d.y, c.from, c.to)
	if round {
		v.body = strip{lo: math.MaxInt / 2} // nowhere
	}
}

func (v *cover) down() {
	v.side += v.more
	v.at += v.ahead
	v.body.down()
}

// ends darkens a row of the mask, from pixel (x, y) on, near the ends of the
// chord.
func (v *cover) ends(row []uint8, x, y int) {
	from := min(max(first(v.body.lo)-x, 0), len(row))
	to := min(max(beyond(v.body.hi)-x, from), len(row))
	v.chord.darken(row[:from], x, y, v.pen)
	v.chord.darken(row[to:], x+to, y, v.pen)
	if v.dash == nil {
		v.solid(row[from:to], x+from)
	} else {
		v.dashed(row[from:to], x+from)
	}
}

// solid darkens a row from pixel x on.
func (v *cover) solid(row []uint8, x int) {
	side, step, edge, full := v.side-x*v.step, v.step, v.edge, v.full
	for i := range row {
		dark := min(edge-max(side, -side), full) >> darkBits
		row[i] = uint8(max(dark, int(row[i])))
		side -= step
	}
}

// dashed is solid for a line of dashes.
func (v *cover) dashed(row []uint8, x int) bool {
	side, step, edge, full := v.side-x*v.step, v.step, v.edge, v.full
	at, along, share := v.at+uint32(x)*v.along, v.along, v.dash.share[:]
	if v.dash.gapAt(at, along, len(row)) {
		return false
	}
	for i := range row {
		dark := max(min(edge-max(side, -side), full)>>darkBits, 0)
		dark = (dark*int(share[at>>(32-placeBits)]) + 255) >> 8
		row[i] = uint8(max(dark, int(row[i])))
		side -= step
		at += along
	}
	return true
}
