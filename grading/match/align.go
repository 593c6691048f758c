package match

import (
	"cmp"
	"math"
	"slices"

	"quarterstep/model/geom"
)

// What tells two corners of different sizes apart, each as one standard
// deviation, by our own trial: the turn, and the place on the piece as a share
// of its extent. A corner without a partner costs lonely.
const (
	turnSpread  = 20 * degree
	placeSpread = 0.05
	lonely      = 6.0
)

// partners pairs the corners of two rings, both in order round the piece, so
// that the order is kept and the sum of squared differences is least: cyclic
// alignment by dynamic programming (Needleman and Wunsch 1970), with every
// pair tried as the first, or of very many the mostFirsts that differ least.
// out[i] is the partner of a[i] or -1.
func partners(ra, rb *ring, a, b []corner) (out []int, cost float64) {
	pa, pb := relatives(ra, a), relatives(rb, b)
	differ := make([][]float64, len(a))
	for i := range a {
		for j := range b {
			t := math.Remainder(a[i].turn-b[j].turn, 2*math.Pi) / turnSpread
			d := pa[i].Sub(pb[j]).Len() / placeSpread
			differ[i] = append(differ[i], t*t+d*d)
		}
	}
	cost = lonely * float64(len(a)+len(b))
	out = lone(len(a))
	for _, f := range firsts(differ) {
		if p, c := alignFrom(differ, f[0], f[1]); c < cost-1e-9 {
			out, cost = p, c
		}
	}
	return out, cost
}

// mostFirsts bounds the pairs tried as the first. No piece that is sewn comes
// near it: it has one or two places where a corner could belong.
const mostFirsts = 300

// firsts are the pairs, by their places in a and b, that may begin an alignment.
func firsts(differ [][]float64) [][2]int {
	var out [][2]int
	for i := range differ {
		for j, d := range differ[i] {
			if d < 2*lonely {
				out = append(out, [2]int{i, j})
			}
		}
	}
	if len(out) > mostFirsts {
		slices.SortStableFunc(out, func(a, b [2]int) int { return cmp.Compare(differ[a[0]][a[1]], differ[b[0]][b[1]]) })
		out = out[:mostFirsts]
	}
	return out
}

func relatives(r *ring, cs []corner) []geom.Vec {
	out := make([]geom.Vec, len(cs))
	for i, c := range cs {
		out[i] = r.relative(c.s)
	}
	return out
}

func lone(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = -1
	}
	return out
}

// alignFrom aligns the two cycles with a[i0] paired to b[j0].
func alignFrom(differ [][]float64, i0, j0 int) ([]int, float64) {
	n, m := len(differ), len(differ[0])
	at := func(i, j int) float64 { return differ[(i0+i)%n][(j0+j)%m] }
	// best[i][j] is the least cost of the first i and j corners after the
	// first pair.
	best := make([][]float64, n)
	for i := range best {
		best[i] = make([]float64, m)
		for j := range best[i] {
			if i == 0 || j == 0 {
				best[i][j] = lonely * float64(i+j)
				continue
			}
			best[i][j] = min(best[i-1][j]+lonely, best[i][j-1]+lonely, best[i-1][j-1]+at(i, j))
		}
	}
	out := lone(n)
	out[i0] = j0
	for i, j := n-1, m-1; i > 0 && j > 0; {
		switch best[i][j] {
		case best[i-1][j-1] + at(i, j):
			out[(i0+i)%n] = (j0 + j) % m
			i, j = i-1, j-1
		case best[i-1][j] + lonely:
			i--
		default:
			j--
		}
	}
	return out, differ[i0][j0] + best[n-1][m-1]
}
