package paint

import (
	"image/color"
	"testing"

	"quarterstep/ui/scene"
	"quarterstep/ui/theme/palette"
)

func TestEveryInkHasItsColour(t *testing.T) {
	seen := map[color.NRGBA]scene.Ink{}
	for k := scene.InkWords; k <= scene.InkOnLook; k++ {
		c := colourOf(palette.Light, k)
		if c.A != 255 {
			t.Errorf("ink %v has no colour", k)
		}
		if o, ok := seen[c]; ok && k != scene.InkOnAccent && k != scene.InkOnLook {
			t.Errorf("inks %v and %v look the same", k, o)
		}
		seen[c] = k
	}
}
