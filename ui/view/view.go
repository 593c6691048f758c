package view

import (
	"math"

	"quarterstep/model/geom"
)

// Px is a place or a movement on the board, in pixels.
type Px struct{ X, Y float64 }

// Sub is the movement that takes q to p.
func (p Px) Sub(q Px) Px { return Px{p.X - q.X, p.Y - q.Y} }

// Add moves p by q.
func (p Px) Add(q Px) Px { return Px{p.X + q.X, p.Y + q.Y} }

// Len is the length of p taken as a movement, in pixels.
func (p Px) Len() float64 { return math.Hypot(p.X, p.Y) }

// The scales a View keeps between, in pixels a mm: a whole wardrobe small
// enough to see, and a pencil line 8 px wide.
const (
	MinScale = 0.04
	MaxScale = 40
)

// View says which part of the paper the board shows. The zero View shows
// nothing; start from Fit or Actual.
type View struct {
	Scale  float64    // pixels a mm
	Origin geom.Point // the place of the paper at the board's upper left corner
}

// ToPx is where a place of the paper lies on the board.
func (v View) ToPx(p geom.Point) Px {
	return Px{(p.X - v.Origin.X) * v.Scale, (p.Y - v.Origin.Y) * v.Scale}
}

// ToMM is the inverse of ToPx; the Origin for a View without a scale.
func (v View) ToMM(p Px) geom.Point { return v.Origin.Add(v.MM(p)) }

// MM is a movement on the board as one on the paper.
func (v View) MM(d Px) geom.Vec {
	if v.Scale == 0 {
		return geom.Vec{}
	}
	return geom.Vec{X: d.X / v.Scale, Y: d.Y / v.Scale}
}

// Box is the part of the paper that a board of w by h pixels shows.
func (v View) Box(w, h float64) geom.Box {
	return geom.Box{Min: v.Origin, Max: v.ToMM(Px{w, h})}
}

// Affine takes places of the paper to pixels.
func (v View) Affine() geom.Affine {
	return geom.Affine{
		A: v.Scale, D: v.Scale,
		E: -v.Origin.X * v.Scale, F: -v.Origin.Y * v.Scale,
	}
}

// Zoom stretches v by factor and leaves the place of the paper under at where
// it is. The scale stays between MinScale and MaxScale.
func (v View) Zoom(factor float64, at Px) View { return v.ScaleTo(v.Scale*factor, at) }

// ScaleTo is v at another scale, the place of the paper under at unmoved.
func (v View) ScaleTo(scale float64, at Px) View {
	under := v.ToMM(at)
	v.Scale = min(max(scale, MinScale), MaxScale)
	v.Origin = under.Add(v.MM(at).Scale(-1))
	return v
}

// Slide moves what is shown by d pixels, as a hand on the paper does.
func (v View) Slide(d Px) View {
	v.Origin = v.Origin.Add(v.MM(d).Scale(-1))
	return v
}

// Fit shows the whole of box in the middle of a board of w by h pixels, with
// at least margin pixels free on every side. An empty box shows a square metre.
func Fit(box geom.Box, w, h, margin float64) View {
	if box.Empty() {
		box = geom.Box{Max: geom.Pt(1000, 1000)}
	}
	room := func(px, mm float64) float64 { return max(px-2*margin, 1) / max(mm, 1) }
	v := View{Scale: min(room(w, box.Width()), room(h, box.Height()))}
	v.Scale = min(max(v.Scale, MinScale), MaxScale)
	v.Origin = box.Centre().Add(v.MM(Px{-w / 2, -h / 2}))
	return v
}

// Keep slides v just so far that at least most pixels of box stay in sight on a
// board of w by h pixels, in each direction; a smaller box stays in sight
// whole. An empty box leaves v alone.
func (v View) Keep(box geom.Box, w, h, most float64) View {
	if box.Empty() {
		return v
	}
	lo, hi := v.ToPx(box.Min), v.ToPx(box.Max)
	return v.Slide(Px{inSight(lo.X, hi.X, w, most), inSight(lo.Y, hi.Y, h, most)})
}

// inSight is how far to move the stretch from lo to hi so that most of it, or
// all where it is shorter, lies within 0 to size.
func inSight(lo, hi, size, most float64) float64 {
	most = min(most, hi-lo, size)
	switch {
	case hi < most:
		return most - hi
	case lo > size-most:
		return size - most - lo
	}
	return 0
}

// Actual shows box at the scale of paper, perMM pixels a mm, the place under at
// unmoved.
func (v View) Actual(perMM float64, at Px) View { return v.ScaleTo(perMM, at) }
