package app

import (
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"quarterstep/assets"
	"quarterstep/printing"
)

// wordWidth is how long a label's words are when printed, in mm, by the font's
// own widths; a letter the font lacks counts as the box printed for it.
func wordWidth(l printing.Label) float64 {
	face := faces()[0]
	if l.Bold {
		face = faces()[1]
	}
	sum := 0.0
	for _, r := range l.Text {
		sum += face.width(r)
	}
	return sum * l.Size
}

// faces are the fonts words are printed in, regular and bold. Both are part of
// the program.
var faces = sync.OnceValue(func() [2]*typeface {
	return [2]*typeface{newTypeface(assets.LatoRegular), newTypeface(assets.LatoBold)}
})

// typeface measures the letters of a font.
type typeface struct {
	font  *sfnt.Font
	mu    sync.Mutex // guards buf and known
	buf   sfnt.Buffer
	known map[rune]float64 // widths by letter, in letter heights
}

func newTypeface(data []byte) *typeface {
	f, err := sfnt.Parse(data)
	if err != nil {
		panic("the program's own font cannot be read: " + err.Error())
	}
	return &typeface{font: f, known: map[rune]float64{}}
}

// width is how wide a letter is, in letter heights.
func (t *typeface) width(r rune) float64 {
	t.mu.Lock()
	defer t.mu.Unlock()
	w, ok := t.known[r]
	if !ok {
		w = t.measure(r)
		t.known[r] = w
	}
	return w
}

func (t *typeface) measure(r rune) float64 {
	const ppem = 1000
	for _, shown := range []rune{r, '□', '\uFFFD', '?'} {
		g, err := t.font.GlyphIndex(&t.buf, shown)
		if err != nil || g == 0 {
			continue
		}
		if adv, err := t.font.GlyphAdvance(&t.buf, g, fixed.I(ppem), font.HintingNone); err == nil {
			return float64(adv) / 64 / ppem
		}
	}
	return 1
}
