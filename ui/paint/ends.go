package paint

import "math"

// end is how a chord ends.
type end uint8

const (
	// cutEnd is the end of a line, cut square.
	cutEnd end = iota
	// roundEnd is the end of a line, rounded.
	roundEnd
	// bent is where a line turns a corner: the chord before it rounds the wedge
	// that the two leave open.
	bent
	// smooth is where a line turns so little that both chords, drawn on to where
	// their rims meet, fill the wedge.
	smooth
)

// smoothTurn is the tangent of half the largest turn that counts as smooth: 10
// degrees, where the rims of a line 11 px wide meet 0.02 px outside its rounding.
const smoothTurn = 0.087

// room is how far along a chord that begins so, after a turn of which half has
// this tangent, there is any cover, and from where on it is that of a line
// without ends.
func (e end) room(reach, half float64) (first, from float64) {
	switch e {
	case roundEnd:
		return -reach, 0
	case bent:
		return -0.5, 0
	case smooth:
		over := -reach*half - 0.01
		return over, over
	}
	return -0.5, 0.5
}

// darken raises a row of the mask, from pixel (x, y) on, to what c covers of
// each pixel, its ends counted.
func (c *chord) darken(row []uint8, x, y int, n *pen) {
	if len(row) == 0 {
		return
	}
	dx, dy := float64(x)+0.5-c.p.x, float64(y)+0.5-c.p.y
	side, ahead := c.d.x*dy-c.d.y*dx, c.d.x*dx+c.d.y*dy
	past := c.next.x*(dx-c.length*c.d.x) + c.next.y*(dy-c.length*c.d.y)
	full := min(2*n.r, 1) * 255
	for i := range row {
		dist, drawn, share := math.Abs(side), 1.0, 1.0
		if n.dash != nil {
			dist, drawn = c.dashed(dist, ahead, n)
		}
		if ahead < 0.5 {
			dist, share = c.start.beyond(dist, -ahead, 0)
		}
		if over := ahead - c.length; over > -0.5 {
			d, s := c.stop.beyond(dist, over, past)
			dist, share = d, share+s-1
		}
		if v := min((n.r+0.5-dist)*255, full)*drawn*share + 0.5; v >= 1 {
			row[i] = max(row[i], uint8(v))
		}
		side -= c.d.y
		ahead += c.d.x
		past += c.next.x
	}
}

// dashed is the distance that counts, and the share of a pixel drawn, by the
// dashes. An end that is cut counts by itself, so there the pattern is asked half
// a pixel within it.
func (c *chord) dashed(side, ahead float64, n *pen) (dist, share float64) {
	if n.round {
		return math.Hypot(side, n.dash.away(c.at+min(max(ahead, 0), c.length))), 1
	}
	lo, hi := 0.0, c.length
	if c.start == cutEnd {
		lo = min(0.5, c.length/2)
	}
	if c.stop == cutEnd {
		hi = max(c.length-0.5, c.length/2)
	}
	return side, n.dash.drawnAt(c.at + min(max(ahead, lo), hi))
}

// beyond is the distance that counts, and the share of a pixel covered, for a
// pixel by an end: over is how far it lies beyond it, at most half a pixel
// before it, side how far aside, past how far it lies along the next chord.
func (e end) beyond(side, over, past float64) (dist, share float64) {
	switch {
	case e == smooth || over <= 0 && e != cutEnd:
		return side, 1
	case e == cutEnd:
		return side, min(max(0.5-over, 0), 1)
	case e == roundEnd || past < 0.5:
		return math.Sqrt(side*side + over*over), 1
	}
	return side, min(max(1-over, 0), 1) // the next chord takes over
}
