package follow

import (
	"math"

	"quarterstep/model/geom"
)

// Weights of what speaks for a carried edge, by trial on rendered nests.
const (
	perRank   = 0.6  // each line between, for all of an edge
	perSide   = 0.5  // an edge that lies far outside for a larger size, inside for a smaller one
	perStrain = 0.25 // an edge that grows by its usual share
	perBulge  = 0.04 // half a mm that an edge's middle moves beyond its corners
)

// together chooses a move for every corner so that all edges lie best.
func (s *nextSearch) together() []int {
	n := len(s.from.edges)
	s.pairs = make([][][]float64, n)
	for i := range n {
		next := s.moves[(i+1)%n]
		s.pairs[i] = make([][]float64, len(s.moves[i]))
		for a, m := range s.moves[i] {
			s.pairs[i][a] = make([]float64, len(next))
			for b, k := range next {
				s.pairs[i][a][b] = s.edgeScore(i, m.by, k.by)
			}
		}
	}
	best, choice := math.Inf(-1), []int(nil)
	for a := range s.moves[0] {
		if score, way := s.bestRing(0, a); score > best {
			best, choice = score, way
		}
	}
	return choice
}

// bestRing is the best choice for all corners in which corner c takes move a.
func (s *nextSearch) bestRing(c, a int) (float64, []int) {
	n := len(s.from.edges)
	score := make([]float64, len(s.moves[c]))
	for k := range score {
		score[k] = math.Inf(-1)
	}
	score[a] = s.moves[c][a].score
	back := make([][]int, n)
	for step := range n {
		i, j := (c+step)%n, (c+step+1)%n
		next := make([]float64, len(s.moves[j]))
		back[step] = make([]int, len(next))
		for b := range next {
			next[b] = math.Inf(-1)
			for k, v := range score {
				if w := v + s.pairs[i][k][b]; w > next[b] {
					next[b], back[step][b] = w, k
				}
			}
			if step < n-1 {
				next[b] += s.moves[j][b].score
			}
		}
		score = next
	}
	way := make([]int, n)
	b := a
	for step := n - 1; step >= 0; step-- {
		way[(c+step+1)%n] = b
		b = back[step][b]
	}
	return score[a], way
}

// weight is what edge i counts for.
func (s *nextSearch) weight(i int) float64 { return within(s.from.length(i), 10, 100) / 25 }

// edgeScore is how well edge i lies when its corners move by a and b.
func (s *nextSearch) edgeScore(i int, a, b geom.Vec) float64 {
	length := s.from.length(i)
	strain := b.Add(a.Scale(-1)).Len() / (0.8 + 0.03*length)
	score := -perStrain * strain * strain
	if strain > 4 {
		return score - 2*s.weight(i)
	}
	best := math.Inf(-1)
	for _, bulge := range bulges(length) {
		best = max(best, s.lie(i, a, b, bulge)-perBulge*math.Abs(bulge)*2)
	}
	return score + s.weight(i)*best
}

// bulges are how far in mm the middle of an edge may move beyond its corners.
func bulges(length float64) []float64 {
	if length < 60 {
		return []float64{0}
	}
	return []float64{0, -0.5, 0.5, -1, 1}
}

// wellInked is the share of a printed line, of whatever style, that is found to
// be ink.
const wellInked = 0.85

// lie is the share of edge i that lies on print when carried, less what speaks
// against it.
func (s *nextSearch) lie(i int, a, b geom.Vec, bulge float64) float64 {
	e := s.from.edges[i]
	step := max(1, len(e)/60)
	turned := b.Add(a.Scale(-1)).Scale(1 / s.from.length(i))
	rotates := turned.Len() > 0.05
	var on, over, out, count float64
	gap := 3
	for k := step; k < len(e)-1; k += step {
		p := e[k]
		at := s.carried(i, k, a, b, bulge)
		bin := p.inkDir
		if rotates {
			d := p.dir.Add(turned)
			bin = directionBin(math.Atan2(d.Y, d.X))
		}
		if s.ink.near(at, bin) {
			gap = 0
		} else {
			gap += step
		}
		d := at.Sub(p.at).Dot(p.out)
		if gap <= 1 {
			if math.Abs(d) < 0.5 {
				on += ownInk
			} else {
				on++
			}
		}
		if math.Abs(d) > 1.8 {
			over += min(float64(s.between(i, k, d)), 1.5)
		}
		out += within(s.side*d*math.Abs(d)/36, -1, 1) // necklines go the other way, by little
		count++
	}
	count = max(count, 1)
	return min(on/count/wellInked, 1) + (perSide*out-perRank*over)/count
}
