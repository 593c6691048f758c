package straight

import "quarterstep/model/geom"

// Cover is something that lies on the paper in a photo, such as a strip of
// targets: its corners in px, going round. What it hides is not the paper's, and
// may lie elsewhere in the next photo.
type Cover []geom.Point

// Over reports whether the cover hides the paper at px.
func (c Cover) Over(px geom.Point) bool {
	in := false
	for i, a := range c {
		b := c[(i+1)%len(c)]
		if (a.Y > px.Y) != (b.Y > px.Y) && px.X < a.X+(px.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

// Covered reports whether one of several covers hides the paper at px.
func Covered(all []Cover, px geom.Point) bool {
	for _, c := range all {
		if c.Over(px) {
			return true
		}
	}
	return false
}
