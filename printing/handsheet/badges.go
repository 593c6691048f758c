package handsheet

import (
	"fmt"
	"math"

	"quarterstep/model/geom"
	"quarterstep/printing/page"
)

// badge is a numbered circle, mm.
const (
	badgeR    = 2.5
	badgeSize = 3.3 // letter height
	badgeAir  = 0.5 // kept clear around it
)

// badge is the number of a grade point, laid near it.
type badge struct {
	of, at geom.Point // the point, and the middle of the circle
	arrows []geom.Vec
}

// boxes are what the badge covers.
func (b badge) boxes() []geom.Box {
	out := []geom.Box{geom.BoxOf(b.at).Grow(badgeR + badgeAir)}
	for _, v := range b.arrows {
		from := b.at.Add(v.Scale(badgeR))
		out = append(out, geom.BoxOf(from, from.Add(v.Scale(arrowLong+badgeAir))).Grow(arrowHead/2+badgeAir/2))
	}
	return out
}

// taken is what is on the drawing already.
type taken struct {
	lines [][2]geom.Point
	boxes []geom.Box
}

// badges lays a number near each point, out of the piece where it can be, clear
// of the lines and of each other. The drawing is the piece through m.
func (d *document) badges(room geom.Box, m geom.Affine, lines []geom.Path) []badge {
	var all taken
	for _, e := range lines {
		pts := e.Flatten(0.1)
		for i := 1; i < len(pts); i++ {
			all.lines = append(all.lines, [2]geom.Point{pts[i-1], pts[i]})
		}
	}
	out := make([]badge, len(d.s.Points))
	for k, q := range d.s.Points {
		b := badge{of: m.Apply(q.At)}
		for _, v := range []geom.Vec{q.arrowAcross(d.ruler), q.arrowAlong(d.ruler)} {
			if !v.IsZero() {
				b.arrows = append(b.arrows, v)
			}
		}
		b.at = place(b, d.outward(k), room, all)
		all.boxes = append(all.boxes, b.boxes()...)
		all.lines = append(all.lines, [2]geom.Point{b.of, b.at})
		out[k] = b
	}
	return out
}

// outward is the direction out of the piece at point k; for one inside, away
// from the side it points to.
func (d *document) outward(k int) geom.Vec {
	n := len(d.s.Wanted)
	if k >= n {
		return geom.Vec{X: -1}
	}
	before, after := d.s.Wanted[(k+n-1)%n].EndDir(), d.s.Wanted[k].StartDir()
	v := before.Perp().Add(after.Perp()).Unit()
	if v.IsZero() {
		v = before
	}
	const near = 1.0
	if geom.Join(d.s.Wanted...).Contains(d.s.Wanted[k].Start().Add(v.Scale(near)), near/10) {
		v = v.Scale(-1)
	}
	return v
}

// place is the place for b near its point with least against it: far off, to the side
// of out, over a line or over another badge.
func place(b badge, out geom.Vec, room geom.Box, all taken) geom.Point {
	best, least := b.of, math.Inf(1)
	for _, far := range []float64{5, 6.5, 8, 10, 12, 15, 18, 22} {
		for turn := range 32 {
			v := geom.Rotate(float64(turn) * math.Pi / 16).ApplyVec(out)
			b.at = b.of.Add(v.Scale(far))
			against := far + 2*(1-v.Dot(out)) + 100*all.under(b, room)
			if against < least-1e-9 {
				best, least = b.at, against
			}
		}
	}
	return best
}

// under counts what b, joined to its point, would cover.
func (t taken) under(b badge, room geom.Box) float64 {
	n := 0.0
	join := [2]geom.Point{b.of.Lerp(b.at, 0.15), b.at}
	for _, box := range b.boxes() {
		if !room.Contains(box.Min) || !room.Contains(box.Max) {
			n += 3
		}
		for _, l := range t.lines {
			if crosses(l, box) {
				n++
			}
		}
		for _, o := range t.boxes {
			if box.Intersects(o) {
				n += 3
			}
		}
	}
	for _, o := range t.boxes {
		if crosses(join, o) {
			n++
		}
	}
	for _, l := range t.lines {
		if cross(join, l) {
			n += 0.3
		}
	}
	return n
}

// crosses reports that a line has a part in a box.
func crosses(l [2]geom.Point, b geom.Box) bool {
	if !geom.BoxOf(l[0], l[1]).Intersects(b) {
		return false
	}
	if b.Contains(l[0]) || b.Contains(l[1]) {
		return true
	}
	corners := [4]geom.Point{b.Min, geom.Pt(b.Max.X, b.Min.Y), b.Max, geom.Pt(b.Min.X, b.Max.Y)}
	for i := range corners {
		if cross(l, [2]geom.Point{corners[i], corners[(i+1)%4]}) {
			return true
		}
	}
	return false
}

// cross reports that two lines cross.
func cross(a, b [2]geom.Point) bool {
	side := func(l [2]geom.Point, p geom.Point) float64 { return l[1].Sub(l[0]).Cross(p.Sub(l[0])) }
	return side(a, b[0])*side(a, b[1]) < 0 && side(b, a[0])*side(b, a[1]) < 0
}

// badge draws the number of point k, its arrows, and the line to the point.
func (d *document) badge(b badge, k int) {
	v := b.at.Sub(b.of).Unit()
	d.p.Line(b.of, b.at.Add(v.Scale(-badgeR)), 0.12, page.Grey(0.4))
	x, y := d.p.At(b.of)
	d.p.Group(geom.Affine{A: 1, D: 1, E: x, F: y})
	d.p.FillInk(page.Black)
	d.p.Circle(0.55)
	d.p.Op("f")
	d.p.Restore()
	x, y = d.p.At(b.at)
	d.p.Group(geom.Affine{A: 1, D: 1, E: x, F: y})
	d.p.SetPen(0.25, page.Black, nil, 0)
	d.p.Circle(badgeR)
	d.p.Op("S")
	d.p.Restore()
	d.Write(d.p, page.Words{Text: fmt.Sprint(k + 1), At: b.at.Add(geom.Vec{Y: 0.36 * badgeSize}), Size: badgeSize, Bold: true})
	for _, a := range b.arrows {
		d.arrow(b.at.Add(a.Scale(badgeR)), a)
	}
}
