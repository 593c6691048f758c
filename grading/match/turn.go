package match

import (
	"math"

	"quarterstep/model/geom"
)

// The directions on both sides of a place are read from what lies beside it,
// by a parabola through the samples carried on to the place, so that the bend
// of a tight armhole does not count as a corner. A corner turns alike at every
// scale; the wobble of a hand shows at the short ones only, a bend at the long
// ones only. So the least turn of all scales counts. Scales in mm, by our own
// trial on traced nests.
var scales = [...]float64{10, 18, 32}

const (
	blunt = 1.0 // mm; how far a hand rounds a corner off

	// roomStrong and roomWeak are how far in mm from a known corner a traced
	// ring can show another one, plain or slight.
	roomStrong = 14.0
	roomWeak   = 20.0

	// segments is the mean length in mm of a polygon's sides up to which the
	// scales serve; they grow with longer ones.
	segments = 7.0
)

// profile is the turn of a ring at every sample, in radians. On a drawn ring
// it is the turn at the joints; on a traced one it is what all scales agree
// on, windows ending at the corners already known and nothing shown within
// room mm of them.
type profile []float64

func newProfile(r *ring, corners []corner, room float64) profile {
	p := make(profile, len(r.at))
	if !r.dense {
		for i := range r.path {
			k := r.sample(r.joints[i])
			if t := r.jump(i); math.Abs(t) > math.Abs(p[k]) {
				p[k] = t
			}
		}
		return p
	}
	d := directions{r: r, weights: map[int][]float64{}, grow: max(1, r.length/float64(len(r.path))/segments)}
	for k := range p {
		p[k] = d.turn(k, corners, room)
	}
	return p
}

// directions reads directions of travel off a traced ring.
type directions struct {
	r       *ring
	grow    float64
	weights map[int][]float64 // by number of samples
}

func (d directions) turn(k int, corners []corner, room float64) float64 {
	r, s := d.r, float64(k)*d.r.step
	back, ahead := r.length/4, r.length/4
	for _, c := range corners {
		if r.apart(c.s, s) < room {
			return 0
		}
		back = min(back, r.ahead(c.s, s))
		ahead = min(ahead, r.ahead(s, c.s))
	}
	var least float64
	for i, l := range scales {
		t := turnOf(d.beside(k, -1, min(l*d.grow, back)), d.beside(k, 1, min(l*d.grow, ahead)))
		if i > 0 && t*least <= 0 {
			return 0
		}
		if i == 0 || math.Abs(t) < math.Abs(least) {
			least = t
		}
	}
	return least
}

// beside is the direction of travel at sample k as what lies within l mm of it
// on one side says.
func (d directions) beside(k, side int, l float64) geom.Vec {
	r := d.r
	first := int(math.Ceil(blunt / r.step))
	n := max(4, int(l/r.step)-first)
	w, ok := d.weights[n]
	if !ok {
		w = slopeWeights(first, n)
		d.weights[n] = w
	}
	var v geom.Vec
	m := len(r.at)
	for j := range n {
		q := r.at[((k+side*(first+j))%m+m)%m]
		v = v.Add(q.Sub(r.at[k]).Scale(w[j]))
	}
	return v.Scale(float64(side))
}

// slopeWeights are the weights of n samples at first, first+1, ... steps from a
// place in the slope there of the least-squares parabola through them.
func slopeWeights(first, n int) []float64 {
	var s [5]float64
	for k := range n {
		t, pow := float64(first+k), 1.0
		for i := range s {
			s[i] += pow
			pow *= t
		}
	}
	// The normal equations' middle unknown by Cramer's rule, as a sum over
	// the samples.
	det := s[0]*(s[2]*s[4]-s[3]*s[3]) - s[1]*(s[1]*s[4]-s[3]*s[2]) + s[2]*(s[1]*s[3]-s[2]*s[2])
	w := make([]float64, n)
	for k := range n {
		t := float64(first + k)
		w[k] = (-(s[1]*s[4] - s[2]*s[3]) + t*(s[0]*s[4]-s[2]*s[2]) - t*t*(s[0]*s[3]-s[1]*s[2])) / det
	}
	return w
}

// misfit is how badly two parabolas, one on each side of s, tell the samples
// from mm before to mm behind middle: the sum of squared distances in mm².
func (r *ring) misfit(s, middle, before, behind float64) float64 {
	m := len(r.at)
	side := func(from, to float64) float64 {
		var pts []geom.Point
		for k := math.Ceil(from / r.step); k*r.step <= to; k++ {
			pts = append(pts, r.at[((int(k)%m)+m)%m])
		}
		return parabolaMisfit(pts)
	}
	at := s
	if at-middle > r.length/2 {
		at -= r.length
	} else if middle-at > r.length/2 {
		at += r.length
	}
	return side(middle-before, at) + side(at, middle+behind)
}

// parabolaMisfit is the sum of squared distances in mm² of evenly spaced points
// from the least-squares parabola through them, by discrete orthogonal
// polynomials.
func parabolaMisfit(pts []geom.Point) float64 {
	n := float64(len(pts))
	if n <= 3 {
		return 0
	}
	mid := (n - 1) / 2
	spread := n * (n*n - 1) / 12 // sum of (k-mid)²
	square := spread / n
	var c [3]geom.Vec
	var all, norm2 float64
	o := pts[len(pts)/2]
	for k, p := range pts {
		t := float64(k) - mid
		v := p.Sub(o)
		q := t*t - square
		c[0] = c[0].Add(v)
		c[1] = c[1].Add(v.Scale(t))
		c[2] = c[2].Add(v.Scale(q))
		all += v.Dot(v)
		norm2 += q * q
	}
	return max(0, all-c[0].Dot(c[0])/n-c[1].Dot(c[1])/spread-c[2].Dot(c[2])/norm2)
}
