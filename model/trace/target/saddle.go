package target

import (
	"image"
	"math"

	"quarterstep/model/geom"
)

// saddle is where the four quarters of the checker meet, from the ring's middle
// on: the place nearest to all lines along the brightness's edges about it
// (Förstner and Gülch 1987), which neither blur nor tilt nor light moves. False
// where the edges do not meet there.
func saddle(g *image.Gray, r ring) (geom.Point, bool) {
	c := r.mid
	reach := max(3, 0.36*r.b.Len())
	for range 12 {
		next, ok := meeting(g, c, reach)
		if !ok || next.Dist(r.mid) > 0.25*r.b.Len() {
			return geom.Point{}, false
		}
		moved := next.Dist(c)
		c = next
		if moved < 1e-3 {
			return c, true
		}
	}
	return c, true
}

// meeting is one step of saddle: looks are weighed by a bell about c that ends
// at reach pixels.
func meeting(g *image.Gray, c geom.Point, reach float64) (geom.Point, bool) {
	x0, x1 := int(math.Ceil(c.X-0.5-reach)), int(math.Floor(c.X-0.5+reach))
	y0, y1 := int(math.Ceil(c.Y-0.5-reach)), int(math.Floor(c.Y-0.5+reach))
	if x0 < 1 || y0 < 1 || x1 > g.Rect.Dx()-2 || y1 > g.Rect.Dy()-2 {
		return geom.Point{}, false
	}
	var xx, xy, yy, bx, by float64
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			px, py := float64(x)+0.5-c.X, float64(y)+0.5-c.Y
			d := (px*px + py*py) / (reach * reach)
			if d >= 1 {
				continue
			}
			w := (1 - d) * (1 - d)
			k := y*g.Stride + x
			gx := float64(g.Pix[k+1]) - float64(g.Pix[k-1])
			gy := float64(g.Pix[k+g.Stride]) - float64(g.Pix[k-g.Stride])
			xx += w * gx * gx
			xy += w * gx * gy
			yy += w * gy * gy
			bx += w * gx * (gx*px + gy*py)
			by += w * gy * (gx*px + gy*py)
		}
	}
	det := xx*yy - xy*xy
	if det <= 0.02*(xx+yy)*(xx+yy)/4 {
		return geom.Point{}, false
	}
	return geom.Pt(c.X+(yy*bx-xy*by)/det, c.Y+(xx*by-xy*bx)/det), true
}
