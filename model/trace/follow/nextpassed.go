package follow

import (
	"math"

	"quarterstep/model/geom"
)

// passed is how far along a side its corners lie in the other size: the turning
// ones where they cross, and those passed between by how the corners next to
// them that are known have moved. What these move apart goes to the edges
// between by the square of their lengths: short ones, as from a notch to a
// corner, stay as they are as a rule. With two sizes traced, each corner goes as
// it went between these.
func (s *nextSearch) passed(d *flank, p, q crossing, known map[int]geom.Point) []float64 {
	n := len(d.corners)
	t := &d.tracks[p.after]
	out := make([]float64, n)
	moves := make([]geom.Vec, n)
	fixed := make([]bool, n)
	out[0], moves[0], fixed[0] = p.begins, p.by, true
	out[n-1], moves[n-1], fixed[n-1] = q.ends, q.by, true
	for j := 1; j < n-1; j++ {
		i := d.corners[j]
		if at, ok := known[i]; ok {
			moves[j], fixed[j] = at.Sub(s.from.corner(i)), true
		} else if s.want != nil {
			moves[j], fixed[j] = s.want[i], true
		}
	}
	for a := 0; a < n-1; {
		b := a + 1
		for !fixed[b] {
			b++
		}
		share(d, moves, a, b)
		a = b
	}
	for j := 1; j < n-1; j++ {
		out[j], _ = d.nearest(t, s.from.corner(d.corners[j]).Add(moves[j]))
	}
	return out
}

// share moves the corners between a and b of a side, whose moves are known.
func share(d *flank, moves []geom.Vec, a, b int) {
	var all, sum float64
	for j := a; j < b; j++ {
		l := d.far[j+1] - d.far[j]
		all += l * l
	}
	for j := a; j < b-1; j++ {
		l := d.far[j+1] - d.far[j]
		sum += l * l
		u := sum / math.Max(all, 1e-9)
		moves[j+1] = moves[a].Scale(1 - u).Add(moves[b].Scale(u))
	}
}

// settlePassed is a corner on a track, by the print beside it.
func (s *nextSearch) settlePassed(d *flank, t *track, far float64) geom.Point {
	k, at := int(d.index(far)), d.on(t, far)
	var sum, n float64
	for j := max(k-8, 0); j <= min(k+8, len(t.pts)-1); j++ {
		if o, ok := s.printBeside(t.pts[j], d.places[j], besideArm); ok {
			sum, n = sum+o, n+1
		}
	}
	if n < 3 {
		return at
	}
	return at.Add(d.places[k].out.Scale(sum / n))
}
