package follow

import (
	"quarterstep/model/geom"
)

// Snap is the place on the middle of the printed line nearest to p, if there
// is one within reach mm.
func (f *Field) Snap(p geom.Point, reach float64) (geom.Point, bool) {
	best, found := geom.Point{}, false
	f.web.grid.near(p, reach, func(i int32) {
		if at, _, dist := f.web.dashes[i].nearest(p); dist <= reach {
			best, found, reach = at, true, dist
		}
	})
	return best, found
}
