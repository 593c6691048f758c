package app

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"quarterstep/grading/propose"
)

// The seams and the facing of nests drawn, traced and drawn as polygons are
// found from what a drawing says alone, and nothing else. A sleeve without
// notches does not tell its back half from its front.
func TestLinksOfDrawnNests(t *testing.T) {
	body := []string{
		"Front facing follows the neckline of Front",
		"The shoulder of Back is sewn to that of Front",
		"The side seam above the waist of Front is sewn to that of Back",
		"The side seam below the waist of Front is sewn to that of Back",
	}
	blouse := append(slices.Clone(body),
		"The cap of Sleeve is sewn to the armhole of Back and the armhole of Front",
		"The right underarm seam and the left underarm seam of Sleeve are sewn together")
	for file, want := range map[string][]string{
		"blouse-eu-36-42.svg":          blouse,
		"blouse-traced-eu-36-42.svg":   blouse,
		"blouse-polygons-eu-38-42.svg": blouse,
		"waistcoat-us-12-18.svg":       body,
	} {
		got, err := BringInByAnyChart(filepath.Join("..", "testdata", "nests", file), Charts())
		if err != nil {
			t.Fatal(err)
		}
		var said []string
		for _, f := range propose.Links(got.Pattern) {
			said = append(said, f.What)
			if guess := strings.HasPrefix(f.What, "The cap"); f.Sure == guess {
				t.Errorf("%s: %s: sure %v", file, f.Say(), f.Sure)
			}
			if f.Misfit > 3.5 {
				t.Errorf("%s: %s: %.2f mm off", file, f.Say(), f.Misfit)
			}
		}
		if !slices.Equal(said, want) {
			t.Errorf("%s:\n got %s\nwant %s", file, strings.Join(said, "\n     "), strings.Join(want, "\n     "))
		}
	}
}
