package paint

import "testing"

// A line of a kilometre under the closest look is drawn whole, and one of a metre
// keeps its dashes.
func TestDashesAreBounded(t *testing.T) {
	pattern := []float64{6, 4}
	if _, runs := dashed(nil, nil, []pt{{0, 0}, {1e8, 0}}, pattern); len(runs) != 1 {
		t.Errorf("a line of 10^8 px has %d dashes", len(runs))
	}
	if _, runs := dashed(nil, nil, []pt{{0, 0}, {50_000, 0}}, pattern); len(runs) != 5000 {
		t.Errorf("a line of 50 000 px has %d dashes, want 5000", len(runs))
	}
}
