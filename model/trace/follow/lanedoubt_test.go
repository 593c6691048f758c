package follow

import "testing"

// TestCrowdedForLongOnly lays another line 1 mm beside a lane of 60 mm: over 10 mm
// of its way it crowds the lane there and nowhere else; over 4 mm, as where a
// notch or a letter stands, or only next to the corner, it does not; nor does one
// 2 mm away.
func TestCrowdedForLongOnly(t *testing.T) {
	const n, bins, mid = 61, 81, 40
	for _, c := range []struct {
		from, to, aside int // places, and bins
		want            bool
	}{{25, 35, 10, true}, {25, 28, 10, false}, {0, 7, 10, false}, {25, 35, 20, false}} {
		s := &strip{whole: make([][]float64, n)}
		l := lane{strip: s, bins: make([]int, n)}
		for k := range n {
			s.whole[k] = make([]float64, bins)
			s.whole[k][mid], l.bins[k] = 1, mid
			if k >= c.from && k <= c.to {
				s.whole[k][mid+c.aside] = 1
			}
		}
		for k, got := range l.crowded() {
			if want := c.want && k >= c.from && k <= c.to; got != want {
				t.Errorf("a line %d bins aside from %d to %d: place %d crowded: %v", c.aside, c.from, c.to, k, got)
			}
		}
	}
}
