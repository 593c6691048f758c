package trace

import (
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/trace/follow"
)

// Faults are what cannot be right of the lines of a tracing that are done: one
// that crosses itself or runs out and back, has other corners than the first, encloses less than a
// smaller size, or runs where another size runs. Each says what, by how much and
// what to do, and where to look.
func Faults(k model.Tracing, chart model.SizeChart) []follow.Doubt {
	var done []model.TracedSize
	for _, s := range k.Sizes {
		if s.Closed && len(s.Edges) > 2 {
			done = append(done, s)
		}
	}
	slices.SortStableFunc(done, func(a, b model.TracedSize) int {
		x, _ := chart.Place(a.Size)
		y, _ := chart.Place(b.Size)
		return x - y
	})
	var out []follow.Doubt
	for i, s := range done {
		out = append(out, crossed(s)...)
		out = append(out, spurs(s)...)
		if i == 0 {
			continue
		}
		if f, ok := against(done[i-1], s); ok {
			out = append(out, f)
		}
	}
	return out
}

// crossed is where a line crosses itself.
func crossed(s model.TracedSize) []follow.Doubt {
	const tol = 0.05 // mm
	var out []follow.Doubt
	for _, c := range geom.SelfCrossings(s.Line(), tol) {
		out = append(out, follow.Doubt{At: c.At, Say: words.F("the line of size %s crosses itself; move the corner or the point beside it", s.Size)})
	}
	return out
}

// spurs are where a line turns back: sharply within an edge, or at a corner onto
// the edge it came by.
func spurs(s model.TracedSize) []follow.Doubt {
	const within, back = 60 * math.Pi / 180, 165 * math.Pi / 180
	var out []follow.Doubt
	for j, e := range s.Edges {
		for i := 1; i < len(e); i++ {
			if turn(e[i-1:i], e[i:i+1]) > within {
				out = append(out, follow.Doubt{At: e[i].P0, Say: words.F("an edge of size %s turns sharply where it has no corner", s.Size)})
			}
		}
		if turn(s.Edges[(j+len(s.Edges)-1)%len(s.Edges)], e) > back {
			out = append(out, follow.Doubt{At: e.Start(), Say: words.F("the line of size %s runs past its corner and back", s.Size)})
		}
	}
	return out
}

// turn is the angle from the end of a to the start of b, without its side.
func turn(a, b geom.Path) float64 {
	u, v := a.EndDir(), b.StartDir()
	return math.Abs(math.Atan2(u.Cross(v), u.Dot(v)))
}

// against is what cannot be right of a line beside the next smaller one.
func against(small, large model.TracedSize) (follow.Doubt, bool) {
	at := large.Corners[0]
	if a, b := len(large.Corners), len(small.Corners); a != b {
		return follow.Doubt{At: at, Say: words.F("size %s has %d corners and size %s has %d; click the same ones in each", large.Size, a, small.Size, b)}, true
	}
	if apart := farthest(large, small); apart < sameLine {
		return follow.Doubt{At: at, Say: words.F("size %s runs where size %s does; one of them was traced twice", large.Size, small.Size)}, true
	}
	if a, b := area(large), area(small); a < b*(1-slightly) {
		return follow.Doubt{At: at, Say: words.F("size %s came out smaller than size %s; their lines were taken for each other", large.Size, small.Size)}, true
	}
	return follow.Doubt{}, false
}

// What tells two lines apart: how far in mm they lie from each other somewhere,
// and by what share of its area the larger size may be the smaller one.
const (
	sameLine = 0.4
	slightly = 0.002
)

// farthest is how far at most a line lies from another, looked at in the corners
// and a few places of every edge.
func farthest(s, from model.TracedSize) float64 {
	const tol, parts = 0.05, 4
	line := from.Line()
	var most float64
	for _, e := range s.Edges {
		for _, c := range e {
			for i := range parts {
				_, _, d := line.Nearest(c.At(float64(i)/parts), tol)
				most = max(most, d)
			}
		}
	}
	return most
}

func area(s model.TracedSize) float64 {
	a := s.Line().Area()
	return max(a, -a)
}
