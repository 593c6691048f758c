package nest

import "math"

// bowOfStraight and waveOfStraight are how far, in mm, a straight line traced
// by hand may bow on the mean of its sizes (rms) and wave in any one of them.
// By our own trial on hand-traced nests.
const (
	bowOfStraight  = 0.4
	waveOfStraight = 2.0
)

// straight reports whether an edge is a straight line in every printed size,
// allowing for the wobble of a hand: a bow that all sizes share beyond their
// own wobble is a curve, however slight. at is as for fitField.
func straight(at [][]axes) bool {
	count := float64(len(at[0]))
	mean := make([]float64, len(at[0]))
	bows := make([][]float64, len(at))
	var worst float64
	for i, size := range at {
		a, b := size[0], size[len(size)-1]
		dx, dy := b[0]-a[0], b[1]-a[1]
		l := math.Hypot(dx, dy)
		if l == 0 {
			return false
		}
		for j, p := range size {
			d := ((p[0]-a[0])*dy - (p[1]-a[1])*dx) / l
			worst = math.Max(worst, math.Abs(d))
			mean[j] += d / float64(len(at))
			bows[i] = append(bows[i], d)
		}
	}
	var shared, wobble float64
	for j, m := range mean {
		shared += m * m / count
		for i := range bows {
			wobble += (bows[i][j] - m) * (bows[i][j] - m) / (count * float64(len(at)))
		}
	}
	shared, wobble = math.Sqrt(shared), math.Sqrt(wobble)
	return worst <= waveOfStraight && shared <= math.Max(drawnWithin, math.Min(bowOfStraight, 1.5*wobble))
}
