package exchange

import (
	"math"

	"quarterstep/model/geom"
)

// arcTol is how far in mm, at the drawn scale, a cubic may lie from its arc.
const arcTol = 0.0005

// quarterError is how far the cubic for a quarter of the unit circle lies from
// it at most, with handles of 4/3 tan(angle/4); it shrinks with the sixth
// power of the angle (T. Dokken et al., Computer Aided Geometric Design 7
// (1990) 33).
const quarterError = 2.7253e-4

// ellipse is an ellipse as an image of the unit circle, in user units.
type ellipse struct{ centre, rx, ry geom.Vec }

// arc is the stretch of the ellipse from angle a over turn radians. perUnit is
// mm per user unit.
func (e ellipse) arc(a, turn, perUnit float64) geom.Path {
	worst := max(e.rx.Len(), e.ry.Len()) * perUnit * quarterError
	most := math.Pi / 2
	if worst > arcTol {
		most *= math.Pow(arcTol/worst, 1.0/6)
	}
	n := max(1, math.Ceil(math.Abs(turn)/most-1e-9))
	n = min(n, 1000) // 1000 a turn is within arcTol up to 300 km
	step := turn / n
	k := 4.0 / 3 * math.Tan(step/4)
	var out geom.Path
	at := func(x, y float64) geom.Point {
		return geom.Point(e.centre.Add(e.rx.Scale(x)).Add(e.ry.Scale(y)))
	}
	for i := range int(n) {
		s0, c0 := math.Sincos(a + float64(i)*step)
		s1, c1 := math.Sincos(a + float64(i+1)*step)
		c := geom.Cubic{P0: at(c0, s0), P1: at(c0-k*s0, s0+k*c0), P2: at(c1+k*s1, s1-k*c1), P3: at(c1, s1)}
		if i > 0 {
			c.P0 = out[i-1].P3
		}
		out = append(out, c)
	}
	return out
}

// endArc is the arc of SVG's A command from p to q: radii, turn of the
// ellipse's x axis in degrees, and the two flags. Radii too small are enlarged
// and no radius gives a straight line (SVG 1.1, F.6.5 and F.6.6).
func endArc(p, q geom.Point, rx, ry, tilt float64, large, sweep bool, perUnit float64) geom.Path {
	rx, ry = math.Abs(rx), math.Abs(ry)
	if p == q {
		return nil
	}
	if rx == 0 || ry == 0 {
		return geom.Path{geom.Line(p, q)}
	}
	sin, cos := math.Sincos(math.Mod(tilt, 360) * math.Pi / 180)
	half := p.Sub(q).Scale(0.5)
	x, y := (cos*half.X+sin*half.Y)/rx, (-sin*half.X+cos*half.Y)/ry
	grow := math.Hypot(x, y)
	if grow > 1 {
		rx, ry, x, y = rx*grow, ry*grow, x/grow, y/grow
	}
	// In the frame where the ellipse is the unit circle, the ends are (x, y)
	// and (-x, -y) about the middle of the chord.
	d2 := x*x + y*y
	off := math.Sqrt(max(0, 1/d2-1))
	if large == sweep {
		off = -off
	}
	cx, cy := off*y, -off*x
	a := math.Atan2(y-cy, x-cx)
	turn := math.Atan2(-y-cy, -x-cx) - a
	if math.IsNaN(turn) {
		return geom.Path{geom.Line(p, q)} // so small beside its ellipse, or so large, that no number holds it
	}
	if sweep && turn <= 0 {
		turn += 2 * math.Pi
	} else if !sweep && turn >= 0 {
		turn -= 2 * math.Pi
	}
	ux, uy := geom.Vec{X: cos, Y: sin}.Scale(rx), geom.Vec{X: -sin, Y: cos}.Scale(ry)
	mid := geom.Vec(p.Lerp(q, 0.5))
	out := ellipse{mid.Add(ux.Scale(cx)).Add(uy.Scale(cy)), ux, uy}.arc(a, turn, perUnit)
	out[0].P0, out[len(out)-1].P3 = p, q
	return out
}
