package svg

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/printing"
	"quarterstep/printing/tile"
)

// border is the free room around the pieces, mm.
const border = 5.0

// The inks.
const (
	cutInk  = "#000000"
	markInk = "#0000ff"
)

// Options are what the pieces do not say.
type Options struct {
	Title string
	// Layer names the group of what is in no layer of its own.
	Layer string
}

// Write writes the pieces where they lie. Errors name the piece that cannot be
// drawn; then nothing is written.
func Write(w io.Writer, pieces []tile.Placed, o Options) error {
	d := drawing{layers: map[string]*bytes.Buffer{}}
	for _, p := range pieces {
		if err := d.piece(p, o.Layer); err != nil {
			return words.Errorf("drawing %s: %w", p.Piece.Name, err)
		}
	}
	if _, err := w.Write(d.whole(o)); err != nil {
		return words.Errorf("writing the drawing: %w", err)
	}
	return nil
}

// drawing is an SVG under way: the groups' insides, by the layers' names.
type drawing struct {
	layers map[string]*bytes.Buffer
	order  []string
	ink    geom.Box
}

// whole is the file.
func (d *drawing) whole(o Options) []byte {
	page := d.ink.Grow(border)
	if d.ink.Empty() {
		page = geom.BoxOf(geom.Point{}).Grow(border)
	}
	var b bytes.Buffer
	b.WriteString(xml.Header)
	// words: none
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape" width="%smm" height="%smm" viewBox="%s %s %[1]s %[2]s">`+"\n",
		num(page.Width()), num(page.Height()), num(page.Min.X), num(page.Min.Y))
	fmt.Fprintf(&b, "<title>%s</title>\n", text(o.Title))
	for i, name := range d.order {
		fmt.Fprintf(&b, `<g id="layer-%d" inkscape:groupmode="layer" inkscape:label="%s" fill="none" stroke-linejoin="round">`+"\n", i+1, text(name))
		b.Write(d.layers[name].Bytes())
		b.WriteString("</g>\n")
	}
	b.WriteString("</svg>\n")
	return b.Bytes()
}

// layer is the inside of a layer's group.
func (d *drawing) layer(name, instead string) *bytes.Buffer {
	if name == "" {
		name = instead
	}
	b, ok := d.layers[name]
	if !ok {
		b = &bytes.Buffer{}
		d.layers[name], d.order = b, append(d.order, name)
	}
	return b
}

func (d *drawing) piece(p tile.Placed, instead string) error {
	for _, s := range p.Piece.Strokes {
		if err := s.Path.Validate(); err != nil {
			return err
		}
		if !(s.Width > 0) || math.IsInf(s.Width, 0) {
			return words.Errorf("a line is %g mm wide", s.Width)
		}
		path := s.Path.Transform(p.At)
		d.ink = d.ink.Union(path.Bounds())
		d.stroke(d.layer(s.Layer, instead), s, path, p.Piece.Name)
	}
	for _, l := range p.Piece.Labels {
		at, turn := p.At.Apply(l.At), l.Turn+math.Atan2(p.At.B, p.At.A)
		if !at.Finite() || math.IsNaN(turn) || math.IsInf(turn, 0) || !(l.Size > 0) || math.IsInf(l.Size, 0) {
			return words.Errorf("the words %q have no ordinary size or place", l.Text)
		}
		label(d.layer(l.Layer, instead), l, at, turn)
	}
	return nil
}

// stroke writes a line; one to cut has the piece's name for its title.
func (d *drawing) stroke(b *bytes.Buffer, s printing.Stroke, path geom.Path, name string) {
	ink := markInk
	if s.Cut {
		ink = cutInk
	}
	// words: none
	fmt.Fprintf(b, `<path stroke="%s" stroke-width="%s"`, ink, num(s.Width))
	if len(s.Dash) > 0 && !s.Cut {
		b.WriteString(` stroke-dasharray="`)
		for i, on := range s.Dash {
			if i > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(num(on))
		}
		b.WriteByte('"')
	}
	fmt.Fprintf(b, ` d="M%s`, at(path.Start()))
	for _, c := range path {
		fmt.Fprintf(b, " C%s %s %s", at(c.P1), at(c.P2), at(c.P3))
	}
	if path.Closed(1e-6) {
		b.WriteString(" Z")
	}
	if s.Cut {
		fmt.Fprintf(b, `"><title>%s</title></path>`+"\n", text(name))
		return
	}
	b.WriteString("\"/>\n")
}

func label(b *bytes.Buffer, l printing.Label, to geom.Point, turn float64) {
	weight := ""
	if l.Bold {
		weight = ` font-weight="bold"`
	}
	// words: none
	fmt.Fprintf(b, `<text transform="translate(%s) rotate(%s)" font-family="Lato, sans-serif" font-size="%s"%s text-anchor="middle" fill="%s">%s</text>`+"\n",
		at(to), num(turn*180/math.Pi), num(l.Size), weight, markInk, text(l.Text))
}

func at(p geom.Point) string { return num(p.X) + "," + num(p.Y) }

// num is v to 0.00001, without a negative nought.
func num(v float64) string {
	return strconv.FormatFloat(math.Round(v*1e5)/1e5+0, 'f', -1, 64)
}

func text(s string) string {
	var b bytes.Buffer
	_ = xml.EscapeText(&b, []byte(s)) // a Buffer takes everything
	return b.String()
}
