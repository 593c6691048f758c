package spread

import "quarterstep/model/geom"

// roughTol is how near in mm a polygon keeps to the line it stands for.
const roughTol = 0.01

// polygon is a closed line in straight pieces, for asking of many places
// whether they lie inside.
type polygon []geom.Point

func newPolygon(p geom.Path) polygon { return p.Flatten(roughTol) }

// contains is the even-odd rule; within roughTol of the line the answer may be
// either.
func (g polygon) contains(p geom.Point) bool {
	in := false
	for i, b := range g {
		a := g[(i+len(g)-1)%len(g)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}
