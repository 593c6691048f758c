package geom

import (
	"slices"

	"gonum.org/v1/gonum/mat"

	"quarterstep/assets/words"
)

// fitting is a smooth run of n cubics written by what is free in it: at every
// joint its place and its speed against u, the share of the length. The speed
// at an end with a set direction is one number, else two; the places of the
// two ends are set.
type fitting struct {
	pts   []Point
	u     []float64 // where the curve faces each point: joint i lies at u = i
	ends  [2]Vec    // set directions at start and end; zero where free
	n     int
	x     []Vec // place and speed at joint i: x[2i], x[2i+1]
	scale float64
}

func newFitting(pts []Point, start, end Vec, n int) (*fitting, error) {
	if n < 1 {
		return nil, words.Errorf("%d curves asked for; it takes at least one", n)
	}
	f := &fitting{ends: [2]Vec{start.Unit(), end.Unit()}, n: n}
	var s []float64
	for _, p := range pts {
		if !p.Finite() {
			return nil, words.Errorf("a coordinate is not a number")
		}
		if k := len(f.pts); k == 0 {
			s = append(s, 0)
		} else if d := p.Dist(f.pts[k-1]); d > 0 {
			s = append(s, s[k-1]+d)
		} else {
			continue
		}
		f.pts = append(f.pts, p)
	}
	if len(f.pts) < 2 {
		return nil, words.Errorf("it takes two points apart from each other")
	}
	f.scale = s[len(s)-1] / float64(n)
	for _, d := range s {
		f.u = append(f.u, d/f.scale)
	}
	f.u[len(f.u)-1] = float64(n)
	f.x = make([]Vec, 2*n+2)
	f.begin()
	return f, nil
}

var axes = [2]Vec{{X: 1}, {Y: 1}}

// blend is cubic i at t by its four Hermite weights, for x[2i] to x[2i+3].
func blend(t float64) [4]float64 {
	s := 1 - t
	return [4]float64{s * s * (1 + 2*t), s * s * t, t * t * (1 + 2*s), -t * t * s}
}

// cell is the cubic that u lies on and the parameter on it.
func (f *fitting) cell(u float64) (int, float64) {
	i := min(int(u), f.n-1)
	return i, u - float64(i)
}

// free numbers the unknowns of x[j]: the first's column, and the direction that
// each moves x[j] in.
func (f *fitting) free(j int) (col int, dirs []Vec) {
	both := axes[:]
	switch {
	case j == 0 || j == 2*f.n:
		return 0, nil
	case j == 1 && !f.ends[0].IsZero():
		return 0, f.ends[:1]
	case j == 1:
		return 0, both
	}
	first := 2
	if !f.ends[0].IsZero() {
		first = 1
	}
	if j == 2*f.n+1 {
		col = first + 4*(f.n-1)
		if !f.ends[1].IsZero() {
			return col, f.ends[1:]
		}
		return col, both
	}
	return first + 2*(j-2), both
}

// begin places the joints on the points, evenly along them.
func (f *fitting) begin() {
	f.x = make([]Vec, 2*f.n+2)
	k := 0
	for i := 0; i <= f.n; i++ {
		for k < len(f.u)-2 && f.u[k+1] < float64(i) {
			k++
		}
		a, b := f.pts[k], f.pts[k+1]
		f.x[2*i] = Vec(a.Lerp(b, (float64(i)-f.u[k])/(f.u[k+1]-f.u[k])))
		f.x[2*i+1] = b.Sub(a).Unit().Scale(f.scale)
	}
	f.x[0], f.x[2*f.n] = Vec(f.pts[0]), Vec(f.pts[len(f.pts)-1])
	f.holdEnds()
}

// holdEnds turns the speeds at ends with a set direction into it, and keeps
// them from stopping or running backwards.
func (f *fitting) holdEnds() {
	least := f.scale / 100
	if !f.ends[0].IsZero() {
		f.x[1] = f.ends[0].Scale(max(f.x[1].Dot(f.ends[0]), least))
	}
	if j := 2*f.n + 1; !f.ends[1].IsZero() {
		f.x[j] = f.ends[1].Scale(max(f.x[j].Dot(f.ends[1]), least))
	}
}

// at is cubic i as it stands.
func (f *fitting) at(i int) Cubic {
	a, u, b, v := Point(f.x[2*i]), f.x[2*i+1], Point(f.x[2*i+2]), f.x[2*i+3]
	return Cubic{a, a.Add(u.Scale(1.0 / 3)), b.Add(v.Scale(-1.0 / 3)), b}
}

func (f *fitting) path() Path {
	p := make(Path, f.n)
	for i := range p {
		p[i] = f.at(i)
	}
	return p
}

// solve finds the x that bring the curve at each u nearest to its point, as
// measured square to the curve as it stands; along is the weight of the
// distance along the curve beside it, 1 for plain distances. It leaves the old
// x as it was.
func (f *fitting) solve(along float64) {
	f.x = slices.Clone(f.x)
	col, dirs := f.free(2*f.n + 1)
	q := equations{f: f, normal: mat.NewSymDense(col+len(dirs), nil), rhs: mat.NewVecDense(col+len(dirs), nil)}
	for k, p := range f.pts {
		i, t := f.cell(f.u[k])
		tangent := f.at(i).Tangent(t)
		if tangent.IsZero() {
			tangent = Vec{X: 1}
		}
		q.add(i, t, p, tangent.Perp(), 1)
		q.add(i, t, p, tangent, along)
	}
	q.solve()
	f.holdEnds()
}

// equations are the normal equations of one round.
type equations struct {
	f      *fitting
	normal *mat.SymDense
	rhs    *mat.VecDense
}

// add asks, with a weight, that cubic i at t agree with p in direction dir.
func (q *equations) add(i int, t float64, p Point, dir Vec, weight float64) {
	var cols [8]int
	var coef [8]float64
	n, want := 0, Vec(p).Dot(dir)
	for k, w := range blend(t) {
		j := 2*i + k
		col, dirs := q.f.free(j)
		if len(dirs) == 0 {
			want -= w * q.f.x[j].Dot(dir)
		}
		for a, d := range dirs {
			cols[n], coef[n] = col+a, w*d.Dot(dir)
			n++
		}
	}
	for a := range n {
		q.rhs.SetVec(cols[a], q.rhs.AtVec(cols[a])+weight*coef[a]*want)
		for b := a; b < n; b++ {
			q.normal.SetSym(cols[a], cols[b], q.normal.At(cols[a], cols[b])+weight*coef[a]*coef[b])
		}
	}
}

// solve moves f.x to the solution. A trace of preference for x as it stands
// decides what the points leave open, as when they are fewer than the
// unknowns.
func (q *equations) solve() {
	const hold = 1e-9
	for j := range q.f.x {
		col, dirs := q.f.free(j)
		for a, d := range dirs {
			q.normal.SetSym(col+a, col+a, q.normal.At(col+a, col+a)+hold)
			q.rhs.SetVec(col+a, q.rhs.AtVec(col+a)+hold*q.f.x[j].Dot(d))
		}
	}
	var chol mat.Cholesky
	var x mat.VecDense
	if q.rhs.Len() == 0 || !chol.Factorize(q.normal) {
		return
	}
	if err := chol.SolveVecTo(&x, q.rhs); err != nil && x.Len() == 0 {
		return
	}
	for j := range q.f.x {
		col, dirs := q.f.free(j)
		if len(dirs) == 0 {
			continue
		}
		var sum Vec
		for a, d := range dirs {
			sum = sum.Add(d.Scale(x.AtVec(col + a)))
		}
		q.f.x[j] = sum
	}
}

// facing finds for each point the u where the curve faces it, and is the sum
// of the squared distances left, in mm². It leaves the old u as it was.
func (f *fitting) facing() float64 {
	f.u = slices.Clone(f.u)
	var sum float64
	for k, p := range f.pts {
		u, best := f.u[k], p.Dist(f.where(f.u[k]))
		if k > 0 && k < len(f.pts)-1 {
			for range 3 {
				next := f.step(u, p)
				d := p.Dist(f.where(next))
				if !(d < best) {
					break
				}
				u, best = next, d
			}
		}
		f.u[k] = u
		sum += best * best
	}
	return sum
}

func (f *fitting) where(u float64) Point {
	i, t := f.cell(u)
	return f.at(i).At(t)
}

// step is one round of Newton's rule for the place facing p.
func (f *fitting) step(u float64, p Point) float64 {
	i, t := f.cell(u)
	c := f.at(i)
	r, d := c.At(t).Sub(p), c.Deriv(t)
	slope := d.Dot(d) + r.Dot(c.Deriv2(t))
	if slope <= 0 {
		slope = d.Dot(d)
	}
	if slope == 0 {
		return u
	}
	return min(max(u-r.Dot(d)/slope, 0), float64(f.n))
}
