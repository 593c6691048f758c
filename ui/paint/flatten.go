package paint

import (
	"math"

	"quarterstep/model/geom"
)

// chordTol is how far, in device px, a chord may depart from its curve.
const chordTol = 0.15

// pt is a place in device px.
type pt struct{ x, y float64 }

func (a pt) sub(b pt) pt                { return pt{a.x - b.x, a.y - b.y} }
func (a pt) add(b pt) pt                { return pt{a.x + b.x, a.y + b.y} }
func (a pt) scale(k float64) pt         { return pt{k * a.x, k * a.y} }
func (a pt) dot(b pt) float64           { return a.x*b.x + a.y*b.y }
func (a pt) cross(b pt) float64         { return a.x*b.y - a.y*b.x }
func (a pt) len() float64               { return math.Sqrt(a.x*a.x + a.y*a.y) }
func (a pt) unit() pt                   { return a.scale(1 / max(a.len(), 1e-12)) }
func (a pt) turned() pt                 { return pt{-a.y, a.x} } // a quarter clockwise
func at(m geom.Affine, p geom.Point) pt { q := m.Apply(p); return pt{q.X, q.Y} }

// run is a stretch of the painter's points: one unbroken piece of line.
type run struct{ from, to int }

// flatten appends path, taken through m, to pts as chords within chordTol.
// Chords shorter than a hundredth of a pixel are left out.
func flatten(pts []pt, path geom.Path, m geom.Affine) []pt {
	first := len(pts)
	for _, c := range path {
		p0, p1, p2, p3 := at(m, c.P0), at(m, c.P1), at(m, c.P2), at(m, c.P3)
		if len(pts) == first {
			pts = append(pts, p0)
		}
		n := chords(p0, p1, p2, p3)
		for k := 1; k < n; k++ {
			t := float64(k) / float64(n)
			u := 1 - t
			a, b, c, d := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
			pts = far(pts, pt{a*p0.x + b*p1.x + c*p2.x + d*p3.x, a*p0.y + b*p1.y + c*p2.y + d*p3.y})
		}
		pts = far(pts, p3)
	}
	return pts
}

// far appends p unless it lies on the last point.
func far(pts []pt, p pt) []pt {
	if last := pts[len(pts)-1]; math.Abs(last.x-p.x)+math.Abs(last.y-p.y) < 0.01 {
		return pts
	}
	return append(pts, p)
}

// chords is how many equal steps keep within chordTol: as geom.Cubic.Flatten,
// from the greatest second derivative.
func chords(p0, p1, p2, p3 pt) int {
	bend := max(p0.sub(p1.scale(2)).add(p2).len(), p1.sub(p2.scale(2)).add(p3).len())
	n := math.Ceil(math.Sqrt(6 * bend / 8 / chordTol))
	if !(n < 4096) {
		return 4096
	}
	return max(int(n), 1)
}

// shift moves the polyline sideways by d px, to the right as it is walked, in
// place; corners are mitred to at most twice d.
func shift(pts []pt, d float64) {
	if len(pts) < 2 {
		return
	}
	prev := pts[1].sub(pts[0]).unit().turned()
	for i := range pts {
		next := prev
		if i+1 < len(pts) {
			next = pts[i+1].sub(pts[i]).unit().turned()
		}
		mid := prev.add(next)
		// Half of mid is the mitre shortened by the cosine squared of half the turn.
		k := d / max(mid.dot(mid)/2, 0.5)
		pts[i] = pts[i].add(mid.scale(k))
		prev = next
	}
}
