package straight

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// mostGrown is how many times as far off as the marked places other places
// between them may come out. Four corners of a page give one, three and a half at
// the worst of the box round them; four of which three are nearly on one line,
// hundreds.
const mostGrown = 20

var (
	errOrder    = words.Fault("straightening: the places are not in the same order in the photo and on the paper, look which is which")
	errLensWide = words.Fault("straightening: the places do not show how the lens bends lines, mark more of them, some near the photo's edges and some in its middle")
)

// check is an error where m is of no use between pairs.
func (m Map) check(pairs []Pair, lens bool) error {
	h := m.H
	det := h[0]*(h[4]*h[8]-h[5]*h[7]) - h[1]*(h[3]*h[8]-h[5]*h[6]) + h[2]*(h[3]*h[7]-h[4]*h[6])
	if det < 0 {
		return errOrder
	}
	for _, p := range pairs {
		if !m.MM(p.Pixel).Finite() {
			return errOrder
		}
	}
	if grown := m.grown(pairs, false); !(grown <= mostGrown) {
		return errOneLine
	}
	if lens && !(m.grown(pairs, true) <= mostGrown) {
		return errLensWide
	}
	return nil
}

// grown is how far off, by error propagation, the worst place in the box along
// and across the pairs comes out, if each pair is off by about one.
func (m Map) grown(pairs []Pair, lens bool) float64 {
	n, with := m.unknowns(pairs, lens)
	if 2*len(pairs) < n {
		return math.Inf(1)
	}
	off := func(places []geom.Point) *mat.Dense {
		return slopes(func(x, out []float64) {
			q := with(x)
			for i, p := range places {
				mm := q.MM(p)
				out[2*i], out[2*i+1] = mm.X, mm.Y
			}
		}, make([]float64, n), 2*len(places))
	}
	px := make([]geom.Point, len(pairs))
	for i, p := range pairs {
		px[i] = p.Pixel
	}
	j := off(px)
	var normal mat.SymDense
	normal.SymOuterK(1, j.T())
	var chol mat.Cholesky
	var cov mat.SymDense
	if !chol.Factorize(&normal) || chol.InverseTo(&cov) != nil {
		return math.Inf(1)
	}
	asked := boxAlong(px)
	var t, spread mat.Dense
	at := off(asked)
	t.Mul(at, &cov)
	spread.Mul(&t, at.T())
	worst := 0.0
	for i := range asked {
		worst = max(worst, spread.At(2*i, 2*i), spread.At(2*i+1, 2*i+1))
	}
	return math.Sqrt(worst)
}

// boxAlong is the corners, middles of the sides and middle of the box round pts
// that lies along their longer way and is at least a tenth as wide as long.
func boxAlong(pts []geom.Point) []geom.Point {
	var c geom.Vec
	for _, p := range pts {
		c = c.Add(geom.Vec(p).Scale(1 / float64(len(pts))))
	}
	var xx, xy, yy float64
	for _, p := range pts {
		v := geom.Vec(p).Sub(c)
		xx, xy, yy = xx+v.X*v.X, xy+v.X*v.Y, yy+v.Y*v.Y
	}
	turn := geom.Rotate(math.Atan2(2*xy, xx-yy) / 2)
	back := geom.Rotate(-math.Atan2(2*xy, xx-yy) / 2)
	box := geom.BoxOf(back.Apply(pts[0]))
	for _, p := range pts {
		box = box.Union(geom.BoxOf(back.Apply(p)))
	}
	more := math.Max(0, (box.Width()/10-box.Height())/2)
	box.Min.Y, box.Max.Y = box.Min.Y-more, box.Max.Y+more
	var out []geom.Point
	for i := range 9 {
		out = append(out, turn.Apply(geom.Pt(
			box.Min.X+box.Width()*float64(i%3)/2, box.Min.Y+box.Height()*float64(i/3)/2)))
	}
	return out
}
