package match

import (
	"math"

	"quarterstep/model/exchange"
	"quarterstep/model/geom"
)

const (
	ringTol = 1e-4 // mm; how closely places along a ring are measured
	spacing = 1.0  // mm between the samples of a ring

	// mostSamples bounds the samples of a ring: no pattern piece is longer
	// round than so many mm, and one that is gets wider spacing.
	mostSamples = 12_000

	// denseBelow is the mean length in mm of a ring's curves below which it
	// counts as traced. What a person draws as curves has joints a few
	// centimetres apart; traces have one every few millimetres. So does a
	// ring of more than manyStraight curves, nearly all straight: a polygon.
	denseBelow   = 14.0
	manyStraight = 24
)

// ring is one printed size of a piece, turned to run clockwise on paper.
type ring struct {
	size   string
	also   []string // the sizes above it that share the line
	path   geom.Path
	m      geom.Measured
	length float64   // mm
	joints []float64 // mm from the start to where each cubic begins
	dense  bool      // traced: directions at joints mean nothing
	at     []geom.Point
	step   float64 // mm between the samples at
	centre geom.Point
	extent float64 // square root of the area, mm
}

func newRing(o exchange.RawOutline) (*ring, error) {
	p := o.Ring
	if p.Area() < 0 {
		p = p.Reverse()
	}
	m, err := geom.Measure(p, ringTol)
	if err != nil {
		return nil, err
	}
	r := &ring{size: o.Size, also: o.Also, path: p, m: m, length: m.Length(), extent: math.Sqrt(p.Area())}
	straight := 0
	for i, c := range p {
		r.joints = append(r.joints, m.To(i, 0))
		if c.IsStraight(drawnTol) {
			straight++
		}
	}
	r.dense = r.length < denseBelow*float64(len(p)) || len(p) > manyStraight && 10*straight > 9*len(p)
	n := max(60, min(mostSamples, int(math.Ceil(r.length/spacing))))
	r.step = r.length / float64(n)
	var sum geom.Vec
	for k := range n {
		q := m.At(float64(k) * r.step)
		r.at = append(r.at, q)
		sum = sum.Add(geom.Vec(q))
	}
	r.centre = geom.Point(sum.Scale(1 / float64(n)))
	return r, nil
}

// sizes is every size the ring is drawn for, smallest first.
func (r *ring) sizes() []string { return append([]string{r.size}, r.also...) }

// drawnTol is within how many mm a drawn line counts as straight.
const drawnTol = 0.02

// wrap brings a place along the ring to 0 up to its length.
func (r *ring) wrap(s float64) float64 {
	s = math.Mod(s, r.length)
	if s < 0 {
		s += r.length
	}
	if s >= r.length {
		s = 0
	}
	return s
}

// ahead is how far b lies ahead of a along the ring, 0 up to its length.
func (r *ring) ahead(a, b float64) float64 { return r.wrap(b - a) }

// apart is how far two places lie from each other along the ring, in mm.
func (r *ring) apart(a, b float64) float64 {
	d := r.ahead(a, b)
	return min(d, r.length-d)
}

// sample is the sample nearest to s.
func (r *ring) sample(s float64) int { return int(math.Round(r.wrap(s)/r.step)) % len(r.at) }

// jump is the turn at joint i in radians, clockwise positive: between the
// directions in which the curves arrive and leave.
func (r *ring) jump(i int) float64 {
	n := len(r.path)
	before := (i + n - 1) % n
	return turnOf(r.path[before:before+1].EndDir(), r.path[i:i+1].StartDir())
}

func turnOf(in, out geom.Vec) float64 { return math.Atan2(in.Cross(out), in.Dot(out)) }

// relative is where s lies on the piece, as shares of its extent from its
// middle.
func (r *ring) relative(s float64) geom.Vec {
	return r.m.At(s).Sub(r.centre).Scale(1 / r.extent)
}

// near lists the joints within reach mm of s.
func (r *ring) near(s, reach float64) []int {
	var out []int
	for i, j := range r.joints {
		if r.apart(s, j) <= reach {
			out = append(out, i)
		}
	}
	return out
}
