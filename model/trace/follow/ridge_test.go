package follow

import (
	"math"
	"testing"
)

// TestKernelIsExactOnParabolas: the three kernels read value, slope and bend
// of a parabola off its samples.
func TestKernelIsExactOnParabolas(t *testing.T) {
	for _, sigma := range []float64{0.9, 1.3, 2.2} {
		k := newKernel(sigma)
		var value, slope, bend float64
		for i := range k.g0 {
			x := float64(i - k.r)
			y := 3 + 2*x + 0.5*x*x
			value += float64(k.g0[i]) * 3
			slope += float64(k.g1[i]) * y
			bend += float64(k.g2[i]) * y
		}
		if math.Abs(value-3) > 1e-5 || math.Abs(slope-2) > 1e-4 || math.Abs(bend-1) > 1e-4 {
			t.Errorf("sigma %g: %g %g %g", sigma, value, slope, bend)
		}
	}
}

// TestRidgeOfABar holds the filter to the closed form for a straight bar:
// strength h 2b/(σ√2π) exp(-b²/2σ²), b half its width, h its darkness, and its
// middle (Steger 1998, section II), at slants and places between pixels.
