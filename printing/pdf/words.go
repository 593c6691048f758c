package pdf

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"github.com/jung-kurt/gofpdf"
	"golang.org/x/image/font/sfnt"

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
		return nil, errors.New("no font given")
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
		return nil, errors.New("the font has no letter to stand for missing ones")
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

// fonts are the two faces of a document.
type fonts struct{ regular, bold *typeface }

func (d *document) loadFonts(o Options) error {
	var err error
	if d.fonts.regular, err = face(d.f, "", o.Regular); err != nil {
		return fmt.Errorf("reading the regular font: %w", err)
	}
	if d.fonts.bold, err = face(d.f, "B", o.Bold); err != nil {
		return fmt.Errorf("reading the bold font: %w", err)
	}
	return nil
}

// words is a line of text on a page. The zero style is regular, black, centred
// on At.
type words struct {
	text string
	at   geom.Point // page mm
	size float64    // letter height, mm
	bold bool
	left bool // at is the left end of the baseline, not its middle
	turn float64
	ink  printing.Ink
	clip geom.Box // page mm; empty: none
}

// face chooses regular or bold and makes it the document's current font.
func (d *document) face(bold bool, size float64) *typeface {
	t := d.fonts.regular
	if bold {
		t = d.fonts.bold
	}
	d.f.SetFont(family, t.style, size*perMM)
	return t
}

// width is how long s is when printed, in mm.
func (d *document) width(s string, size float64, bold bool) float64 {
	return d.f.GetStringWidth(d.face(bold, size).shown(s))
}

// write puts words on the page. The font is chosen before the group is opened:
// a group forgets it when it closes.
func (d *document) write(p *page, w words) {
	if !w.clip.Empty() && !w.reach().Intersects(w.clip) {
		return
	}
	p.flush()
	t := d.face(w.bold, w.size)
	text := t.shown(w.text)
	x := -d.f.GetStringWidth(text) / 2
	if w.left {
		x = 0
	}
	if w.clip.Empty() {
		p.op("q")
	} else {
		p.clip(w.clip)
	}
	p.color(w.ink, "g", "rg")
	// A turn clockwise on paper is the other way round with y up.
	c, s := math.Cos(w.turn), math.Sin(w.turn)
	px, py := p.at(w.at)
	p.op("cm", c, -s, s, c, px, py)
	p.flush()
	_, high := d.f.GetPageSize()
	d.f.Text(x, high, text)
	p.restore()
	p.flush()
}

// reach is a box that surely holds the words: no letter is wider than twice
// its height.
func (w words) reach() geom.Box {
	return geom.BoxOf(w.at).Grow(2 * w.size * float64(1+len([]rune(w.text))))
}

// wrap breaks s into lines of at most wide mm.
func (d *document) wrap(s string, wide, size float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		longer := strings.TrimSpace(line + " " + word)
		if line != "" && d.width(longer, size, false) > wide {
			lines = append(lines, line)
			longer = word
		}
		line = longer
	}
	return append(lines, line)
}

// fit is the largest letter height, at most size, at which s is no longer than
// wide mm.
func (d *document) fit(s string, wide, size float64, bold bool) float64 {
	if w := d.width(s, size, bold); w > wide {
		return size * wide / w
	}
	return size
}
