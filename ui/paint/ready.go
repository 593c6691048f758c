package paint

import "slices"

// many is how many inks and patterns of dashes are kept ready.
const many = 64

// ready are inks and patterns of dashes made ready, kept from one line and
// picture to the next.
type ready struct {
	inks     []*shades
	patterns []*dashes
	scaled   []float64 // the pattern asked for, in device px
}

// shades is k made ready.
func (r *ready) shades(k ink) *shades {
	for _, t := range r.inks {
		if t.ink == k {
			return t
		}
	}
	if len(r.inks) >= many {
		r.inks = nil
	}
	t := newShades(k)
	r.inks = append(r.inks, t)
	return t
}

// dashes is the pattern (px drawn, px left out, ...) made ready for a screen of
// factor device px a px. It is nil, a line without gaps, where newDashes is.
func (r *ready) dashes(pattern []float64, factor float64) *dashes {
	if len(pattern) == 0 || len(pattern)%2 != 0 {
		return nil
	}
	r.scaled = r.scaled[:0]
	for _, d := range pattern {
		r.scaled = append(r.scaled, max(d, 0)*factor)
	}
	for _, d := range r.patterns {
		if slices.Equal(d.pattern, r.scaled) {
			return d
		}
	}
	d := newDashes(slices.Clone(r.scaled))
	if d == nil {
		return nil
	}
	if len(r.patterns) >= many {
		r.patterns = nil
	}
	r.patterns = append(r.patterns, d)
	return d
}
