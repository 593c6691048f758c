package nest

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// field is how the places of an edge are carried in one direction, by their
// place u from 0 at its start to 1 at its end: share(u) of the end's
// movement, and own(u) mm per mm of the start's measure.
//
// share(u) = usual(u) + Σ shareOf[i] sin((i+1)πu) and own(u) = Σ ownOf[i]
// sin((i+1)πu), so that both ends are carried by their own grade point alone.
// What a smooth movement needs of the i-th wave falls off as its square, which
// is what the fits expect before they look at the print.
type field struct {
	// runs says at which ends the line runs smoothly on: there usual shares
	// start flat, so that it still does; else they are even.
	runs    [2]bool
	shareOf [6]float64
	ownOf   [4]float64
}

// usual is the share of place u before the print is looked at.
func (f field) usual(u float64) float64 {
	first, second := f.handles()
	return 3*u*(1-u)*((1-u)*first+u*second) + u*u*u
}

func waves(coef []float64, u float64) float64 {
	var sum float64
	for i, c := range coef {
		sum += c * wave(i, u)
	}
	return sum
}

// wave is the i-th of the waves along an edge.
func wave(i int, u float64) float64 { return math.Sin(float64(i+1) * math.Pi * u) }

// rise is by how much the share rises per unit of u at the start or the end.
func (f field) rise(end int) float64 {
	var sum float64
	for i, c := range f.shareOf {
		sum += c * waveRise(i, end)
	}
	if end == 0 {
		first, _ := f.handles()
		return sum + 3*first
	}
	_, second := f.handles()
	return sum + 3*(1-second)
}

// waveRise is the rise of the i-th wave at the start or the end.
func waveRise(i, end int) float64 {
	rise := float64(i+1) * math.Pi
	if end == 1 && i%2 == 0 {
		return -rise
	}
	return rise
}

func (f field) share(u float64) float64 { return f.usual(u) + waves(f.shareOf[:], u) }
func (f field) own(u float64) float64   { return waves(f.ownOf[:], u) }

// fitField reads the field of a traced edge in direction a from all printed
// sizes at once. at[i][j] is the printed place of size i that corresponds to
// j/(places-1); length is the edge's, in mm. Least squares with a mild pull
// towards even shares and no own movement (ridge regression, Hoerl and Kennard
// 1970), weighted by how many independent places a hand-traced line has; noise is the
// wobble of the hand, rms in mm.
func fitField(n print, at [][]axes, e ends, a int, length float64, runs [2]bool, noise float64) (field, error) {
	const ns, no = len(field{}.shareOf), len(field{}.ownOf)
	sizes := len(at)
	start := newSeries(sizes, func(i int) float64 { return e.start.perMM * n.value(e.start.measure, i) })
	end := newSeries(sizes, func(i int) float64 { return e.end.perMM * n.value(e.end.measure, i) })
	body := newSeries(sizes, func(i int) float64 { return n.value(e.start.measure, i) })
	scale := math.Sqrt(body.dot(body) / float64(sizes))
	if scale == 0 {
		scale = 1
	}
	var sums [ns + no][ns + no]float64
	var right [ns + no]float64
	weight := math.Max(2, length/(handWave/2)) / places
	var row [ns + no]float64
	for j := range places {
		u := float64(j) / (places - 1)
		var waves [max(ns, no)]float64
		for k := range waves {
			waves[k] = wave(k, u)
		}
		usual := field{runs: runs}.usual(u)
		seen := newSeries(sizes, func(i int) float64 { return at[i][j][a] })
		for i := range sizes {
			for k := range max(ns, no) {
				if k < ns {
					row[k] = waves[k] * (end[i] - start[i])
				}
				if k < no {
					row[ns+k] = waves[k] * body[i] / scale
				}
			}
			rest := seen[i] - start[i] - usual*(end[i]-start[i])
			for p := range row {
				right[p] += weight * row[p] * rest
				for q := p; q < len(row); q++ {
					sums[p][q] += weight * row[p] * row[q]
				}
			}
		}
	}
	normal := mat.NewSymDense(ns+no, nil)
	for p := range row {
		sums[p][p] += pull(p, noise)
		for q := p; q < len(row); q++ {
			normal.SetSym(p, q, sums[p][q])
		}
	}
	var chol mat.Cholesky
	var x mat.VecDense
	if !chol.Factorize(normal) {
		return field{}, words.Error("the printed sizes of this edge do not hang together")
	}
	if err := chol.SolveVecTo(&x, mat.NewVecDense(ns+no, right[:])); err != nil {
		return field{}, words.Errorf("reading how the edge moves: %w", err)
	}
	f := field{runs: runs}
	for k := range ns {
		f.shareOf[k] = x.AtVec(k)
	}
	for k := range no {
		f.ownOf[k] = x.AtVec(ns+k) / scale
	}
	return f, nil
}

// fewWaves is how many waves a movement read from shaking lines has: those
// beyond would follow the shaking.
const fewWaves = 3

// pull is the weight with which coefficient p of a field, its shares first, is
// drawn to nought, where the hand wavers by noise mm.
func pull(p int, noise float64) float64 {
	prior := usualShift
	if ns := len(field{}.shareOf); p >= ns {
		prior, p = usualOwn, p-ns
	}
	prior /= float64((p + 1) * (p + 1))
	if p >= fewWaves && noise > shakes {
		prior /= 100
	}
	return noise * noise / (prior * prior)
}

// carries hands the field of both directions to the control points of path,
// whose places are u, by the cubic through the field at the thirds of each of
// its cubics.
func (n print) carries(u []float64, f [2]field, m [2]model.Measure) [][2]carry {
	out := make([][2]carry, len(u))
	for a := range 2 {
		own := controlsThrough(u, f[a].own)
		for k, w := range controlsThrough(u, f[a].share) {
			out[k][a] = carry{w: w, own: n.ownRate(m[a], own[k])}
		}
	}
	return out
}

// thirds is the relative edge length at parameters 0, 1/3, 2/3 and 1 of every
// cubic, joints once.
func thirds(path geom.Path, tol float64) ([]float64, error) {
	u := []float64{0}
	var before float64
	for _, c := range path {
		for _, t := range []float64{1.0 / 3, 2.0 / 3, 1} {
			s, err := c.LengthTo(t, tol)
			if err != nil {
				return nil, err
			}
			u = append(u, before+s)
		}
		before = u[len(u)-1]
	}
	if before == 0 {
		return nil, words.Error("the edge has no length")
	}
	for i := range u {
		u[i] /= before
	}
	return u, nil
}

// controlsThrough is the control values of the cubics that pass through f at
// the thirds of each.
func controlsThrough(u []float64, f func(u float64) float64) []float64 {
	out := make([]float64, len(u))
	for i := range u {
		out[i] = f(u[i])
	}
	for i := 0; i+3 < len(u); i += 3 {
		a, b, c, d := out[i], out[i+1], out[i+2], out[i+3]
		out[i+1] = (-5*a + 18*b - 9*c + 2*d) / 6
		out[i+2] = (2*a - 9*b + 18*c - 5*d) / 6
	}
	return out
}

// handles is the usual share of the two handles of the cubic usual draws.
func (f field) handles() (float64, float64) {
	return usualShare(1, 3, f.runs), usualShare(2, 3, f.runs)
}
