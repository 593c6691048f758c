package grading

import (
	"math"

	"quarterstep/model"
)

// StageShare is how much of a correction that piece q was given at size stage
// counts at a place of chart c, 0 to 1: all of it at the stage, nothing of it
// from the printed size before it and from the one after it on, a straight
// share between. Where there is no printed size on one side of the stage, all
// of it counts on that side, so that the sizes there go on from the corrected
// one. No stage, or one that is not on the chart, is all of it everywhere.
func StageShare(q model.Piece, c model.SizeChart, stage string, place float64) float64 {
	at, ok := c.Place(stage)
	if stage == "" || !ok {
		return 1
	}
	s := float64(at)
	below, above := math.Inf(-1), math.Inf(1)
	for _, o := range q.Nest {
		for _, size := range o.Sizes() {
			p, ok := c.Place(size)
			switch v := float64(p); {
			case !ok:
			case v < s:
				below = max(below, v)
			case v > s:
				above = min(above, v)
			}
		}
	}
	far := below
	if place > s {
		far = above
	}
	if place == s || math.IsInf(far, 0) {
		return 1
	}
	return max(0, (place-far)/(s-far))
}
