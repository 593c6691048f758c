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
	shared, wobble, worst := bows(at)
	return worst <= waveOfStraight && shared <= math.Max(drawnWithin, math.Min(bowOfStraight, 1.5*wobble))
}

// bows is how far the places of the printed lines lie off the straight line
// between their ends: what they share and what each has beside that, rms, and
// the most of any, all in mm; infinite where a line has no length.
func bows(at [][]axes) (shared, wobble, worst float64) {
	count := float64(len(at[0]))
	mean := make([]float64, len(at[0]))
	off := make([][]float64, len(at))
	for i, size := range at {
		a, b := size[0], size[len(size)-1]
		dx, dy := b[0]-a[0], b[1]-a[1]
		l := math.Hypot(dx, dy)
		if l == 0 {
			return math.Inf(1), 0, math.Inf(1)
		}
		for j, p := range size {
			d := ((p[0]-a[0])*dy - (p[1]-a[1])*dx) / l
			worst = math.Max(worst, math.Abs(d))
			mean[j] += d / float64(len(at))
			off[i] = append(off[i], d)
		}
	}
	for j, m := range mean {
		shared += m * m / count
		for i := range off {
			wobble += (off[i][j] - m) * (off[i][j] - m) / (count * float64(len(at)))
		}
	}
	return math.Sqrt(shared), math.Sqrt(wobble), worst
}
