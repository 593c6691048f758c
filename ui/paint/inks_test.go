package paint

import (
	"image/color"
	"math"
	"testing"

	"quarterstep/ui/scene"
	"quarterstep/ui/theme/palette"
)

// Check values: the OKLab coordinates of sRGB red, green, blue and white as
// listed by the sample tests of CSS Color Module Level 4 (from memory).
func TestOKLabAgainstPublishedColours(t *testing.T) {
	for _, c := range []struct {
		in   color.NRGBA
		want oklab
	}{
		{color.NRGBA{255, 0, 0, 255}, oklab{0.62796, 0.22486, 0.12585}},
		{color.NRGBA{0, 255, 0, 255}, oklab{0.86644, -0.23389, 0.17950}},
		{color.NRGBA{0, 0, 255, 255}, oklab{0.45201, -0.03246, -0.31153}},
		{color.NRGBA{255, 255, 255, 255}, oklab{1, 0, 0}},
	} {
		got := toOKLab(c.in)
		if math.Abs(got.l-c.want.l) > 2e-4 || math.Abs(got.a-c.want.a) > 2e-4 || math.Abs(got.b-c.want.b) > 2e-4 {
			t.Errorf("%v: %v, want %v", c.in, got, c.want)
		}
		if back := got.colour(); back != c.in {
			t.Errorf("%v came back as %v", c.in, back)
		}
	}
}

// Any number of printed sizes goes evenly from the first nest colour to the
// last, in lightness.
func TestNestColoursAreEvenlySpread(t *testing.T) {
	for _, p := range []palette.Palette{palette.Light, palette.Dark} {
		first, last := toOKLab(p.Nest1).l, toOKLab(p.Nest4).l
		for _, n := range []int{2, 3, 5, 6, 7, 8} {
			for i := range n {
				want := first + (last-first)*float64(i)/float64(n-1)
				if got := toOKLab(NestColour(p, i, n)).l; math.Abs(got-want) > 0.006 {
					t.Errorf("size %d of %d has lightness %.3f, want %.3f", i+1, n, got, want)
				}
			}
			if NestColour(p, 0, n) != p.Nest1 || NestColour(p, n-1, n) != p.Nest4 {
				t.Errorf("%d sizes do not begin and end with the palette's own colours", n)
			}
		}
		for i, c := range []color.NRGBA{p.Nest1, p.Nest2, p.Nest3, p.Nest4} {
			if NestColour(p, i, 4) != c {
				t.Errorf("size %d of 4 is not the palette's own", i+1)
			}
		}
	}
}

// Every printed size stays as easy to see on the Table as the palette promises
// for lines: a contrast of 3 (WCAG 2, success criterion 1.4.11).
func TestNestColoursStandOutOnTheTable(t *testing.T) {
	for _, p := range []palette.Palette{palette.Light, palette.Dark} {
		for n := 1; n <= 8; n++ {
			for i := range n {
				if r := contrast(NestColour(p, i, n), p.Table); r < 3 {
					t.Errorf("size %d of %d has contrast %.2f", i+1, n, r)
				}
			}
		}
	}
}

// contrast is the ratio of WCAG 2.
func contrast(a, b color.NRGBA) float64 {
	light := func(c color.NRGBA) float64 {
		return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
	}
	x, y := light(a), light(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

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
