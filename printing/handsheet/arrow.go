package handsheet

import (
	"quarterstep/model/geom"
	"quarterstep/printing/page"
)

// Arrows, mm.
const (
	arrowLong = 3.6
	arrowHead = 1.5
)

// arrowAcross is the direction on the page in which the point goes across the
// grain, of length 1; zero where it stays.
func (q Point) arrowAcross(r Ruler) geom.Vec {
	out := q.Out.Total()
	switch {
	case r.zero(out):
		return geom.Vec{}
	case out > 0 == q.Right:
		return geom.Vec{X: 1}
	}
	return geom.Vec{X: -1}
}

// arrowAlong is the same along the grain.
func (q Point) arrowAlong(r Ruler) geom.Vec {
	down := q.Down.Total()
	switch {
	case r.zero(down):
		return geom.Vec{}
	case down > 0:
		return geom.Vec{Y: 1}
	}
	return geom.Vec{Y: -1}
}

// arrow draws an arrow that starts at from and points in the direction v.
func (d *document) arrow(from geom.Point, v geom.Vec) {
	tip := from.Add(v.Scale(arrowLong))
	back := tip.Add(v.Scale(-arrowHead))
	side := v.Perp().Scale(0.45 * arrowHead)
	d.p.Line(from, back, 0.35, page.Black)
	d.p.FillInk(page.Black)
	d.p.MoveTo(tip)
	d.p.LineTo(back.Add(side))
	d.p.LineTo(back.Add(side.Scale(-1)))
	d.p.Op("f")
}
