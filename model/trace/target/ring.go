package target

import (
	"image"
	"math"

	"quarterstep/model/geom"
)

// ring is where a photo shows a circle: its middle, and two half axes at right
// angles, in pixels, which bring the circle's radii to the photo.
type ring struct {
	mid  geom.Point
	a, b geom.Vec // a the longer, b a quarter turn on, from x to y
	lean geom.Vec // by how much what lies that way is shown smaller, to a radius
}

// at is the place of the photo that shows the place p of the target.
func (r ring) at(p geom.Point) geom.Point {
	return r.mid.Add(r.a.Scale(p.X).Add(r.b.Scale(p.Y)).Scale(1 - r.lean.Dot(geom.Vec(p))))
}

const mostLean = 0.06

// about is r about c, where the circle's own middle is shown. In perspective
// this is not the ellipse's: a circle leaning by lean is shown moved by half of
// it. More than mostLean is no perspective but the photo's grain.
func (r ring) about(c geom.Point) ring {
	off := r.mid.Sub(c)
	r.lean = geom.Vec{X: -2 * off.Dot(r.a) / r.a.Dot(r.a), Y: -2 * off.Dot(r.b) / r.b.Dot(r.b)}
	if n := r.lean.Len(); n > mostLean {
		r.lean = r.lean.Scale(mostLean / n)
	}
	r.mid = c
	return r
}

const (
	leastRadius = 10.0 // px, the shorter way
	// leastTilt is the shorter half axis over the longer: 0.82 at 35 degrees,
	// and lower at the sides of a wide photo.
	leastTilt = 0.55
)

// ringOf is the ring that a dark part of the photo at half size may be: what it
// surrounds is an ellipse, by its area and second moments, and about a third of
// it is dark, the ring alone or with what blur has joined to it.
func ringOf(p part) (ring, bool) {
	wide, high := float64(p.right-p.left), float64(p.base-p.top)
	if min(wide, high) < leastRadius-2 || wide > 4*high || high > 4*wide {
		return ring{}, false
	}
	if share := p.dark / p.n; share < 0.22 || share > 0.75 {
		return ring{}, false
	}
	x, y := p.x/p.n, p.y/p.n
	sxx, sxy, syy := p.xx/p.n-x*x, p.xy/p.n-x*y, p.yy/p.n-y*y
	mean, half := (sxx+syy)/2, math.Hypot((sxx-syy)/2, sxy)
	a, b := 2*math.Sqrt(mean+half), 2*math.Sqrt(max(mean-half, 0))
	if b < leastTilt*a || 2*b < leastRadius {
		return ring{}, false
	}
	if full := p.n / (math.Pi * a * b); full < 0.93 || full > 1.05 {
		return ring{}, false
	}
	angle := math.Atan2(2*sxy, sxx-syy) / 2
	way := geom.Vec(round(1, angle))
	return ring{mid: geom.Pt(2*x, 2*y), a: way.Scale(2 * a), b: way.Perp().Scale(2 * b)}, true
}

// brightness is g at p, between the middles of its pixels; beyond its sides
// that of the nearest.
func brightness(g *image.Gray, p geom.Point) float64 {
	w, h := g.Rect.Dx(), g.Rect.Dy()
	x := min(max(p.X-0.5, 0), float64(w-1))
	y := min(max(p.Y-0.5, 0), float64(h-1))
	i, j := min(int(x), max(w-2, 0)), min(int(y), max(h-2, 0))
	u, v := x-float64(i), y-float64(j)
	k := j*g.Stride + i
	i1, j1 := min(1, w-1-i), min(1, h-1-j)*g.Stride
	return (float64(g.Pix[k])*(1-u)+float64(g.Pix[k+i1])*u)*(1-v) + (float64(g.Pix[k+j1])*(1-u)+float64(g.Pix[k+j1+i1])*u)*v
}

// within reports whether the photo shows the target with its white, margin
// radii of it.
func (r ring) within(g *image.Gray, margin float64) bool {
	x := margin * math.Hypot(r.a.X, r.b.X)
	y := margin * math.Hypot(r.a.Y, r.b.Y)
	w, h := float64(g.Rect.Dx()), float64(g.Rect.Dy())
	return r.mid.X-x >= 1 && r.mid.Y-y >= 1 && r.mid.X+x <= w-1 && r.mid.Y+y <= h-1
}
