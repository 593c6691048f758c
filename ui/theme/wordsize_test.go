package theme_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"quarterstep/ui/theme"
)

// TestWordSize holds our measuring against the toolkit's own, for plain words,
// kerned pairs, marks, figures, German, and shapes that Lato has not got.
func TestWordSize(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(theme.New(false, 1))
	for _, text := range []string{
		"", " ", "Side seam", "AVATAR To. Wa, Yo", "12 7/16 in × 3 – 1½", "Größenlinien, Ärmel „außen“", "fi ffl office",
		"Schnitt\tteil", "袖 sleeve", "…", "4 steps, or 4 1/2 by bust", "(34–40)", "שרוול",
	} {
		for _, size := range []float32{12, 13, 14, 20, 19.5} {
			for _, bold := range []bool{false, true} {
				got, want := theme.WordSize(text, size, bold), fyne.MeasureText(text, size, fyne.TextStyle{Bold: bold})
				if got != want {
					t.Errorf("%q at %g, bold %v: %v, the toolkit says %v", text, size, bold, got, want)
				}
				if again := theme.WordSize(text, size, bold); again != got {
					t.Errorf("%q measured again: %v, then %v", text, got, again)
				}
			}
		}
	}
}

// BenchmarkWordSize measures a text never seen before, ours and the toolkit's way.
func BenchmarkWordSize(b *testing.B) {
	test.NewTempApp(b).Settings().SetTheme(theme.New(false, 1))
	size := float32(10)
	b.Run("ours", func(b *testing.B) {
		for range b.N {
			size += 1e-4
			theme.WordSize("Largest size printed", size, false)
		}
	})
	b.Run("toolkit", func(b *testing.B) {
		for range b.N {
			size += 1e-4
			fyne.MeasureText("Largest size printed", size, fyne.TextStyle{})
		}
	})
}
