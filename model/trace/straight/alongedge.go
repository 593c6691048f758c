package straight

import (
	"image"
	"math"

	"quarterstep/model/geom"
)

// leastStep is the step in grey levels that counts as an edge: about twice the
// noise of a phone's picture after the mean of five.
const leastStep = 5

// edgeFound is one cut edge of a page as found in the picture.
type edgeFound struct {
	at    []geom.Point // places on it in pixels, first to last
	share float64      // of the looks across that found it
	step  float64      // grey levels it steps by
}

// station is one look across an edge: t runs from -1 to 1 along it.
type station struct {
	t     float64
	mid   geom.Point
	spots []spot
}

// seekEdge finds the edge that runs within reach pixels beside the line from a
// to b, between the shares from and to of the way, stepping down (-1) or up (1)
// along the normal n. The edge may be bowed by a lens.
func seekEdge(g *image.Gray, a, b geom.Point, n geom.Vec, from, to, reach, sign float64) edgeFound {
	count := int(min(max(a.Dist(b)*(to-from)/3, 24), 400))
	all := make([]station, 0, count)
	for i := range count {
		share := from + (to-from)*(float64(i)+0.5)/float64(count)
		p := a.Lerp(b, share)
		if inside(g, p, 2) {
			all = append(all, station{2*share - 1, p, steps(across(g, p, n, reach), sign, leastStep)})
		}
	}
	if len(all) < 8 {
		return edgeFound{}
	}
	bow := bestLine(all, reach)
	for _, gate := range []float64{3, 1.5, 0.8} {
		next, ok := bow.refit(all, gate)
		if !ok {
			return edgeFound{}
		}
		bow = next
	}
	out := edgeFound{}
	for _, s := range all {
		if k, ok := s.near(bow.at(s.t), 0.8); ok {
			out.at = append(out.at, s.mid.Add(n.Scale(k.off)))
			out.step += k.strength
		}
	}
	out.share = float64(len(out.at)) / float64(count)
	out.step /= float64(max(len(out.at), 1))
	return out
}

// near is the spot of s within gate pixels of off, the nearest one.
func (s station) near(off, gate float64) (spot, bool) {
	best, found := spot{}, false
	for _, k := range s.spots {
		if d := math.Abs(k.off - off); d <= gate {
			best, gate, found = k, d, true
		}
	}
	return best, found
}

// bowed is a line beside another: off = c0 + c1 t + c2 t².
type bowed [3]float64

func (b bowed) at(t float64) float64 { return b[0] + t*(b[1]+t*b[2]) }

// bestLine is the straight line that most stations have a strong spot on,
// within 2 pixels for the bow of a lens.
func bestLine(all []station, reach float64) bowed {
	const gate = 2.0
	var best bowed
	most := -1.0
	for c0 := -reach; c0 <= reach; c0++ {
		for c1 := -reach; c1 <= reach; c1++ {
			if math.Abs(c0)+math.Abs(c1) > reach {
				continue
			}
			score := 0.0
			for _, s := range all {
				off := c0 + c1*s.t
				hit := 0.0
				for _, k := range s.spots {
					if d := math.Abs(k.off - off); d < gate {
						hit = max(hit, (1-d/(2*gate))*min(k.strength, 40))
					}
				}
				score += hit
			}
			if score > most {
				most, best = score, bowed{c0, c1, 0}
			}
		}
	}
	return best
}

// refit is the bowed line of least squares through the spots within gate of b.
func (b bowed) refit(all []station, gate float64) (bowed, bool) {
	var m [3][4]float64
	n := 0
	for _, s := range all {
		k, ok := s.near(b.at(s.t), gate)
		if !ok {
			continue
		}
		n++
		row := [3]float64{1, s.t, s.t * s.t}
		for i := range 3 {
			for j := range 3 {
				m[i][j] += row[i] * row[j]
			}
			m[i][3] += row[i] * k.off
		}
	}
	if n < 8 {
		return bowed{}, false
	}
	return solve3(m)
}

// solve3 solves three equations in three unknowns; false where they do not
// decide.
func solve3(m [3][4]float64) ([3]float64, bool) {
	for i := range 3 {
		p := i
		for r := i + 1; r < 3; r++ {
			if math.Abs(m[r][i]) > math.Abs(m[p][i]) {
				p = r
			}
		}
		m[i], m[p] = m[p], m[i]
		if math.Abs(m[i][i]) < 1e-12 {
			return [3]float64{}, false
		}
		for r := range 3 {
			if r == i {
				continue
			}
			k := m[r][i] / m[i][i]
			for c := i; c < 4; c++ {
				m[r][c] -= k * m[i][c]
			}
		}
	}
	return [3]float64{m[0][3] / m[0][0], m[1][3] / m[1][1], m[2][3] / m[2][2]}, true
}
