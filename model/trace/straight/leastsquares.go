package straight

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// leastSquares brings x to where the squares of the n residuals sum to least,
// by Gauss-Newton steps with damping (Levenberg 1944, Marquardt 1963) and slopes
// by differences. The unknowns should be of about unit size.
func leastSquares(residuals func(x, out []float64), x []float64, n int) []float64 {
	r, next := make([]float64, n), make([]float64, n)
	residuals(x, r)
	now := sumSquares(r)
	damp := 1e-4
	for range 60 {
		j := slopes(residuals, x, n)
		var normal mat.SymDense
		normal.SymOuterK(1, j.T())
		var g mat.VecDense
		g.MulVec(j.T(), mat.NewVecDense(n, r))
		moved := false
		for range 8 {
			step, ok := damped(&normal, &g, damp)
			if !ok {
				damp *= 10
				continue
			}
			try := make([]float64, len(x))
			for i := range try {
				try[i] = x[i] - step.AtVec(i)
			}
			residuals(try, next)
			if s := sumSquares(next); s < now {
				gain := (now - s) / max(now, 1e-300)
				x, now, moved = try, s, gain > 1e-10
				copy(r, next)
				damp = max(damp/10, 1e-12)
				break
			}
			damp *= 10
		}
		if !moved {
			break
		}
	}
	return x
}

// slopes are the changes of n residuals by each unknown, by central
// differences.
func slopes(residuals func(x, out []float64), x []float64, n int) *mat.Dense {
	const h = 1e-6
	j := mat.NewDense(n, len(x), nil)
	lo, hi := make([]float64, n), make([]float64, n)
	at := append([]float64(nil), x...)
	for c := range x {
		at[c] = x[c] - h
		residuals(at, lo)
		at[c] = x[c] + h
		residuals(at, hi)
		at[c] = x[c]
		for i := range n {
			j.Set(i, c, (hi[i]-lo[i])/(2*h))
		}
	}
	return j
}

// damped solves the normal equations with their diagonal raised by damp.
func damped(normal *mat.SymDense, g *mat.VecDense, damp float64) (*mat.VecDense, bool) {
	k := normal.SymmetricDim()
	raised := mat.NewSymDense(k, nil)
	raised.CopySym(normal)
	for i := range k {
		raised.SetSym(i, i, raised.At(i, i)*(1+damp)+1e-300)
	}
	var chol mat.Cholesky
	if !chol.Factorize(raised) {
		return nil, false
	}
	step := mat.NewVecDense(k, nil)
	if err := chol.SolveVecTo(step, g); err != nil {
		return nil, false
	}
	return step, true
}

func sumSquares(r []float64) float64 {
	s := 0.0
	for _, v := range r {
		s += v * v
	}
	if math.IsNaN(s) {
		return math.Inf(1)
	}
	return s
}
