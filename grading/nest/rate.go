package nest

import (
	"math"

	"quarterstep/model"
)

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

// fitRate fits one coordinate of the printed lines against measure m by least
// squares. A measure that does not change over the printed lines says nothing,
// so the rate then goes by steps.
func (n print) fitRate(m model.Measure, coord func(i int) float64) rate {
	k := len(n.lines)
	if k < 2 {
		return rate{measure: m}
	}
	perStep := (coord(k-1) - coord(0)) / n.steps()
	slope, residual, ok := n.slope(m, coord)
	if !ok {
		m = model.Steps
		slope, residual, _ = n.slope(m, coord)
	}
	return rate{measure: m, perMM: slope, perStep: perStep, residual: residual}
}

func (n print) slope(m model.Measure, coord func(i int) float64) (slope, residual float64, ok bool) {
	x := newSeries(len(n.lines), func(i int) float64 { return n.value(m, i) })
	y := newSeries(len(n.lines), coord)
	sxx := x.dot(x)
	if sxx == 0 {
		return 0, 0, false
	}
	slope = x.dot(y) / sxx
	for i := range x {
		residual = math.Max(residual, math.Abs(y[i]-slope*x[i]))
	}
	return slope, residual, true
}

// typedRate is the rate of a coordinate that moves by gap mm to the next size
// up, as typed for a piece printed in one size.
func (n print) typedRate(m model.Measure, gap float64) rate {
	from := n.lines[0].hi
	if grown := n.valueAt(from+1, m) - n.valueAt(from, m); grown != 0 {
		return rate{measure: m, perMM: gap / grown, perStep: gap}
	}
	return rate{measure: model.Steps, perMM: gap, perStep: gap}
}

// growth is how far the coordinate goes from printed line from to place t.
func (n print) growth(r rate, from int, t float64, method model.Method) float64 {
	edge := n.edge(from, t)
	if method == model.BySteps {
		return r.perStep * (t - edge)
	}
	return r.perMM * (n.valueAt(t, r.measure) - n.valueAt(edge, r.measure))
}

// series is one value for each printed line, less their mean.
type series []float64

func newSeries(n int, value func(i int) float64) series {
	s := make(series, n)
	var mean float64
	for i := range s {
		s[i] = value(i)
		mean += s[i] / float64(n)
	}
	for i := range s {
		s[i] -= mean
	}
	return s
}

func (s series) dot(t series) float64 {
	var sum float64
	for i := range s {
		sum += s[i] * t[i]
	}
	return sum
}
