package palette

import (
	"image/color"
	"math"
	"testing"
)

// Any number of printed sizes goes evenly from the first nest colour to the
// last, in lightness.
func TestNestColoursAreEvenlySpread(t *testing.T) {
	for _, p := range []Palette{Light, Dark} {
		first, last := toLab(p.Nest1)[0], toLab(p.Nest4)[0]
		for _, n := range []int{2, 3, 5, 6, 7, 8} {
			for i := range n {
				want := first + (last-first)*float64(i)/float64(n-1)
				if got := toLab(p.Nest(i, n))[0]; math.Abs(got-want) > 0.006 {
					t.Errorf("size %d of %d has lightness %.3f, want %.3f", i+1, n, got, want)
				}
			}
			if p.Nest(0, n) != p.Nest1 || p.Nest(n-1, n) != p.Nest4 {
				t.Errorf("%d sizes do not begin and end with the palette's own colours", n)
			}
		}
		for i, c := range []color.NRGBA{p.Nest1, p.Nest2, p.Nest3, p.Nest4} {
			if p.Nest(i, 4) != c {
				t.Errorf("size %d of 4 is not the palette's own", i+1)
			}
		}
	}
}

// Every printed size stays as easy to see on the Table as the palette promises
// for lines: a contrast of 3 (WCAG 2, success criterion 1.4.11).
func TestNestColoursStandOutOnTheTable(t *testing.T) {
	for _, p := range []Palette{Light, Dark} {
		for n := 1; n <= 8; n++ {
			for i := range n {
				if r := ratio(p.Nest(i, n), p.Table); r < 3 {
					t.Errorf("size %d of %d has contrast %.2f", i+1, n, r)
				}
			}
		}
	}
}

// ratio is the contrast of WCAG 2.
func ratio(a, b color.NRGBA) float64 {
	light := func(c color.NRGBA) float64 {
		return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
	}
	x, y := light(a), light(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}
