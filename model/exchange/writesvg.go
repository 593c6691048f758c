package exchange

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
)

// margin is the free paper around a written drawing, in mm.
const margin = 20

// cutInk and markInk tell the line to cut from what is only drawn, for machines
// that cut: they sort lines by colour.
const (
	cutInk  = "black"
	markInk = "blue"
)

// WriteSVG writes the sizes as one drawing at true scale, one layer a size and
// one path a piece, its title the piece's name, rounded to 0.00001 mm. The line
// to cut is black, marks and words are blue.
// Places are kept, the sheet's corner being (0, 0); only where a piece lies left
// of it or above it does the page begin there, so that all is shown. A piece
// without a line is an error.
func WriteSVG(w io.Writer, sizes ...Graded) error {
	var page geom.Box
	for _, g := range sizes {
		for _, p := range g.Pieces {
			ring := p.outline()
			if err := writable(ring); err != nil {
				return words.Errorf("writing %s, size %s: %w", p.Name, g.label(), err)
			}
			page = page.Union(ring.Bounds())
		}
	}
	page = pageFor(page)
	var b bytes.Buffer
	num := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
	round := func(v float64) string { return num(rounded(v, 1e5)) }
	fmt.Fprint(&b, xml.Header)
	// words: none
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape" width="%smm" height="%smm" viewBox="%s %s %[1]s %[2]s">`+"\n",
		round(page.Width()), round(page.Height()), round(page.Min.X), round(page.Min.Y))
	for _, g := range sizes {
		fmt.Fprintf(&b, `<g id="size-%s" inkscape:groupmode="layer" inkscape:label="%s">`+"\n", idText(g.label()), text(g.label()))
		for _, p := range g.Pieces {
			writePath(&b, p.Name, p.outline(), cutInk, round)
			for _, l := range p.Lines {
				if err := writable(l.Path); err != nil {
					return words.Errorf("writing line %s of %s, size %s: %w", l.Name, p.Name, g.label(), err)
				}
				writePath(&b, strings.TrimSpace(p.Name+" "+l.Name), l.Path, markInk, round)
			}
			for _, l := range p.Words {
				if !l.At.Finite() || !finite(l.Size) || !finite(l.Turn) {
					return words.Errorf("writing the words %q on %s: they have no ordinary size or place", l.Text, p.Name)
				}
				writeWords(&b, l, round)
			}
		}
		b.WriteString("</g>\n")
	}
	b.WriteString("</svg>\n")
	_, err := w.Write(b.Bytes())
	if err != nil {
		return words.Errorf("writing the drawing: %w", err)
	}
	return nil
}

// pageFor is the page for a drawing of that extent.
func pageFor(drawing geom.Box) geom.Box {
	page := drawing.Grow(margin)
	if drawing.Min.X >= 0 {
		page.Min.X = 0
	}
	if drawing.Min.Y >= 0 {
		page.Min.Y = 0
	}
	return page
}

func writable(p geom.Path) error {
	if len(p) == 0 {
		return words.Errorf("it has no line")
	}
	return p.Validate()
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// writePath writes a line in an ink; one to cut is closed.
func writePath(b *bytes.Buffer, title string, p geom.Path, ink string, num func(float64) string) {
	at := func(q geom.Point) string { return num(q.X) + "," + num(q.Y) }
	fmt.Fprintf(b, `<path d="M %s`, at(p.Start()))
	for _, c := range p {
		fmt.Fprintf(b, " C %s %s %s", at(c.P1), at(c.P2), at(c.P3))
	}
	if ink == cutInk {
		b.WriteString(" Z")
	}
	fmt.Fprintf(b, `" fill="none" stroke="%s" stroke-width="0.3"><title>%s</title></path>`+"\n", ink, text(title))
}

func writeWords(b *bytes.Buffer, l GradedWords, num func(float64) string) {
	weight := ""
	if l.Bold {
		weight = ` font-weight="bold"`
	}
	// words: none
	fmt.Fprintf(b, `<text transform="translate(%s %s) rotate(%s)" font-family="Lato, sans-serif" font-size="%s"%s text-anchor="middle" fill="%s">%s</text>`+"\n",
		num(l.At.X), num(l.At.Y), num(l.Turn*180/math.Pi), num(l.Size), weight, markInk, text(l.Text))
}

func text(s string) string {
	var b bytes.Buffer
	_ = xml.EscapeText(&b, []byte(s)) // a Buffer takes everything
	return b.String()
}

// idText keeps what an id may hold.
func idText(s string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r == '-' || r == '.' {
			return r
		}
		return '_'
	}, s)
}
