package target

import (
	"math"
	"math/bits"

	"quarterstep/model/geom"
)

// The parts of a target, in radii of its ring's outer edge.
const (
	RingInside = 0.8   // the ring reaches from here to 1
	Checker    = 0.45  // the disc of the checker reaches to here
	DotRing    = 0.625 // where the middles of the dots lie
	DotRadius  = 0.10
	White      = 1.25 // paper must be seen to here
)

// places is how many dots a target has room for, evenly round the middle.
const places = 8

// marks are the dots of each code, bit k for the place k. A checker looks the
// same turned by half, so of two that are each other's half turn only the lower
// is used. Their number is odd, so that one dot misread makes no other code.
var marks = codeTable()

// Codes is how many targets can be told apart.
var Codes = len(marks)

func codeTable() []uint8 {
	var out []uint8
	for c := range 256 {
		m := uint8(c)
		if n := bits.OnesCount8(m); n%2 == 1 && n <= 5 && m <= halfTurn(m) {
			out = append(out, m)
		}
	}
	return out
}

// halfTurn is a target's dots after half a turn.
func halfTurn(m uint8) uint8 { return bits.RotateLeft8(m, places/2) }

// codeOf is the code with the dots m.
func codeOf(m uint8) (int, bool) {
	m = min(m, halfTurn(m))
	for i, c := range marks {
		if c == m {
			return i, true
		}
	}
	return 0, false
}

// Dots are the middles of the dots of a code, in radii. A code that there is
// not has none.
func Dots(code int) []geom.Point {
	if code < 0 || code >= len(marks) {
		return nil
	}
	var out []geom.Point
	for k := range places {
		if marks[code]>>k&1 == 1 {
			out = append(out, dotPlace(k, 0))
		}
	}
	return out
}

// dotPlace is the place k for a dot, in radii, on a target turned by turn.
func dotPlace(k int, turn float64) geom.Point {
	return round(DotRing, turn+math.Pi/places+float64(k)*2*math.Pi/places)
}

// round is the place at r from the middle, by an angle from x to y.
func round(r, angle float64) geom.Point {
	s, c := math.Sincos(angle)
	return geom.Pt(r*c, r*s)
}

// Dark reports whether a target of that code is printed dark at p, in radii.
func Dark(code int, p geom.Point) bool {
	r := geom.Vec(p).Len()
	switch {
	case r <= Checker:
		return (p.X >= 0) == (p.Y >= 0)
	case r >= RingInside && r <= 1:
		return true
	}
	for _, d := range Dots(code) {
		if d.Dist(p) <= DotRadius {
			return true
		}
	}
	return false
}
