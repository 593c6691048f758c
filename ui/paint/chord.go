package paint

import "math"

// chord is one straight stretch of a line.
type chord struct {
	p, d        pt // start and unit direction
	length      float64
	at          float64 // px of line before it
	start, stop end
	next        pt // direction of the next chord, where stop is bent
	// first and last are how far along it there is any cover, from and to how far
	// along the cover is that of a line without ends.
	first, from, to, last float64
	top, low              int // rows it may darken
}

// chordsOf appends those chords of line, drawn reach px to either side, that may
// be seen in a picture of size most.
func chordsOf(to []chord, line []pt, reach float64, round bool, most pt) []chord {
	free := cutEnd
	if round {
		free = roundEnd
	}
	var at float64
	i, d, length := heading(line, 0)
	first, from := free.room(reach, 0)
	start := free
	for i < len(line) {
		c := chord{p: line[i-1], d: d, length: length, at: at, start: start, stop: free, first: first, from: from}
		at += length
		if i, d, length = heading(line, i); i < len(line) {
			c.next = d
			c.stop = bent
			half := math.Abs(c.d.cross(d)) / (1 + c.d.dot(d)) // tangent of half the turn
			if half < smoothTurn && c.d.dot(d) > 0 {
				c.stop = smooth
			}
			start = c.stop
			first, from = start.room(reach, half)
			c.last, c.to = c.length-first, c.length-from
			if start == bent {
				c.last = c.length + reach
			}
		} else {
			last, until := free.room(reach, 0)
			c.last, c.to = c.length-last, c.length-until
		}
		if c.within(most, reach) {
			to = append(to, c)
		}
	}
	return to
}

// heading is the first point after i that is not on the one before it, and how
// the line goes there; len(line) if there is none.
func heading(line []pt, i int) (next int, d pt, length float64) {
	for i++; i < len(line); i++ {
		d = line[i].sub(line[i-1])
		if length = d.len(); length > 1e-9 && length < 1e12 {
			return i, d.scale(1 / length), length
		}
	}
	return i, d, 0
}

// within notes the rows that c may darken, leaves out what lies beyond a picture
// of size most, and reports whether anything remains.
func (c *chord) within(most pt, reach float64) bool {
	left, right := extent(c.p.x, c.d.x, c.d.y, c.first, c.last, reach)
	up, down := extent(c.p.y, c.d.y, c.d.x, c.first, c.last, reach)
	if right < 0 || left > most.x || down < 0 || up > most.y {
		return false
	}
	// A pixel is asked for at its middle.
	c.top, c.low = int(max(up+0.5, 0)), int(min(down+0.5, most.y))
	if left < 0 || right > most.x {
		c.cut(c.p.x, c.d.x, most.x, reach)
	}
	if up < 0 || down > most.y {
		c.cut(c.p.y, c.d.y, most.y, reach)
	}
	c.from = min(max(c.from, c.first), c.last)
	c.to = max(min(c.to, c.last), c.from)
	if c.first > 0 {
		c.begin(c.first)
	}
	return c.top < c.low && c.first < c.last
}

// begin makes c begin s px further along: what is reckoned from a start far out of
// sight is not exact.
func (c *chord) begin(s float64) {
	c.p, c.at, c.start = c.p.add(c.d.scale(s)), c.at+s, smooth
	c.length, c.first, c.from, c.to, c.last = c.length-s, c.first-s, c.from-s, c.to-s, c.last-s
}

// extent is how far the places from first to last along, and up to reach aside,
// go to either side, where p is the start, along and aside how far one px of each
// goes.
func extent(p, along, aside, first, last, reach float64) (lo, hi float64) {
	a, b, c := along*first, along*last, math.Abs(aside)*reach
	return p + min(a, b) - c, p + max(a, b) + c
}

// cut narrows first..last to where p + s d lies within reach of 0..most.
func (c *chord) cut(p, d, most, reach float64) {
	if math.Abs(d) < 1e-9 {
		return
	}
	a, b := (-reach-1-p)/d, (most+reach+1-p)/d
	c.first, c.last = max(c.first, min(a, b)), min(c.last, max(a, b))
}
