package straight

import (
	"math"

	"quarterstep/model/geom"
)

// Round is a circle printed on the paper, of whatever size: its middle and
// places all round its edge, in pixels. How a photo shows it, longer one way
// than the other, tells of tilt and bend where little else does.
type Round struct {
	Middle geom.Point
	Edge   []geom.Point
}

// roundNoise is by how much of its size a printed circle may be longer one way
// than the other: the paper it is on need curl up by a degree only, seen 25
// degrees aslant (the ratio of the cosines).
const roundNoise = 0.008

// outOfRound tells of every place of the edge of a round, by how much it is out
// of round under m, in doubts.
func (r Round) outOfRound(m Map, tell func(float64)) {
	c, mean := m.MM(r.Middle), 0.0
	for _, p := range r.Edge {
		mean += m.MM(p).Dist(c) / float64(len(r.Edge))
	}
	// A circle longer one way by a share e is out of round by half of it at the
	// ends, as a cosine twice round: n places of it sum to n/2 squares.
	doubt := roundNoise / 2 * mean * math.Sqrt(float64(len(r.Edge))/2)
	for _, p := range r.Edge {
		tell((m.MM(p).Dist(c) - mean) / doubt)
	}
}
