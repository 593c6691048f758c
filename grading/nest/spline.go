package nest

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// spline is the smooth line of count cubics that passes nearest, by least
// squares, to the evenly numbered places pts, and through the first and the
// last: a cubic B-spline on clamped, even knots (de Boor, A Practical Guide to
// Splines, 1978, chapter IX), as Bézier cubics. The places' numbers are its
// parameter, so that it cannot double back where they do not. off is the
// largest distance in mm of a place from the line.
func spline(pts []geom.Point, count int) (line geom.Path, off float64, err error) {
	n := count + 3
	normal := mat.NewSymDense(n-2, nil)
	right := [2]*mat.VecDense{mat.NewVecDense(n-2, nil), mat.NewVecDense(n-2, nil)}
	first, last := pts[0], pts[len(pts)-1]
	for i, p := range pts {
		b := basis(count, 3, float64(i)/float64(len(pts)-1))
		rest := geom.Vec(p).Sub(geom.Vec(first).Scale(b[0])).Sub(geom.Vec(last).Scale(b[n-1]))
		for r := 1; r < n-1; r++ {
			right[0].SetVec(r-1, right[0].AtVec(r-1)+b[r]*rest.X)
			right[1].SetVec(r-1, right[1].AtVec(r-1)+b[r]*rest.Y)
			for c := r; c < n-1; c++ {
				normal.SetSym(r-1, c-1, normal.At(r-1, c-1)+b[r]*b[c])
			}
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(normal) {
		return nil, 0, words.Errorf("%d places are too few for %d curves", len(pts), count)
	}
	var x [2]mat.VecDense
	for a := range x {
		if err := chol.SolveVecTo(&x[a], right[a]); err != nil {
			return nil, 0, words.Errorf("drawing a smooth line: %w", err)
		}
	}
	coef := make([]geom.Point, n)
	coef[0], coef[n-1] = first, last
	for r := 1; r < n-1; r++ {
		coef[r] = geom.Pt(x[0].AtVec(r-1), x[1].AtVec(r-1))
	}
	line = bezier(coef, count)
	for _, p := range pts {
		_, _, d := line.Nearest(p, 1e-3)
		off = math.Max(off, d)
	}
	return line, off, nil
}

// knot is the i-th knot of a clamped spline of count even spans over 0 to 1.
func knot(count, i int) float64 {
	return float64(min(max(i-3, 0), count)) / float64(count)
}

// basis is the values at u of all its basis functions of that degree, up to 3
// (Cox and de Boor's recurrence).
func basis(count, degree int, u float64) []float64 {
	b := make([]float64, count+6)
	b[3+min(int(u*float64(count)), count-1)] = 1
	for d := 1; d <= degree; d++ {
		for i := range len(b) - d {
			var v float64
			if w := knot(count, i+d) - knot(count, i); w > 0 {
				v += (u - knot(count, i)) / w * b[i]
			}
			if w := knot(count, i+d+1) - knot(count, i+1); w > 0 {
				v += (knot(count, i+d+1) - u) / w * b[i+1]
			}
			b[i] = v
		}
	}
	return b[:count+6-degree]
}

// bezier is the spline of those coefficients as cubics, by the values and
// slopes at its knots.
func bezier(coef []geom.Point, count int) geom.Path {
	at := make([]geom.Point, count+1)
	slope := make([]geom.Vec, count+1)
	for k := range at {
		u := float64(k) / float64(count)
		var p geom.Vec
		for i, b := range basis(count, 3, u) {
			p = p.Add(geom.Vec(coef[i]).Scale(b))
		}
		at[k] = geom.Point(p)
		slope[k] = slopeAt(coef, count, u)
	}
	at[0], at[count] = coef[0], coef[len(coef)-1]
	out := make(geom.Path, count)
	third := 1 / (3 * float64(count))
	for k := range out {
		out[k] = geom.Cubic{P0: at[k], P1: at[k].Add(slope[k].Scale(third)), P2: at[k+1].Add(slope[k+1].Scale(-third)), P3: at[k+1]}
	}
	return out
}

// slopeAt is the spline's derivative at u: a quadratic spline of the
// differences of its coefficients.
func slopeAt(coef []geom.Point, count int, u float64) geom.Vec {
	b := basis(count, 2, u)
	var d geom.Vec
	for i := 1; i < len(coef); i++ {
		d = d.Add(coef[i].Sub(coef[i-1]).Scale(3 / (knot(count, i+3) - knot(count, i)) * b[i]))
	}
	return d
}
