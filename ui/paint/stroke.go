package paint

import "math"

// span is a stretch of one row of the mask that a line has darkened.
type span struct{ y, x0, x1 int32 }

// band is the rows from top to low of a picture, with what one worker needs to
// paint them.
type band struct {
	pix      []byte
	stride   int
	width    int
	top, low int
	mask     []uint8 // of the band's rows; all zero between lines
	spans    []span
	fill     filler
}

// stroke paints the runs as one line of radius r px.
func (b *band) stroke(pts []pt, runs []run, r float64, round bool, k ink) {
	free := end{round: round}
	for _, u := range runs {
		last := u.to - 2
		for i := u.from; i <= last; i++ {
			start, stop := free, free
			if i > u.from {
				start = end{joint: true}
			}
			if i < last {
				stop = end{round: true, joint: true, next: pts[i+2].sub(pts[i+1]).unit()}
			}
			b.chord(pts[i], pts[i+1], r, start, stop)
		}
	}
	b.lay(k)
}

// end is how a chord ends: cut square, rounded, or joined to the next one,
// where the rounding only fills the wedge that the two leave open.
type end struct {
	round, joint bool
	next         pt // direction of the next chord, at the end of the first of two
}

// chord darkens the mask near the straight line from p to q.
func (b *band) chord(p, q pt, r float64, start, stop end) {
	reach := r + 0.5
	y0 := max(int(math.Floor(min(p.y, q.y)-reach)), b.top)
	y1 := min(int(math.Ceil(max(p.y, q.y)+reach)), b.low)
	if y0 >= y1 || max(p.x, q.x)+reach < 0 || min(p.x, q.x)-reach > float64(b.width) {
		return
	}
	d := q.sub(p)
	length := d.len()
	if length < 1e-9 {
		d, length = pt{1, 0}, 0
	} else {
		d = d.scale(1 / length)
	}
	c := capsule{p: p, d: d, length: length, r: r, full: min(1, 2*r) * 255, start: start, stop: stop, perSide: -1 / d.y, perAhead: 1 / d.x}
	for y := y0; y < y1; y++ {
		lo, hi := c.extent(float64(y)+0.5, reach)
		x0, x1 := max(int(math.Floor(lo)), 0), min(int(math.Ceil(hi)), b.width)
		if x0 >= x1 {
			continue
		}
		row := (y - b.top) * b.width
		c.darken(b.mask[row+x0:row+x1], float64(x0)+0.5-p.x, float64(y)+0.5-p.y)
		b.spans = append(b.spans, span{int32(y), int32(x0), int32(x1)})
	}
}

// capsule is a chord with a radius: all places within r of it.
type capsule struct {
	p, d        pt // start and unit direction
	length, r   float64
	full        float64 // darkness in the middle, of 255
	start, stop end
	// perSide and perAhead are px across a row for a px aside and ahead.
	perSide, perAhead float64
}

// extent is the range of x that the capsule grown by half a pixel covers at
// height y: its body, a band cut square half a pixel beyond the ends, and its
// two round ends.
func (c *capsule) extent(y, reach float64) (lo, hi float64) {
	dy := y - c.p.y
	lo, hi = math.Inf(-1), math.Inf(1)
	lo, hi = clip(lo, hi, -c.d.y, c.perSide, c.d.x*dy, -reach, reach)
	lo, hi = clip(lo, hi, c.d.x, c.perAhead, c.d.y*dy, -0.5, c.length+0.5)
	if c.start.round {
		lo, hi = c.cap(lo, hi, 0, dy, reach)
	}
	if c.stop.round {
		lo, hi = c.cap(lo, hi, c.length, dy, reach)
	}
	return c.p.x + lo, c.p.x + hi
}

// clip narrows lo..hi to where from <= k x + m <= to; per is 1/k.
func clip(lo, hi, k, per, m, from, to float64) (float64, float64) {
	if k < 1e-9 && k > -1e-9 {
		if m < from || m > to {
			return 1, -1
		}
		return lo, hi
	}
	a, b := (from-m)*per, (to-m)*per
	if k < 0 {
		a, b = b, a
	}
	return max(lo, a), min(hi, b)
}

// cap widens lo..hi by the round end at s along the chord.
func (c *capsule) cap(lo, hi, s, dy, reach float64) (float64, float64) {
	h := dy - s*c.d.y
	if h < -reach || h > reach {
		return lo, hi
	}
	half, mid := math.Sqrt(reach*reach-h*h), s*c.d.x
	if lo > hi {
		return mid - half, mid + half
	}
	return min(lo, mid-half), max(hi, mid+half)
}

// darken raises a row of the mask to what the capsule covers of each pixel, of
// which the first has its middle at (dx, dy) from the start. A pixel's cover is
// taken from its middle's distance to the line, as if the line's edge crossed
// it square on.
func (c *capsule) darken(row []uint8, dx, dy float64) {
	side, ahead := c.d.x*dy-c.d.y*dx, c.d.x*dx+c.d.y*dy
	if end := ahead + c.d.x*float64(len(row)-1); min(ahead, end) >= 0.5 && max(ahead, end) <= c.length-0.5 {
		c.darkenBody(row, side)
		return
	}
	past := c.stop.next.x*(dx-c.length*c.d.x) + c.stop.next.y*(dy-c.length*c.d.y)
	for i := range row {
		dist, share := math.Abs(side), 1.0
		if ahead < 0.5 {
			dist, share = c.start.beyond(dist, -ahead, 0)
		}
		if over := ahead - c.length; over > -0.5 {
			d, s := c.stop.beyond(dist, over, past)
			dist, share = d, share+s-1
		}
		if v := min((c.r+0.5-dist)*255, c.full)*share + 0.5; v >= 1 {
			row[i] = max(row[i], uint8(v))
		}
		side -= c.d.y
		ahead += c.d.x
		past += c.stop.next.x
	}
}

// darkenBody is darken away from the ends.
func (c *capsule) darkenBody(row []uint8, side float64) {
	edge := (c.r+0.5)*255 + 0.5
	side, step, full := side*255, c.d.y*255, c.full+0.5
	for i := range row {
		if v := min(edge-math.Abs(side), full); v >= 1 {
			row[i] = max(row[i], uint8(v))
		}
		side -= step
	}
}

// beyond is the distance that counts, and the share of a pixel covered, for a
// pixel by an end: over is how far it lies beyond it, at most half a pixel
// before it, side how far aside, past how far it lies along the next chord.
func (e end) beyond(side, over, past float64) (dist, share float64) {
	switch {
	case over <= 0 && (e.round || e.joint):
		return side, 1
	case e.round && (!e.joint || past < 0.5):
		return math.Sqrt(side*side + over*over), 1
	case e.joint:
		return side, min(max(1-over, 0), 1) // the next chord takes over
	}
	return side, min(max(0.5-over, 0), 1)
}

// lay puts the mask on the picture in colour k and clears it.
func (b *band) lay(k ink) {
	for _, s := range b.spans {
		mask := b.mask[(int(s.y)-b.top)*b.width:][s.x0:s.x1]
		row := b.pix[int(s.y)*b.stride+int(s.x0)*4:]
		for i, m := range mask {
			if m != 0 {
				k.over(row[i*4:i*4+4], uint32(m))
				mask[i] = 0
			}
		}
	}
	b.spans = b.spans[:0]
}
