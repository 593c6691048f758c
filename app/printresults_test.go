package app

import (
	"context"
	"slices"
	"testing"

	"quarterstep/grading"
)

// The size wanted is drawn last, whole, whether or not it was also chosen by
// name: marks and stitching line go by the last.
func TestTheSizeWantedIsDrawnLast(t *testing.T) {
	p, err := DemoBlouse() // wanted in 48
	if err != nil {
		t.Fatal(err)
	}
	for _, tc := range []struct{ chosen, want []string }{
		{nil, []string{"48"}},
		{[]string{"44", "52"}, []string{"44", "52", "48"}},
		{[]string{"44", "48", "52"}, []string{"44", "52", "48"}},
		{[]string{"48"}, []string{"48"}},
	} {
		var g grading.Grader
		chosen := slices.Clone(tc.chosen)
		results, names, err := printResults(context.Background(), &g, p, PrintChoice{Sizes: tc.chosen, WithTarget: true})
		if err != nil || !slices.Equal(names, tc.want) || len(results) != len(names) || results[len(results)-1].Size != "48" {
			t.Errorf("chosen %v: drawn %v, %v", tc.chosen, names, err)
		}
		if !slices.Equal(chosen, tc.chosen) {
			t.Errorf("the choice became %v", tc.chosen)
		}
	}
}
