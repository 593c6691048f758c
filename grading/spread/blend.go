package spread

// jump is a step of the movement along an edge: by how much, and where, u from
// 0 at the edge's start to 1 at its end.
type jump struct{ by, at float64 }

// course is how the movement at one cut goes along an edge, as a share of the
// whole: from its value at the edge's start by smooth rises in place of jumps.
type course struct {
	start float64
	jumps []jump
}

// rest reports that the whole edge moves alike.
func (c course) rest() bool { return len(c.jumps) == 0 }

// value is the share of the movement at u.
func (c course) value(u float64) float64 {
	v := c.start
	for _, j := range c.jumps {
		v += j.by * (u + j.skew()*u*(1-2*u*u+u*u*u))
	}
	return v
}

// slope is the growth of value per unit of u.
func (c course) slope(u float64) float64 {
	var v float64
	for _, j := range c.jumps {
		v += j.by * (1 + j.skew()*(1-6*u*u+4*u*u*u))
	}
	return v
}

// skew is c of the package's doc: it gives the rise the mean of the jump, as
// far as it does not run back.
func (j jump) skew() float64 { return min(max(5*(0.5-j.at), -1), 1) }
