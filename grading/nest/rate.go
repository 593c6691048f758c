package nest

import (
	"math"

	"quarterstep/model"
)

// print is the printed sizes of one piece on the chart: places[i] is the place
// of the i-th printed size, ascending.
type print struct {
	chart  model.SizeChart
	places []int
}

// value is measure m at the i-th printed size.
func (n print) value(m model.Measure, i int) float64 {
	v, _ := n.chart.At(float64(n.places[i]), m)
	return v
}

// nearest is the index of the printed size that place t goes on from: the
// nearest one; of two as near, the larger.
func (n print) nearest(t float64) int {
	best := 0
	for i, p := range n.places {
		if math.Abs(float64(p)-t) <= math.Abs(float64(n.places[best])-t) {
			best = i
		}
	}
	return best
}

// around finds t among the printed sizes: the index i with
// places[i] <= t <= places[i+1], or false outside the printed range.
func (n print) around(t float64) (int, bool) {
	for i := 0; i+1 < len(n.places); i++ {
		if t >= float64(n.places[i]) && t <= float64(n.places[i+1]) {
			return i, true
		}
	}
	return 0, false
}

// at is the index of the size printed for place t, or false.
func (n print) at(t float64) (int, bool) {
	for i, p := range n.places {
		if math.Abs(float64(p)-t) < 1e-9 {
			return i, true
		}
	}
	return 0, false
}

// share is how far t lies from printed size i to i+1 by measure m, 0 to 1.
func (n print) share(m model.Measure, t float64, i int) float64 {
	a, b := n.value(m, i), n.value(m, i+1)
	v, ok := n.chart.At(t, m)
	if ok && b != a {
		return min(1, max(0, (v-a)/(b-a)))
	}
	pa, pb := float64(n.places[i]), float64(n.places[i+1])
	return (t - pa) / (pb - pa)
}

// rate is how one coordinate moves: mm per mm of its measure, and mm per step
// of the chart.
type rate struct {
	measure model.Measure
	perMM   float64
	perStep float64
	// residual is the largest distance between the printed coordinate and the
	// straight line in the measure, mm.
	residual float64
}

// fitRate fits one coordinate of the printed sizes against measure m by least
// squares. A measure that does not change over the printed sizes says nothing,
// so the rate then goes by steps.
func (n print) fitRate(m model.Measure, coord func(i int) float64) rate {
	k := len(n.places)
	if k < 2 {
		return rate{measure: m}
	}
	first, last := n.places[0], n.places[k-1]
	perStep := (coord(k-1) - coord(0)) / float64(last-first)
	slope, residual, ok := n.slope(m, coord)
	if !ok {
		m = model.Steps
		slope, residual, _ = n.slope(m, coord)
	}
	return rate{measure: m, perMM: slope, perStep: perStep, residual: residual}
}

func (n print) slope(m model.Measure, coord func(i int) float64) (slope, residual float64, ok bool) {
	k := float64(len(n.places))
	var mx, my float64
	for i := range n.places {
		mx += n.value(m, i) / k
		my += coord(i) / k
	}
	var sxx, sxy float64
	for i := range n.places {
		dx := n.value(m, i) - mx
		sxx += dx * dx
		sxy += dx * (coord(i) - my)
	}
	if sxx == 0 {
		return 0, 0, false
	}
	slope = sxy / sxx
	for i := range n.places {
		r := coord(i) - my - slope*(n.value(m, i)-mx)
		residual = math.Max(residual, math.Abs(r))
	}
	return slope, residual, true
}

// growth is how far the coordinate goes from printed size from to place t.
func (n print) growth(r rate, from int, t float64, method model.Method) float64 {
	if method == model.BySteps {
		return r.perStep * (t - float64(n.places[from]))
	}
	v, ok := n.chart.At(t, r.measure)
	if !ok {
		return r.perStep * (t - float64(n.places[from]))
	}
	return r.perMM * (v - n.value(r.measure, from))
}
