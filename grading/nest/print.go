package nest

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model"
)

// print is the printed lines of one piece on the chart, ascending.
type print struct {
	chart model.SizeChart
	lines []span
}

// span is the places on the chart of the sizes that share a printed line: of
// the smallest and of the largest.
type span struct{ lo, hi float64 }

// readPrint places the printed lines of q on the chart.
func readPrint(q model.Piece, chart model.SizeChart) (print, error) {
	n := print{chart: chart}
	for _, o := range q.Nest {
		var s span
		for i, size := range o.Sizes() {
			place, ok := chart.Place(size)
			if !ok {
				return n, words.Errorf("%s is printed in size %s, which chart %s does not have", q.Name, size, chart.Name)
			}
			if i == 0 {
				s.lo = float64(place)
			}
			s.hi = float64(place)
		}
		n.lines = append(n.lines, s)
	}
	if len(n.lines) == 0 {
		return n, words.Errorf("%s has no printed size", q.Name)
	}
	return n, nil
}

// value is measure m of the i-th printed line: where several sizes share it,
// half way between the first and the last.
func (n print) value(m model.Measure, i int) float64 {
	return (n.valueAt(n.lines[i].lo, m) + n.valueAt(n.lines[i].hi, m)) / 2
}

// valueAt is measure m at a place, also beyond the chart; nought for a measure
// the chart lacks.
func (n print) valueAt(place float64, m model.Measure) float64 {
	v, _ := n.chart.Beyond(place, m)
	return v
}

// middle is the place of the i-th printed line, as value takes it.
func (n print) middle(i int) float64 { return (n.lines[i].lo + n.lines[i].hi) / 2 }

// nearest is the index of the printed line that place t goes on from: the
// nearest one; of two as near, the larger.
func (n print) nearest(t float64) int {
	best, least := 0, math.Inf(1)
	for i, s := range n.lines {
		if d := math.Max(s.lo-t, t-s.hi); d <= least {
			best, least = i, d
		}
	}
	return best
}

// edge is the place of the i-th printed line from which place t goes on.
func (n print) edge(i int, t float64) float64 {
	return math.Min(math.Max(t, n.lines[i].lo), n.lines[i].hi)
}

// around finds t among the printed lines: the index i with t between line i
// and line i+1, or false outside the printed range.
func (n print) around(t float64) (int, bool) {
	for i := 0; i+1 < len(n.lines); i++ {
		if t >= n.lines[i].hi && t <= n.lines[i+1].lo {
			return i, true
		}
	}
	return 0, false
}

// at is the index of the line printed for place t, or false.
func (n print) at(t float64) (int, bool) {
	const same = 1e-9
	for i, s := range n.lines {
		if t >= s.lo-same && t <= s.hi+same {
			return i, true
		}
	}
	return 0, false
}

// share is how far t lies from printed line i to i+1 by measure m, 0 to 1.
func (n print) share(m model.Measure, t float64, i int) float64 {
	lo, hi := n.lines[i].hi, n.lines[i+1].lo
	a, b := n.valueAt(lo, m), n.valueAt(hi, m)
	if b != a {
		return min(1, max(0, (n.valueAt(t, m)-a)/(b-a)))
	}
	return (t - lo) / (hi - lo)
}

// steps is how many steps of the chart lie between the first and the last
// printed line.
func (n print) steps() float64 { return n.middle(len(n.lines)-1) - n.middle(0) }
