package straight

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// Pair is a place of the photo whose place on the paper is known.
type Pair struct{ Pixel, MM geom.Point }

// Options says what Solve may find out of the lens. The zero Options takes it
// as bending nothing.
type Options struct {
	Lens    Lens // known already, or where its middle and scale are
	FitLens bool // find K1 as well; Lens.Centre and Lens.Scale must be set
}

// leastForLens is how many places a lens can be told from.
const leastForLens = 8

// Solve finds the Map through pairs: the perspective by the direct linear
// transformation on places brought to unit size (Hartley and Zisserman,
// Multiple View Geometry, 2nd ed., algorithm 4.2), then all together by least
// squares in mm (Gauss-Newton with damping). It is an error where the places
// are too few, lie so that others would be wildly off, or are not in the same
// order in the photo and on the paper.
func Solve(pairs []Pair, o Options) (Map, Misfit, error) {
	if len(pairs) < 4 {
		return Map{}, Misfit{}, words.Errorf("straightening: %d places are marked, at least 4 are needed", len(pairs))
	}
	if o.FitLens && len(pairs) < leastForLens {
		return Map{}, Misfit{}, words.Errorf("straightening: %d places are marked, at least %d are needed to find out how the lens bends lines", len(pairs), leastForLens)
	}
	if o.FitLens && o.Lens.Scale <= 0 {
		return Map{}, Misfit{}, words.Errorf("straightening: the middle of the lens is not set")
	}
	m := Map{Lens: o.Lens}
	var err error
	if m.H, err = direct(pairs, m.Lens); err != nil {
		return Map{}, Misfit{}, err
	}
	if o.FitLens || len(pairs) > 4 {
		m = settleMap(m, pairs, o.FitLens)
	}
	if err := m.check(pairs, o.FitLens); err != nil {
		return Map{}, Misfit{}, err
	}
	f := m.misfit(pairs)
	f.Exact = len(pairs) == 4
	return m, f, nil
}

// misfit is how far m takes pairs from their places.
func (m Map) misfit(pairs []Pair) Misfit {
	f := Misfit{Points: len(pairs)}
	for _, p := range pairs {
		d := m.MM(p.Pixel).Dist(p.MM)
		f.RMS += d * d
		f.Worst = max(f.Worst, d)
	}
	f.RMS = math.Sqrt(f.RMS / float64(max(len(pairs), 1)))
	return f
}

// direct is the perspective through pairs by the direct linear transformation.
func direct(pairs []Pair, l Lens) ([9]float64, error) {
	from, to := make([]geom.Point, len(pairs)), make([]geom.Point, len(pairs))
	for i, p := range pairs {
		from[i], to[i] = l.unbend(p.Pixel), p.MM
		if !from[i].Finite() || !to[i].Finite() {
			return [9]float64{}, words.Errorf("straightening: place %d is no ordinary place", i+1)
		}
	}
	a, ok := unitSize(from)
	b, ok2 := unitSize(to)
	if !ok || !ok2 {
		return [9]float64{}, errOneLine
	}
	m := mat.NewDense(2*len(pairs), 9, nil)
	for i := range pairs {
		p, q := project(a, from[i]), project(b, to[i])
		m.SetRow(2*i, []float64{p.X, p.Y, 1, 0, 0, 0, -q.X * p.X, -q.X * p.Y, -q.X})
		m.SetRow(2*i+1, []float64{0, 0, 0, p.X, p.Y, 1, -q.Y * p.X, -q.Y * p.Y, -q.Y})
	}
	var svd mat.SVD
	if !svd.Factorize(m, mat.SVDFullV) {
		return [9]float64{}, errOneLine
	}
	s := svd.Values(nil)
	if s[7] < 1e-6*s[0] {
		return [9]float64{}, errOneLine
	}
	var v mat.Dense
	svd.VTo(&v)
	var h [9]float64
	for i := range h {
		h[i] = v.At(i, 8)
	}
	h = times3(inverse3(b), times3(h, a))
	// The paper's last row is one at the middle of the places, which is in sight.
	w := 0.0
	for _, p := range from {
		w += (h[6]*p.X + h[7]*p.Y + h[8]) / float64(len(from))
	}
	for i := range h {
		h[i] /= w
	}
	for _, x := range h {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return [9]float64{}, errOneLine
		}
	}
	return h, nil
}

var errOneLine = words.Errorf("straightening: the places lie too close to one line, mark some to the sides of it")

// unitSize is the map that brings pts about the origin at a mean distance of
// the root of two; false where they are all one.
func unitSize(pts []geom.Point) ([9]float64, bool) {
	var c geom.Vec
	for _, p := range pts {
		c = c.Add(geom.Vec(p))
	}
	c = c.Scale(1 / float64(len(pts)))
	mean := 0.0
	for _, p := range pts {
		mean += geom.Vec(p).Sub(c).Len() / float64(len(pts))
	}
	if mean < 1e-9 {
		return [9]float64{}, false
	}
	k := math.Sqrt2 / mean
	return [9]float64{k, 0, -k * c.X, 0, k, -k * c.Y, 0, 0, 1}, true
}

// settleMap brings m to the least squares of what pairs are off, in mm.
func settleMap(m Map, pairs []Pair, lens bool) Map {
	n, with := m.unknowns(pairs, lens)
	residuals := func(x []float64, out []float64) {
		q := with(x)
		for i, p := range pairs {
			d := q.MM(p.Pixel).Sub(p.MM)
			out[2*i], out[2*i+1] = d.X, d.Y
		}
	}
	return with(leastSquares(residuals, make([]float64, n), 2*len(pairs)))
}

// unknowns is how many numbers a map near m has, and the map for numbers of
// about unit size, m for none.
func (m Map) unknowns(pairs []Pair, lens bool) (n int, with func(x []float64) Map) {
	n = 8
	if lens {
		n = 9
	}
	size := 1.0
	for _, p := range pairs {
		size = max(size, geom.Vec(p.MM).Len())
	}
	return n, func(x []float64) Map {
		q := m
		q.H = times3([9]float64{
			1 + x[0], x[1], x[2] * size,
			x[3], 1 + x[4], x[5] * size,
			x[6] / size, x[7] / size, 1,
		}, m.H)
		if lens {
			q.Lens.K1 += x[8]
		}
		return q
	}
}
