package paint

import (
	"image/color"
	"testing"

	"pgregory.net/rapid"
)

// A row laid at once, of one cover or of many, is what it is pixel by pixel.
func TestRowsAreLaidAsPixels(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		part := rapid.Uint8()
		k := inkOf(color.NRGBA{part.Draw(rt, "r"), part.Draw(rt, "g"), part.Draw(rt, "b"), part.Draw(rt, "a")}, rapid.Float64Range(0, 1).Draw(rt, "share"))
		// Grounds are premultiplied: no channel is above the last.
		var ground []byte
		for range rapid.IntRange(0, 9).Draw(rt, "px") {
			a := part.Draw(rt, "alpha")
			below := rapid.Uint8Max(a)
			ground = append(ground, below.Draw(rt, "R"), below.Draw(rt, "G"), below.Draw(rt, "B"), a)
		}
		even, single := append([]byte(nil), ground...), append([]byte(nil), ground...)
		m := part.Draw(rt, "cover")
		k.run(even, uint32(m))
		cover := make([]uint8, len(ground)/4)
		for i := range cover {
			k.over(single[4*i:4*i+4], uint32(m))
			cover[i] = m
		}
		if string(even) != string(single) {
			rt.Fatalf("laid at once %v, pixel by pixel %v", even, single)
		}
		newShades(k).through(ground, cover)
		if string(ground) != string(single) {
			rt.Fatalf("laid through a mask %v, pixel by pixel %v", ground, single)
		}
		for _, v := range cover {
			if v != 0 {
				rt.Fatal("the mask is not cleared")
			}
		}
	})
}
