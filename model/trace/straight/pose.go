package straight

import (
	"image"
	"math"

	"gonum.org/v1/gonum/mat"

	"quarterstep/model/geom"
)

// pose is where a camera stood over the paper. A page that lies beside the
// piece says little of the perspective far from it; that a photo comes from a
// camera with square pixels, looking through its own middle, says the rest.
type pose struct {
	turn  [9]float64 // paper to camera, row by row
	move  [3]float64 // mm
	focal float64    // px
	eye   geom.Point // what the camera looks straight at, px
	lens  Lens
}

// What is taken for granted of a camera that says nothing of itself: a phone's
// main camera has 23 to 29 mm on the 35 mm frame (common practice); its middle
// is that of the picture within one percent, if nobody cropped it; what its lens
// bends, after its own correction, is a few percent at the corners.
const (
	usualFocal35 = 26.0
	focalDoubt   = 0.12 // in the logarithm
	statedDoubt  = 0.02 // where the file states it; whole mm are written
	eyeDoubt     = 0.01 // of the longer side
	bendDoubt    = 0.03
)

// focalPx is the focal length in pixels of one on the 35 mm frame, by the
// diagonal (43.27 mm; CIPA DCG-001).
func focalPx(focal35 float64, size image.Point) float64 {
	return focal35 / math.Hypot(36, 24) * math.Hypot(float64(size.X), float64(size.Y))
}

// full is the Map of p.
func (p pose) full() Map {
	r := p.turn
	k := [9]float64{p.focal, 0, p.eye.X, 0, p.focal, p.eye.Y, 0, 0, 1}
	h := times3(k, [9]float64{r[0], r[1], p.move[0], r[3], r[4], p.move[1], r[6], r[7], p.move[2]})
	inv := inverse3(h)
	for i := range inv {
		inv[i] /= inv[8]
	}
	return Map{Lens: p.lens, H: inv}
}

// poseOf is the pose that best gives the perspective h of mm to places without
// bend, for a focal length (Zhang 2000, section 3.1).
func poseOf(h [9]float64, focal float64, eye geom.Point) pose {
	k := times3([9]float64{1 / focal, 0, -eye.X / focal, 0, 1 / focal, -eye.Y / focal, 0, 0, 1}, h)
	a, b, t := [3]float64{k[0], k[3], k[6]}, [3]float64{k[1], k[4], k[7]}, [3]float64{k[2], k[5], k[8]}
	s := 2 / (norm3(a) + norm3(b))
	if t[2] < 0 {
		s = -s
	}
	m := mat.NewDense(3, 3, nil)
	c := cross3(a, b)
	for i := range 3 {
		m.Set(i, 0, a[i]*s)
		m.Set(i, 1, b[i]*s)
		m.Set(i, 2, c[i]*s*s)
	}
	var svd mat.SVD
	p := pose{focal: focal, eye: eye, turn: [9]float64{1, 0, 0, 0, 1, 0, 0, 0, 1}}
	if svd.Factorize(m, mat.SVDFull) {
		var u, v, r mat.Dense
		svd.UTo(&u)
		svd.VTo(&v)
		r.Mul(&u, v.T())
		for i := range 9 {
			p.turn[i] = r.At(i/3, i%3)
		}
	}
	p.move = [3]float64{t[0] * s, t[1] * s, t[2] * s}
	return p
}

// turned is p with its camera turned by the small angles x, y, z about its own
// axes (Rodrigues' formula).
func (p pose) turned(x, y, z float64) pose {
	th := math.Sqrt(x*x + y*y + z*z)
	if th == 0 {
		return p
	}
	k := [9]float64{0, -z, y, z, 0, -x, -y, x, 0}
	k2 := times3(k, k)
	s, c := math.Sin(th)/th, (1-math.Cos(th))/(th*th)
	r := [9]float64{1, 0, 0, 0, 1, 0, 0, 0, 1}
	for i := range r {
		r[i] += s*k[i] + c*k2[i]
	}
	p.turn = times3(r, p.turn)
	return p
}

func norm3(a [3]float64) float64 { return math.Sqrt(a[0]*a[0] + a[1]*a[1] + a[2]*a[2]) }

func cross3(a, b [3]float64) [3]float64 {
	return [3]float64{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// beside is a place of the photo that lies on a straight edge of the paper.
type beside struct {
	px   geom.Point
	on   geom.Point // any place of the edge, mm
	away geom.Vec   // square to it, of length 1
}

// off is how far m takes b from its edge, in mm.
func (b beside) off(m Map) float64 { return m.MM(b.px).Sub(b.on).Dot(b.away) }

// camera is what is known of a photo's camera before it is looked at.
type camera struct {
	size  image.Point
	focal float64 // px
	doubt float64 // of its logarithm
	lens  Lens
	bent  bool // the lens is to be found too
}

// settled is the pose that brings places onto their edges, with what is known
// of the camera beside it, and how unsure the fit is: far is the standard
// error in mm at the worst of the places far.
func (c camera) settled(p pose, places []beside, noise float64, far []geom.Point) (pose, float64) {
	n := 9
	if c.bent {
		n = 10
	}
	start := p
	dist := norm3(p.move)
	with := func(x []float64) pose {
		q := start.turned(x[0]*1e-2, x[1]*1e-2, x[2]*1e-2)
		for i := range 3 {
			q.move[i] += x[3+i] * 1e-2 * dist
		}
		q.focal = c.focal * math.Exp(x[6]*c.doubt)
		mid := middle(c.size)
		q.eye = mid.Add(geom.Vec{X: x[7], Y: x[8]}.Scale(eyeDoubt * longSide(c.size)))
		if c.bent {
			q.lens.K1 = x[9] * bendDoubt
		}
		return q
	}
	rows := len(places) + n - 6
	residuals := func(x, out []float64) {
		m := with(x).full()
		for i, b := range places {
			out[i] = b.off(m) / noise
		}
		copy(out[len(places):], x[6:])
	}
	x := make([]float64, n)
	if c.bent {
		x[9] = start.lens.K1 / bendDoubt
	}
	x = leastSquares(residuals, x, rows)
	best := with(x)
	cov, ok := covariance(residuals, x, rows)
	if !ok {
		return best, math.Inf(1)
	}
	return best, carried(cov, x, far, func(x []float64) func(geom.Point) geom.Point { return with(x).full().MM })
}

// rim is the four corners of a photo, clockwise from its top left.
func rim(size image.Point) []geom.Point {
	w, h := float64(size.X), float64(size.Y)
	return []geom.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}}
}

// covariance is how unsure the unknowns x are, by the slopes of the residuals,
// which are in units of their doubt; false where they do not decide x.
func covariance(residuals func(x, out []float64), x []float64, rows int) (*mat.SymDense, bool) {
	var normal, cov mat.SymDense
	normal.SymOuterK(1, slopes(residuals, x, rows).T())
	var chol mat.Cholesky
	if !chol.Factorize(&normal) || chol.InverseTo(&cov) != nil {
		return nil, false
	}
	return &cov, true
}

// carried takes the doubt of the unknowns x to the places far of the photo: the
// largest, in mm. to is the way to the paper for other unknowns.
func carried(cov mat.Symmetric, x []float64, far []geom.Point, to func(x []float64) func(geom.Point) geom.Point) float64 {
	places := slopes(func(x, out []float64) {
		mm := to(x)
		for i, p := range far {
			q := mm(p)
			out[2*i], out[2*i+1] = q.X, q.Y
		}
	}, x, 2*len(far))
	var t, spread mat.Dense
	t.Mul(places, cov)
	spread.Mul(&t, places.T())
	worst := 0.0
	for i := range far {
		worst = max(worst, math.Sqrt(spread.At(2*i, 2*i)+spread.At(2*i+1, 2*i+1)))
	}
	return worst
}
