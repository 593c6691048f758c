package follow

import (
	"context"
	"math"
	"slices"

	"quarterstep/model/geom"
)

// carry is the search for another size by the traced outline carried along as it
// is: every edge goes with its two corners, and all corners are chosen together
// so that the edges lie on print, with few other lines between. It needs no line
// to be found beside the outline first, and so tells sizes apart that lie close
// together; but it does not follow a line that leaves the traced one unevenly.
type carry struct {
	*nextSearch
	moves [][]move      // by corner: where it may go
	pairs [][][]float64 // by edge, move of its first corner and of its last: how well it then lies
	lines [][][]float64 // by edge and place: how far out printed lines run beside it, in mm
}

// move is a way of a corner from the traced size to the wanted one.
type move struct {
	by    geom.Vec
	score float64
}

func (s *nextSearch) newCarry(ctx context.Context) (*carry, error) {
	c := &carry{nextSearch: s}
	n := len(s.from.edges)
	for i := range n {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		c.lines = append(c.lines, c.linesBeside(i))
		c.moves = append(c.moves, c.cornerMoves(i))
	}
	for i := range n {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		c.pairs = append(c.pairs, c.pairsOf(i))
	}
	return c, nil
}

// given is the search with some corners' places known.
func (s *carry) given(known map[int]geom.Point) *carry {
	if len(known) == 0 {
		return s
	}
	out := *s
	out.moves, out.pairs = slices.Clone(s.moves), slices.Clone(s.pairs)
	for i, at := range known {
		out.moves[i] = []move{{by: at.Sub(s.from.corner(i))}}
	}
	n := len(out.moves)
	for i := range n {
		_, first := known[i]
		_, last := known[(i+1)%n]
		if first || last {
			out.pairs[i] = out.pairsOf(i)
		}
	}
	return &out
}

const closeLines = 7.0 // mm: nests closer than this are told apart by the outline carried along

// tight reports that lines of other sizes lie close beside most of the traced
// one.
func (s *carry) tight() bool {
	var near []float64
	for _, edge := range s.lines {
		for _, lines := range edge {
			least := mostStep
			for _, l := range lines {
				if l = math.Abs(l); l > ownWidth {
					least = math.Min(least, l)
				}
			}
			near = append(near, least)
		}
	}
	slices.Sort(near)
	return near[len(near)/2] < closeLines
}

// leastCovered is the least share of an edge carried to these corners that lies
// on print.
func (s *carry) leastCovered(corners []geom.Point) float64 {
	least := 1.0
	for i := range corners {
		least = min(least, s.coveredTo(i, corners))
	}
	return least
}

// coveredTo is the share of edge i, carried to these corners, that lies on print.
func (s *carry) coveredTo(i int, corners []geom.Point) float64 {
	j := (i + 1) % len(corners)
	return s.covered(i, corners[i].Sub(s.from.corner(i)), corners[j].Sub(s.from.corner(j)))
}

// Shares of the least covered edge, by trial on rendered nests.
const (
	wellOn   = 0.9  // with as much, corners are right
	hardlyOn = 0.75 // with less, edges do not go as they are
)

// better reports that corners found by the outline carried along are to be taken
// rather than those found by the lines beside each side: other sizes lie close,
// the edges do go along as they are, and these lie less well on print.
func (s *carry) better(carried, corners []geom.Point) bool {
	return s.tight() && s.leastCovered(carried) > hardlyOn && s.leastCovered(corners) < wellOn
}

// covered is the share of edge i that lies on print when carried, at best with
// its middle a little further in or out.
func (s *carry) covered(i int, a, b geom.Vec) float64 {
	e, best := s.from.edges[i], 0.0
	for _, bulge := range bulges(s.from.length(i)) {
		on, gap := 0.0, 3
		for k := 1; k < len(e)-1; k++ {
			if gap++; s.ink.near(s.at(i, k, a, b, bulge), e[k].inkDir) {
				gap = 0
			}
			if gap <= 1 {
				on++
			}
		}
		best = max(best, on/float64(max(len(e)-2, 1)))
	}
	return best
}

// Weights of what speaks for a carried edge, by trial on rendered nests.
const (
	perOutside = 0.5  // an edge that lies far outside for a larger size, inside for a smaller one
	ownCarried = 0.4  // what ink that the traced size has counts for
	perBulge   = 0.04 // half a mm that an edge's middle moves beyond its corners
)

// pairsOf is how well edge i lies by every move of its two corners.
func (s *carry) pairsOf(i int) [][]float64 {
	next := s.moves[(i+1)%len(s.moves)]
	out := make([][]float64, len(s.moves[i]))
	for a, m := range s.moves[i] {
		out[a] = make([]float64, len(next))
		for b, k := range next {
			out[a][b] = s.edgeScore(i, m.by, k.by)
		}
	}
	return out
}

// together chooses a move for every corner so that all edges lie best.
func (s *carry) together() []geom.Vec {
	c := 0
	for i := range s.moves {
		if len(s.moves[i]) < len(s.moves[c]) {
			c = i
		}
	}
	best, choice := math.Inf(-1), []int(nil)
	for a := range s.moves[c] {
		if score, way := s.bestRing(c, a); score > best {
			best, choice = score, way
		}
	}
	out := make([]geom.Vec, len(choice))
	for i, k := range choice {
		out[i] = s.moves[i][k].by
	}
	return out
}

// bestRing is the best choice for all corners in which corner c takes move a.
func (s *carry) bestRing(c, a int) (float64, []int) {
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
func (s *carry) weightOf(i int) float64 { return within(s.from.length(i), 10, 100) / 25 }

// edgeScore is how well edge i lies when its corners move by a and b.
func (s *carry) edgeScore(i int, a, b geom.Vec) float64 {
	length := s.from.length(i)
	strain := b.Add(a.Scale(-1)).Len() / (0.8 + 0.03*length)
	score := -perStrain * strain * strain
	if strain > 4 {
		return score - 2*s.weightOf(i)
	}
	best := math.Inf(-1)
	for _, bulge := range bulges(length) {
		best = max(best, s.lie(i, a, b, bulge)-perBulge*math.Abs(bulge)*2)
	}
	return score + s.weightOf(i)*best
}

// bulges are how far in mm the middle of an edge may move beyond its corners.
func bulges(length float64) []float64 {
	if length < 60 {
		return []float64{0}
	}
	return []float64{0, -0.5, 0.5, -1, 1}
}

// lie is the share of edge i that lies on print when carried, less what speaks
// against it.
func (s *carry) lie(i int, a, b geom.Vec, bulge float64) float64 {
	e := s.from.edges[i]
	step := max(1, len(e)/60)
	turned := b.Add(a.Scale(-1)).Scale(1 / s.from.length(i))
	rotates := turned.Len() > 0.05
	var on, over, out, count float64
	gap := 3
	for k := step; k < len(e)-1; k += step {
		p := e[k]
		at := s.at(i, k, a, b, bulge)
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
				on += ownCarried
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
	return min(on/count/wellInked, 1) + (perOutside*out-perRank*over)/count
}
