package spread

import (
	"math"
	"testing"
)

// The rise in place of a step at u0 runs from 0 to 1, never back, and has the
// step's mean 1 - u0 where that can be had without running back: in closed form
// for 0.3 <= u0 <= 0.7, at every u0 nearer the middle than the step's otherwise.
func TestTheRiseHasTheMeanOfTheStep(t *testing.T) {
	for i := range 101 {
		u0 := float64(i) / 100
		c := course{jumps: []jump{{by: 1, at: u0}}}
		if a, b := c.value(0), c.value(1); a != 0 || math.Abs(b-1) > 1e-15 {
			t.Errorf("cut at %g: from %g to %g", u0, a, b)
		}
		const n = 1000 // Simpson's rule
		sum := c.value(0) + c.value(1)
		for k := 1; k < n; k++ {
			u := float64(k) / n
			sum += c.value(u) * float64(2+2*(k%2))
			if c.slope(u) < -1e-12 {
				t.Errorf("cut at %g: it runs back at %g", u0, u)
			}
			if d := (c.value(u+1e-6) - c.value(u-1e-6)) / 2e-6; math.Abs(d-c.slope(u)) > 1e-8 {
				t.Errorf("cut at %g: slope %g at %g, measured %g", u0, c.slope(u), u, d)
			}
		}
		want := min(max(1-u0, 0.3), 0.7)
		if mean := sum / (3 * n); math.Abs(mean-want) > 1e-9 {
			t.Errorf("cut at %g: mean %.9f, want %.9f", u0, mean, want)
		}
	}
}

// Of all functions with the same ends and the same mean the rise bends least:
// adding any other that is nought at both ends and in the mean bends more. That
// is so when f”” is one constant and f” is nought at both ends (calculus of
// variations, Euler and Lagrange).
func TestTheRiseBendsLeast(t *testing.T) {
	second := func(c course, u float64) float64 { return (c.slope(u+1e-5) - c.slope(u-1e-5)) / 2e-5 }
	for _, u0 := range []float64{0.32, 0.45, 0.5, 0.66} {
		c := course{jumps: []jump{{by: 1, at: u0}}}
		if a, b := second(c, 0), second(c, 1); math.Abs(a) > 1e-4 || math.Abs(b) > 1e-4 {
			t.Errorf("cut at %g: it bends by %g and %g at its ends", u0, a, b)
		}
		const h = 0.05
		fourth := func(u float64) float64 { return (second(c, u+h) - 2*second(c, u) + second(c, u-h)) / (h * h) }
		if d := fourth(0.2) - fourth(0.8); math.Abs(d) > 1e-3 {
			t.Errorf("cut at %g: f'''' is not one constant, %g apart", u0, d)
		}
	}
}
