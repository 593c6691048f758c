package page

import (
	"fmt"
	"math"
	"strings"

	"github.com/jung-kurt/gofpdf"
	"golang.org/x/image/font/sfnt"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/printing"
)

// typeface is one font of the document.
type typeface struct {
	style   string // as gofpdf names it
	font    *sfnt.Font
	buf     sfnt.Buffer
	instead rune // shown for letters the font lacks
}

const family = "words"

// face loads a TrueType font into the document.
func face(f *gofpdf.Fpdf, style string, data []byte) (*typeface, error) {
	if len(data) == 0 {
		return nil, words.Error("no font given")
	}
	font, err := sfnt.Parse(data)
	if err != nil {
		return nil, err
	}
	t := &typeface{style: style, font: font}
	for _, r := range []rune{'□', '\uFFFD', '?'} {
		if t.has(r) {
			t.instead = r
			break
		}
	}
	if t.instead == 0 {
		return nil, words.Error("the font has no letter to stand for missing ones")
	}
	f.AddUTF8FontFromBytes(family, style, data)
	return t, f.Error()
}

// has reports whether the font can show r. The PDF writer cannot go beyond
// Unicode's first 65,536 characters.
func (t *typeface) has(r rune) bool {
	if r > 0xFFFF {
		return false
	}
	i, err := t.font.GlyphIndex(&t.buf, r)
	return err == nil && i != 0
}

// shown is s as it can be printed: what the font lacks is replaced, breaks and
// tabs become spaces.
func (t *typeface) shown(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r < ' ' || r == 0x7F:
			return ' '
		case !t.has(r):
			return t.instead
		}
		return r
	}, s)
}

// Words is a line of text on a page. The zero style is regular, black, centred
// on At.
type Words struct {
	Text string
	At   geom.Point // page mm
	Size float64    // letter height, mm
	Bold bool
	Left bool // At is the left end of the baseline, not its middle
	Turn float64
	Ink  printing.Ink
	Clip geom.Box // page mm; empty: none
}

// face chooses regular or bold and makes it the document's current font.
func (d *Document) face(bold bool, size float64) *typeface {
	t := d.regular
	if bold {
		t = d.bold
	}
	d.f.SetFont(family, t.style, size*PerMM)
	return t
}

// Width is how long s is when printed, in mm.
func (d *Document) Width(s string, size float64, bold bool) float64 {
	return d.f.GetStringWidth(d.face(bold, size).shown(s))
}

// Write puts words on the page. The font is chosen before the group is opened:
// a group forgets it when it closes.
func (d *Document) Write(p *Page, w Words) {
	if !w.Clip.Empty() && !w.reach().Intersects(w.Clip) {
		return
	}
	p.Flush()
	t := d.face(w.Bold, w.Size)
	text := t.shown(w.Text)
	x := -d.f.GetStringWidth(text) / 2
	if w.Left {
		x = 0
	}
	if w.Clip.Empty() {
		p.Op("q")
	} else {
		p.Clip(w.Clip)
	}
	p.color(w.Ink, "g", "rg")
	// A turn clockwise on paper is the other way round with y up.
	c, s := math.Cos(w.Turn), math.Sin(w.Turn)
	px, py := p.At(w.At)
	p.Op("cm", c, -s, s, c, px, py)
	p.Flush()
	_, high := d.f.GetPageSize()
	d.f.Text(x, high, text)
	fmt.Fprintf(p.sum, "%q %g %t\n", text, w.Size, w.Bold)
	p.Restore()
	p.Flush()
}

// reach is a box that surely holds the words: no letter is wider than twice
// its height.
func (w Words) reach() geom.Box {
	return geom.BoxOf(w.At).Grow(2 * w.Size * float64(1+len([]rune(w.Text))))
}

// Wrap breaks s into lines of at most wide mm.
func (d *Document) Wrap(s string, wide, size float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		longer := strings.TrimSpace(line + " " + word)
		if line != "" && d.Width(longer, size, false) > wide {
			lines = append(lines, line)
			longer = word
		}
		line = longer
	}
	return append(lines, line)
}

// Fit is the largest letter height, at most size, at which s is no longer than
// wide mm.
func (d *Document) Fit(s string, wide, size float64, bold bool) float64 {
	if w := d.Width(s, size, bold); w > wide {
		return size * wide / w
	}
	return size
}
