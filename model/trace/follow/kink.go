package follow

import "math"

// Limits of what is a kink: a place where a run goes round the corner of a
// piece. Ink is round there over about its own width, and an edge never turns
// as sharply.
const (
	kinkArm  = 1.3 // mm: how far to either side of a kink a direction is read
	kinkGap  = 0.3 // mm of round ink to either side that has no direction
	leastArm = 0.7 // mm that must be left on either side
	kinkTurn = 0.6 // radians
)

// stretch is a run without kinks.
type stretch struct {
	pts           []ridgePoint
	before, after bool // a kink lies before its first point, after its last
}

// unkinked breaks runs where they go round a corner, so that every dash has one
// direction.
func unkinked(runs [][]ridgePoint) []stretch {
	out := make([]stretch, 0, len(runs))
	for _, run := range runs {
		out = append(out, straightened(run)...)
	}
	return out
}

// straightened is a run broken at its kinks.
func straightened(run []ridgePoint) []stretch {
	s := lengths(run)
	var out []stretch
	from := 0
	for i := 1; i < len(run)-1; i++ {
		if sharp := turnAt(run, s, i); sharp < kinkTurn || s[i]-s[from] < leastArm || s[len(s)-1]-s[i] < leastArm {
			continue
		}
		top := i
		for j := i + 1; j < len(run)-1 && s[j]-s[i] < kinkArm; j++ {
			if turnAt(run, s, j) > turnAt(run, s, top) {
				top = j
			}
		}
		out = append(out, stretch{run[from : top+1], from > 0, true})
		from = top
		for i < len(run)-1 && s[i]-s[top] < kinkArm {
			i++
		}
	}
	return append(out, stretch{run[from:], from > 0, false})
}

// turnAt is by how many radians a run turns at point i.
func turnAt(run []ridgePoint, s []float64, i int) float64 {
	a, b := i, i
	for a > 0 && s[i]-s[a] < kinkArm {
		a--
	}
	for b < len(run)-1 && s[b]-s[i] < kinkArm {
		b++
	}
	c, d := i, i
	for c > a && s[i]-s[c] < kinkGap {
		c--
	}
	for d < b && s[d]-s[i] < kinkGap {
		d++
	}
	in, out := run[c].at.Sub(run[a].at), run[b].at.Sub(run[d].at)
	if in.Len() < leastArm/2 || out.Len() < leastArm/2 {
		return 0
	}
	return math.Abs(math.Atan2(in.Cross(out), in.Dot(out)))
}

// lengths is the way along a run to each of its points, in mm.
func lengths(run []ridgePoint) []float64 {
	s := make([]float64, len(run))
	for i := 1; i < len(run); i++ {
		s[i] = s[i-1] + run[i].at.Dist(run[i-1].at)
	}
	return s
}
