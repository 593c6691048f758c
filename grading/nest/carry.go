package nest

import (
	"math"

	"quarterstep/model"
)

// Tolerances of reading an edge, in mm. Values by our own trial on drawn and
// hand-traced nests, not from a source.
const (
	drawnWithin = 0.02 // control points of a drawn nest keep to their shares within this
	handNoise   = 0.3  // rms wobble of a line traced by hand
	handWave    = 30.0 // the shortest wave of that wobble: places closer than half of it are not independent
	places      = 33   // places along an edge where traced sizes are compared
)

// carry says how one control point goes with its edge in one direction: it
// takes share w of the movement of the edge's end and 1 - w of the start's,
// and own is a further movement in proportion to the start's measure.
type carry struct {
	w   float64
	own rate
}

// ends is how an edge's two end points move in one direction.
type ends struct{ start, end rate }

// fitDrawn reads the share of every control point of an edge that all sizes
// draw with the same number of cubics. It is false when they do not keep to
// shares within drawnWithin: then the sizes were not drawn by one construction.
func fitDrawn(n print, ctl [][]axes, e [2]ends, runs [2]bool) ([][2]carry, bool) {
	count := len(ctl[0])
	for _, c := range ctl {
		if len(c) != count {
			return nil, false
		}
	}
	out := make([][2]carry, count)
	out[count-1] = [2]carry{{w: 1}, {w: 1}}
	for k := 1; k < count-1; k++ {
		for a := range 2 {
			c, miss := fitControl(n, ctl, e[a], k, a, usualShare(k, count-1, runs))
			if miss > drawnWithin {
				return nil, false
			}
			out[k][a] = c
		}
	}
	return out, true
}

// usualShare is the share of control point k of last where the print cannot
// tell, because both ends moved alike: evenly along the edge; but the handle at
// an end where the line runs smoothly on goes with that end, so that it still
// does.
func usualShare(k, last int, runs [2]bool) float64 {
	switch {
	case k == 1 && runs[0]:
		return 0
	case k == last-1 && runs[1]:
		return 1
	}
	return float64(k) / float64(last)
}

// fitControl fits control point k in direction a, and says by how much the
// printed sizes miss the fit at worst, in mm. Shares alone come first; a
// movement of its own is added only where shares do not explain the print.
func fitControl(n print, ctl [][]axes, e ends, k, a int, usual float64) (carry, float64) {
	last := len(ctl[0]) - 1
	span := newSeries(len(ctl), func(i int) float64 { return ctl[i][last][a] - ctl[i][0][a] })
	rest := newSeries(len(ctl), func(i int) float64 { return ctl[i][k][a] - ctl[i][0][a] })
	miss := func(w, own float64, body series) float64 {
		var worst float64
		for i := range rest {
			worst = math.Max(worst, math.Abs(rest[i]-w*span[i]-own*body[i]))
		}
		return worst
	}
	const ridge = drawnWithin * drawnWithin
	body := newSeries(len(ctl), func(i int) float64 { return n.value(e.start.measure, i) })
	w := (span.dot(rest) + ridge*usual) / (span.dot(span) + ridge)
	if worst := miss(w, 0, body); worst <= drawnWithin && w > -0.5 && w < 1.5 {
		return carry{w: w}, worst
	}
	bb := body.dot(body)
	if bb == 0 {
		return carry{w: w}, miss(w, 0, body)
	}
	ss, sb := span.dot(span)+ridge, span.dot(body)
	sr, br := span.dot(rest)+ridge*usual, body.dot(rest)
	det := ss*bb - sb*sb
	w = (sr*bb - br*sb) / det
	own := (br*ss - sr*sb) / det
	return carry{w: w, own: n.ownRate(e.start.measure, own)}, miss(w, own, body)
}

// ownRate is the rate of a movement of own mm per mm of measure m.
func (n print) ownRate(m model.Measure, own float64) rate {
	k := len(n.lines) - 1
	return rate{measure: m, perMM: own, perStep: own * (n.value(m, k) - n.value(m, 0)) / n.steps()}
}
