package app

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"quarterstep/grading/propose"
	"quarterstep/model/draft"
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

// The demo drawn on paper and brought in again loses its marks: its dart, which
// half of the cap is which, the cuff's top. What is left is found, the seam past
// the dart too, and nothing that is not one.
func TestLinksOfTheDemoDrawnOnPaper(t *testing.T) {
	p, err := draft.Blouse(chartOf(t, "en13402-women"), []string{"36", "38", "40", "42"})
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		"sure: Front neck facing follows the neckline of Front bodice",
		"sure: Back neck facing follows the neckline of Back bodice",
		"sure: The shoulder of Back bodice is sewn to that of Front bodice",
		"sure: The shoulder of Back neck facing is sewn to that of Front neck facing",
		"guess: The side seam above the waist of Front bodice is sewn to that of Back bodice",
		"sure: The side seam below the waist of Front bodice is sewn to that of Back bodice",
		"guess: The cap of Sleeve is sewn to the armhole of Back bodice and the armhole of Front bodice",
		"sure: The right underarm seam and the left underarm seam of Sleeve are sewn together",
		"guess: The edge 1 of Cuff is sewn to the sleeve hem of Sleeve",
	}
	var got []string
	for _, f := range propose.Links(broughtIn(t, p).Pattern) {
		word := "guess"
		if f.Sure {
			word = "sure"
		}
		got = append(got, word+": "+f.What)
	}
	if !slices.Equal(got, want) {
		t.Errorf("\n got %s\nwant %s", strings.Join(got, "\n     "), strings.Join(want, "\n     "))
	}
}
