package follow

import (
	"fmt"
	"math"

	"quarterstep/model/geom"
)

// doubts lists where another way to the same end was nearly as cheap and ran
// elsewhere. Every other way joins the chosen one at some node; the best that
// joins there is the best to the node before it.
func (t *tree) doubts(a arrival, pts []geom.Point, to geom.Point) []Doubt {
	return nil
}

const nearlyAsGood = 1.5

var (
	_ = fmt.Sprint
	_ = math.Abs
)
