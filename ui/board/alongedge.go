package board

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/measure"
)

// onEdge is how near an edge both ends of a measure must lie, mm, to be on it:
// ends snap to lines, so that only rounding is bridged.
const onEdge = 0.1

// along is how long the edge is between the two ends of the measure, mm; false
// where they do not lie on one edge, or where it is straight between them.
func (m *measuring) along() (float64, bool) {
	const tol = 0.01
	best, found := math.Inf(1), false
	for _, e := range m.edges() {
		if box := e.Bounds().Grow(onEdge); !box.Contains(m.a) || !box.Contains(m.b) {
			continue
		}
		from, d, err := e.NearestS(m.a, tol)
		if err != nil || d > onEdge {
			continue
		}
		to, d, err := e.NearestS(m.b, tol)
		if err != nil || d > onEdge {
			continue
		}
		if s := math.Abs(to - from); s < best {
			best, found = s, true
		}
	}
	return best, found && best > m.a.Dist(m.b)+onEdge
}

// caption says how the measure went.
func (m *measuring) caption() string {
	way := m.board.asGone(m.b.Sub(m.a))
	if s, ok := m.along(); ok {
		way = words.F("%s; along the edge %s", way, measure.FormatMM(s, m.board.unit))
	}
	return way
}
