package geom

import "math"

// Beside is the line that runs beside one edge of an outline, from where it
// meets the line beside the edge before to where it meets that of the edge
// after: an edge of OffsetOutline, measured without being drawn. Its points
// are square to the edge, so that a place on the one has its place on the
// other.
type Beside struct {
	edge     Path
	d        float64
	from, to spot
	head     float64 // straight mm before the edge's start, where it is mitred
	tail     float64 // and after its end
	length   float64
	tol      float64
}

// spot is a parameter t of cubic i.
type spot struct {
	i int
	t float64
}

// looseness of a line that is measured without being drawn
const (
	// leastStretch is how much of its length a bend may lose beside it: one
	// that loses more has to be drawn, for it may fold over.
	leastStretch = 0.05
	// mostKink is the angle in radians up to which a corner inside an edge is
	// taken for two straight lines meeting.
	mostKink = 0.1
	// leastTurn is the sine of the angle of two neighbours below which they
	// are one line, and meet in a step if their widths differ.
	leastTurn = 0.02
)

// MeasureBeside measures the line d mm beside edge, positive to the left of
// travel, between the lines dBefore beside the edge before it and dAfter beside
// the one after it. Its length, and every place, is within tol mm of the edge
// that OffsetOutline draws.
//
// It is false where that has to be drawn to be measured: at a bend tighter than
// d, a sharp kink inside an edge, a mitre cut off, or two widths on one line.
func MeasureBeside(before, edge, after Path, dBefore, d, dAfter, tol float64) (Beside, bool) {
	b := Beside{edge: edge, d: d, to: spot{len(edge) - 1, 1}, tol: tol}
	if len(before) == 0 || len(edge) == 0 || len(after) == 0 || !(tol > 0) || !loose(edge, d) {
		return Beside{}, false
	}
	in := besideCorner{before, edge, dBefore, d}
	_, start, ok1 := in.solve()
	out := besideCorner{edge, after, d, dAfter}
	end, _, ok2 := out.solve()
	if !ok1 || !ok2 {
		return Beside{}, false
	}
	if start < 0 {
		b.head = -start * edge[0].Deriv(0).Len()
	} else {
		b.from.t = start
	}
	last := &edge[len(edge)-1]
	if end > 1 {
		b.tail = (end - 1) * last.Deriv(1).Len()
	} else {
		b.to.t = end
	}
	if len(edge) == 1 && b.from.t >= b.to.t {
		return Beside{}, false
	}
	run, err := b.run(b.from, b.to)
	b.length = b.head + run + b.tail
	return b, err == nil && b.length > 0
}

// loose reports that p can be measured d mm beside it without being drawn.
func loose(p Path, d float64) bool {
	if d == 0 {
		return true
	}
	for i, c := range p {
		if c.Deriv(0).Len() <= tiny*c.reach() || c.Deriv(1).Len() <= tiny*c.reach() {
			return false
		}
		if i > 0 && math.Abs(turnBetween(p[i-1].Tangent(1), c.Tangent(0))) > mostKink {
			return false
		}
		if c.straight() {
			continue
		}
		for k := range 9 {
			if c.stretchAt(float64(k)/8, d) < leastStretch {
				return false
			}
		}
	}
	return true
}

// straight reports that a cubic's handles lie on its chord exactly, as Line
// puts them.
func (c Cubic) straight() bool {
	v := c.P3.Sub(c.P0)
	return math.Abs(v.Cross(c.P1.Sub(c.P0))) <= tiny*v.Dot(v) && math.Abs(v.Cross(c.P2.Sub(c.P0))) <= tiny*v.Dot(v)
}

// turnBetween is the angle from u to v in radians.
func turnBetween(u, v Vec) float64 { return math.Atan2(u.Cross(v), u.Dot(v)) }

// Length is the line's own length in mm.
func (b Beside) Length() float64 { return b.length }

// Along is how far along the line the place lies that is square to the edge s
// mm along it; a place trimmed off at a corner counts as that end.
func (b Beside) Along(s float64) (float64, error) {
	m, err := Measure(b.edge, b.tol/4)
	if err != nil {
		return 0, err
	}
	i, t := m.Locate(s)
	return b.at(spot{i, t})
}

func (b Beside) at(p spot) (float64, error) {
	switch {
	case p.i < b.from.i || p.i == b.from.i && p.t <= b.from.t:
		return 0, nil
	case p.i > b.to.i || p.i == b.to.i && p.t >= b.to.t:
		return b.length, nil
	}
	run, err := b.run(b.from, p)
	return b.head + run, err
}

// Place is the inverse of Along: mm along the edge of the place that lies x mm
// along the line; the edge's ends for places on a mitre.
func (b Beside) Place(x float64) (float64, error) {
	m, err := Measure(b.edge, b.tol/4)
	if err != nil {
		return 0, err
	}
	lo, hi := m.To(b.from.i, b.from.t), m.To(b.to.i, b.to.t)
	for hi-lo > b.tol/8 {
		mid := (lo + hi) / 2
		i, t := m.Locate(mid)
		at, err := b.at(spot{i, t})
		if err != nil {
			return 0, err
		}
		if at < x {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2, nil
}

// run is the length beside the edge between two of its places: its own length
// and d for each radian it turns away (a parallel curve is longer by d times
// its turning: do Carmo, Differential Geometry of Curves and Surfaces, 1-5,
// exercise 6, from memory).
func (b Beside) run(from, to spot) (float64, error) {
	var total float64
	for i := from.i; i <= to.i; i++ {
		lo, hi := 0.0, 1.0
		if i == from.i {
			lo = from.t
		}
		if i == to.i {
			hi = to.t
		}
		c := b.edge[i]
		if i > from.i && b.d != 0 {
			total += 2 * b.d * math.Tan(turnBetween(b.edge[i-1].Tangent(1), c.Tangent(0))/2)
		}
		l, err := c.lengthBetween(lo, hi, b.tol/4/float64(len(b.edge)))
		if err != nil {
			return 0, err
		}
		total += l
		if b.d != 0 && !c.straight() {
			total += b.d * c.turning(lo, hi)
		}
	}
	return total, nil
}

func (c Cubic) lengthBetween(lo, hi, tol float64) (float64, error) {
	if lo == 0 {
		return c.LengthTo(hi, tol)
	}
	return c.Sub(lo, hi).Length(tol)
}

// turning is by how many radians the cubic turns from parameter lo to hi,
// positive to the right of travel as the paper lies, whole turns counted.
func (c Cubic) turning(lo, hi float64) float64 {
	const parts = 6
	var total float64
	u := c.Tangent(lo)
	for k := 1; k <= parts; k++ {
		v := c.Tangent(lo + (hi-lo)*float64(k)/parts)
		total += turnBetween(u, v)
		u = v
	}
	return total
}

// besideCorner is where the line beside a meets that beside b.
type besideCorner struct {
	a, b   Path
	da, db float64
}

// solve finds the parameter of a's last cubic and of b's first at which the two
// lines cross, each going on straight past its end: past 1, or below 0, there.
func (k besideCorner) solve() (ta, tb float64, ok bool) {
	a, b := k.a[len(k.a)-1], k.b[0]
	if k.da == 0 && k.db == 0 {
		return 1, 0, true
	}
	dirA, dirB := a.Tangent(1), b.Tangent(0)
	speedA, speedB := a.Deriv(1).Len(), b.Deriv(0).Len()
	if speedA <= tiny*a.reach() || speedB <= tiny*b.reach() {
		return 0, 0, false
	}
	turn := dirA.Cross(dirB)
	opens := k.da*k.db > 0 && turn*k.da >= 0
	if math.Abs(turn) < leastTurn || dirA.Dot(dirB) < -0.999 {
		if k.da != k.db || dirA.Dot(dirB) < 0 {
			return 0, 0, false
		}
		// One line, or nearly: both sides are mitred, or trimmed, alike.
		u := k.da * math.Tan(turnBetween(dirA, dirB)/2)
		ta, tb = 1+u/speedA, -u/speedB
		if opens || math.Abs(turn) < 1e-4 {
			return ta, tb, true
		}
	} else {
		end, start := a.beside(1, k.da), b.beside(0, k.db)
		u, v, _ := raysMeet(end, dirA, start, dirB.Scale(-1))
		ta, tb = 1+u/speedA, -v/speedB
		if opens { // the usual mitre
			limit := mitreLimit * max(math.Abs(k.da), math.Abs(k.db))
			return ta, tb, u >= 0 && v >= 0 && end.Add(dirA.Scale(u)).Dist(b.P0) <= limit
		}
	}
	for range 12 {
		p, dp := a.besideOn(ta, k.da, 1)
		q, dq := b.besideOn(tb, k.db, 0)
		gap := q.Sub(p)
		if gap.Len() < 1e-9 {
			return ta, tb, ta > 0 && tb < 1 && (len(k.a) > 1 || ta > 0) && k.near(p)
		}
		den := dp.Cross(dq)
		if den == 0 {
			return 0, 0, false
		}
		ta += gap.Cross(dq) / den
		tb += gap.Cross(dp) / den
		if !(math.Abs(ta) < 3) || !(math.Abs(tb) < 3) {
			return 0, 0, false
		}
	}
	return 0, 0, false
}

// near reports that a meet is no farther from its corner than a mitre may be.
func (k besideCorner) near(p Point) bool {
	return p.Dist(k.b[0].P0) <= mitreLimit*max(math.Abs(k.da), math.Abs(k.db))
}

// besideOn is the point d mm beside c at t and its derivative; past the end at
// parameter end (0 or 1) it runs on straight.
func (c Cubic) besideOn(t, d, end float64) (Point, Vec) {
	if end == 1 && t > 1 || end == 0 && t < 0 {
		v := c.Deriv(end)
		return c.beside(end, d).Add(v.Scale(t - end)), v
	}
	return c.beside(t, d), c.Deriv(t).Scale(c.stretchAt(t, d))
}
