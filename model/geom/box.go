package geom

import "math"

// Box is an upright rectangle on the paper, in mm. The zero Box is empty, and
// so is any whose Min lies right of or below its Max.
type Box struct{ Min, Max Point }

// BoxOf is the smallest box around the points; empty for none.
func BoxOf(pts ...Point) Box {
	if len(pts) == 0 {
		return Box{}
	}
	b := Box{pts[0], pts[0]}
	for _, p := range pts[1:] {
		b.Min.X, b.Max.X = min(b.Min.X, p.X), max(b.Max.X, p.X)
		b.Min.Y, b.Max.Y = min(b.Min.Y, p.Y), max(b.Max.Y, p.Y)
	}
	return b
}

// Empty reports whether b holds nothing. A lone point is a box, except at
// (0, 0), where it is the zero Box.
func (b Box) Empty() bool {
	return b == Box{} || b.Min.X > b.Max.X || b.Min.Y > b.Max.Y
}

// Union is the smallest box around both.
func (b Box) Union(o Box) Box {
	switch {
	case b.Empty():
		return o
	case o.Empty():
		return b
	}
	return BoxOf(b.Min, b.Max, o.Min, o.Max)
}

// Grow moves every side of b outwards by d mm; an empty box stays empty, and a
// negative d may leave one.
func (b Box) Grow(d float64) Box {
	if b.Empty() {
		return b
	}
	return Box{Pt(b.Min.X-d, b.Min.Y-d), Pt(b.Max.X+d, b.Max.Y+d)}
}

// Intersects reports whether the boxes share a point, sides included.
func (b Box) Intersects(o Box) bool {
	return !b.Empty() && !o.Empty() && b.meets(o)
}

// meets is Intersects for two boxes known to hold something.
func (b Box) meets(o Box) bool {
	return b.Min.X <= o.Max.X && o.Min.X <= b.Max.X && b.Min.Y <= o.Max.Y && o.Min.Y <= b.Max.Y
}

// Contains reports whether p lies in b, sides included.
func (b Box) Contains(p Point) bool {
	return !b.Empty() && b.Min.X <= p.X && p.X <= b.Max.X && b.Min.Y <= p.Y && p.Y <= b.Max.Y
}

// Width is the extent across in mm, 0 for an empty box.
func (b Box) Width() float64 {
	if b.Empty() {
		return 0
	}
	return b.Max.X - b.Min.X
}

// Height is the extent down in mm, 0 for an empty box.
func (b Box) Height() float64 {
	if b.Empty() {
		return 0
	}
	return b.Max.Y - b.Min.Y
}

// Centre is the middle of b.
func (b Box) Centre() Point { return b.Min.Lerp(b.Max, 0.5) }

// dist is how far p lies outside b, in mm; 0 inside.
func (b Box) dist(p Point) float64 {
	dx := max(b.Min.X-p.X, 0, p.X-b.Max.X)
	dy := max(b.Min.Y-p.Y, 0, p.Y-b.Max.Y)
	return math.Hypot(dx, dy)
}
