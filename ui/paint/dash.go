package paint

import "math"

// dashes is a pattern of dashes made ready: how much of a pixel that lies at
// each place along it is drawn.
type dashes struct {
	pattern []float64      // px drawn, px left out, ...
	period  float64        // px
	per     float64        // 2^32 by period
	share   [places]uint8  // of 255
	gap     [places]uint16 // how many places from here on, at least, have no share
}

// places is how many places a pattern is told at.
const (
	placeBits = 12
	places    = 1 << placeBits
)

// newDashes makes a pattern ready; nil if it is too short to be seen, or has no
// length.
func newDashes(pattern []float64) *dashes {
	d := &dashes{pattern: pattern}
	for _, v := range pattern {
		d.period += v
	}
	if !(d.period >= 0.5 && d.period < 1e6) {
		return nil
	}
	d.per = (1 << 32) / d.period
	for i := range d.share {
		at := (float64(i) + 0.5) / places * d.period
		d.share[i] = uint8((d.drawn(at+0.5)-d.drawn(at-0.5))*255 + 0.5)
	}
	gap := uint16(0)
	for i := 2*places - 1; i >= 0; i-- {
		gap = min(gap+1, places)
		if d.share[i%places] != 0 {
			gap = 0
		}
		d.gap[i%places] = gap
	}
	return d
}

// gapAt reports whether nothing is drawn at n places, from at on, along apart.
func (d *dashes) gapAt(at, along uint32, n int) bool {
	long := int(int32(along)) * (n - 1)
	if long < 0 {
		at, long = at+uint32(long), -long
	}
	return long>>(32-placeBits)+2 <= int(d.gap[at>>(32-placeBits)])
}

// drawn is how many px are drawn up to place s.
func (d *dashes) drawn(s float64) float64 {
	whole := math.Floor(s / d.period)
	left, sum, all := s-whole*d.period, 0.0, 0.0
	for i, v := range d.pattern {
		if i%2 == 0 {
			all += v
			sum += min(max(left, 0), v)
		}
		left -= v
	}
	return whole*all + sum
}

// place is place s px along the pattern, 2^32 a period.
func (d *dashes) place(s float64) uint32 {
	if far := s * d.per; far < 1<<62 && far > -1<<62 {
		return uint32(int64(far))
	}
	return uint32(int64((s - math.Floor(s/d.period)*d.period) * d.per))
}

// steps is s px, less than 2^20, along the pattern, as a step from place to place.
func (d *dashes) steps(s float64) uint32 { return uint32(int64(s * d.per)) }

// drawnAt is how much of a pixel at place s is drawn, 0 to 1.
func (d *dashes) drawnAt(s float64) float64 {
	return float64(d.share[d.place(s)>>(32-placeBits)]) / 255
}

// away is how far place s is from the nearest dash.
func (d *dashes) away(s float64) float64 {
	s -= math.Floor(s/d.period) * d.period
	near, at := d.period, 0.0
	for i, v := range d.pattern {
		if i%2 == 0 {
			near = min(near, max(at-s, s-at-v, 0))
		}
		at += v
	}
	return min(near, max(d.period-s, 0), s+d.pattern[len(d.pattern)-1])
}
