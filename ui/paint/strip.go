package paint

import "math"

// unit is how many parts a pixel has, where whole numbers are reckoned with.
const (
	unitBits = 20
	unit     = 1 << unitBits
)

// strip is a slanting strip of the picture, as the places, in units, between
// which it crosses a row.
type strip struct{ lo, hi, step int }

// newStrip is the strip of the places (px + dx, .) where k dx + m lies within
// from..to; m is more by more in each further row.
func newStrip(px, k, m, more, from, to float64) strip {
	const least = 1e-6
	if math.Abs(k) < least {
		k = math.Copysign(least, k)
	}
	per := unit / k
	lo, hi := (from-m)*per, (to-m)*per
	if k < 0 {
		lo, hi = hi, lo
	}
	px = (px - 0.5) * unit // pixel i has its middle at i + 1/2
	return strip{int(px + lo), int(px + hi), int(-more * per)}
}

func (s *strip) down() {
	s.lo += s.step
	s.hi += s.step
}

// first and beyond are the first pixel at or after a place, and the first after
// it.
func first(at int) int  { return (at + unit - 1) >> unitBits }
func beyond(at int) int { return at>>unitBits + 1 }
