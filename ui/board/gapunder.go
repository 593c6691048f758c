package board

import (
	"math"
	"slices"

	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

// gapReach is how far to either side of the pointer a gap is looked for, mm.
const gapReach = 300

// GapUnder is the gap, level with the pointer, between the new line nearest to it and
// the printed line next to that, of the piece under the pointer; false where there is
// none. It is what the see-through ruler would read there.
func (b *Board) GapUnder() (from, to scene.Crossing, ok bool) {
	if b.hover.Piece == "" || !b.in.Nest || len(b.in.Sheets) > 0 {
		return from, to, false
	}
	at := b.view.ToMM(b.pointer)
	aside := geom.Vec{X: gapReach}
	cs := scene.Crossings(b.in, at.Add(aside.Scale(-1)), at.Add(aside), 0.01)
	cs = slices.DeleteFunc(cs, func(c scene.Crossing) bool { return c.Piece != b.hover.Piece })
	near := math.Inf(1)
	for i, c := range cs {
		d := math.Abs(c.S - gapReach)
		if c.Printed || d >= near {
			continue
		}
		for _, k := range []int{i - 1, i + 1} {
			if k >= 0 && k < len(cs) && cs[k].Printed {
				from, to, near, ok = cs[k], c, d, true
				break
			}
		}
	}
	return from, to, ok && math.Abs(to.S-from.S) > 0.05
}
