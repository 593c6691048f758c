package page

import (
	"encoding/hex"
	"hash"
	"math"
	"strconv"

	"github.com/jung-kurt/gofpdf"

	"quarterstep/model/geom"
	"quarterstep/printing"
)

// PerMM is points to the millimetre.
const PerMM = 72 / 25.4

// Page collects drawing operators for one page, given in page mm. Numbers are
// written with five decimals of a point: 4 millionths of a millimetre.
type Page struct {
	f    *gofpdf.Fpdf
	buf  []byte
	high float64 // of the page, mm
	pen  pen
	sum  hash.Hash // of all that was drawn
}

// pen is the state that strokes are drawn with.
type pen struct {
	width float64
	ink   printing.Ink
	dash  string
}

func (p *Page) num(x float64) {
	x = math.Round(x*1e5) / 1e5
	if x == 0 {
		x = 0 // no minus zero
	}
	p.buf = strconv.AppendFloat(p.buf, x, 'f', -1, 64)
	p.buf = append(p.buf, ' ')
}

// Op writes operands and an operator.
func (p *Page) Op(name string, operands ...float64) {
	for _, x := range operands {
		p.num(x)
	}
	p.buf = append(p.buf, name...)
	p.buf = append(p.buf, '\n')
}

// At is q in points, y up.
func (p *Page) At(q geom.Point) (x, y float64) { return q.X * PerMM, (p.high - q.Y) * PerMM }

// MoveTo begins a line.
func (p *Page) MoveTo(q geom.Point) {
	x, y := p.At(q)
	p.Op("m", x, y)
}

// LineTo draws straight on from the current point.
func (p *Page) LineTo(q geom.Point) {
	x, y := p.At(q)
	p.Op("l", x, y)
}

// CubicTo draws c from the current point; a straight one as a line.
func (p *Page) CubicTo(c geom.Cubic) {
	if straight(c) {
		p.LineTo(c.P3)
		return
	}
	x1, y1 := p.At(c.P1)
	x2, y2 := p.At(c.P2)
	x3, y3 := p.At(c.P3)
	p.Op("c", x1, y1, x2, y2, x3, y3)
}

// straight reports whether both handles lie between the ends, on the line
// between them to a millionth of a millimetre.
func straight(c geom.Cubic) bool {
	d := c.P3.Sub(c.P0)
	n := d.Len()
	if n == 0 {
		return c.P1 == c.P0 && c.P2 == c.P0
	}
	on := func(q geom.Point) bool {
		v := q.Sub(c.P0)
		along := v.Dot(d) / n
		return math.Abs(v.Cross(d)) <= 1e-6*n && along >= -1e-6 && along <= n+1e-6
	}
	return on(c.P1) && on(c.P2)
}

// Rect adds the sides of a box.
func (p *Page) Rect(b geom.Box) {
	x, y := p.At(geom.Pt(b.Min.X, b.Max.Y))
	p.Op("re", x, y, b.Width()*PerMM, b.Height()*PerMM)
}

// Clip opens a group in which nothing is drawn outside the boxes; Restore
// closes it.
func (p *Page) Clip(boxes ...geom.Box) {
	p.Op("q")
	for _, b := range boxes {
		p.Rect(b)
	}
	p.Op("W n")
}

// Restore closes the group opened last; the pen must be set again.
func (p *Page) Restore() {
	p.Op("Q")
	p.pen = pen{}
}

// Layer opens a layer by its number; EndLayer closes it.
func (p *Page) Layer(id int) {
	p.buf = append(p.buf, "/OC /OC"...)
	p.buf = strconv.AppendInt(p.buf, int64(id), 10)
	p.buf = append(p.buf, " BDC\n"...)
}

// EndLayer closes the layer opened last.
func (p *Page) EndLayer() { p.Op("EMC") }

// SetPen changes what differs from the pen in hand. Dashes in mm; start is how
// far into them the line begins.
func (p *Page) SetPen(width float64, ink printing.Ink, dash []float64, start float64) {
	fresh := p.pen.width == 0
	if fresh || p.pen.width != width {
		p.Op("w", width*PerMM)
	}
	if fresh || p.pen.ink != ink {
		p.color(ink, "G", "RG")
	}
	from := len(p.buf)
	p.buf = append(p.buf, '[')
	for _, d := range dash {
		p.num(d * PerMM)
	}
	p.buf = append(p.buf, "] "...)
	p.Op("d", start*PerMM)
	state := string(p.buf[from:])
	if !fresh && p.pen.dash == state {
		p.buf = p.buf[:from]
	}
	p.pen = pen{width, ink, state}
}

func (p *Page) color(ink printing.Ink, grey, rgb string) {
	if ink.R == ink.G && ink.G == ink.B {
		p.Op(grey, unit(ink.R))
		return
	}
	p.Op(rgb, unit(ink.R), unit(ink.G), unit(ink.B))
}

func unit(x float64) float64 { return math.Max(0, math.Min(1, x)) }

// Line strokes from a to b with a solid pen.
func (p *Page) Line(a, b geom.Point, width float64, ink printing.Ink, dash ...float64) {
	p.SetPen(width, ink, dash, 0)
	p.MoveTo(a)
	p.LineTo(b)
	p.Op("S")
}

// Frame strokes the sides of b.
func (p *Page) Frame(b geom.Box, width float64, ink printing.Ink, dash ...float64) {
	p.SetPen(width, ink, dash, 0)
	p.Rect(b)
	p.Op("S")
}

// Flush hands what was collected to the document.
func (p *Page) Flush() {
	if len(p.buf) > 0 {
		p.f.RawWriteStr(string(p.buf))
		p.sum.Write(p.buf)
		p.buf = p.buf[:0]
	}
}

// Mark is a short fingerprint of the page, once it is flushed: two pages of one
// size with the same lines and words have the same mark, and no others in
// practice.
func (p *Page) Mark() string { return hex.EncodeToString(p.sum.Sum(nil)[:12]) }

// Group opens a group drawn through m, which is in points with y up; Restore
// closes it.
func (p *Page) Group(m geom.Affine) {
	p.Op("q")
	p.Op("cm", m.A, m.B, m.C, m.D, m.E, m.F)
	p.pen = pen{}
}

// Circle adds a circle about the origin of the group, r in mm, as four cubics
// that stay within 0.03 % of its radius (the usual constant 4/3 (sqrt 2 - 1)).
func (p *Page) Circle(r float64) {
	r *= PerMM
	k := 4.0 / 3 * (math.Sqrt2 - 1) * r
	p.Op("m", r, 0)
	p.Op("c", r, k, k, r, 0, r)
	p.Op("c", -k, r, -r, k, -r, 0)
	p.Op("c", -r, -k, -k, -r, 0, -r)
	p.Op("c", k, -r, r, -k, r, 0)
	p.Op("h")
}

// Rounded adds the sides of a box with round corners, rx and ry mm.
func (p *Page) Rounded(b geom.Box, rx, ry float64) {
	const k = 1 - 0.5522847498307935
	x0, y0, x1, y1 := b.Min.X, b.Min.Y, b.Max.X, b.Max.Y
	pt := geom.Pt
	corner := func(from, c, to geom.Point) {
		p.LineTo(from)
		p.CubicTo(geom.Cubic{P0: from, P1: from.Lerp(c, 1-k), P2: to.Lerp(c, 1-k), P3: to})
	}
	p.MoveTo(pt(x0+rx, y0))
	corner(pt(x1-rx, y0), pt(x1, y0), pt(x1, y0+ry))
	corner(pt(x1, y1-ry), pt(x1, y1), pt(x1-rx, y1))
	corner(pt(x0+rx, y1), pt(x0, y1), pt(x0, y1-ry))
	corner(pt(x0, y0+ry), pt(x0, y0), pt(x0+rx, y0))
	p.Op("h")
}

// FillInk chooses what the shapes that follow are filled with; the group closed
// next forgets it.
func (p *Page) FillInk(ink printing.Ink) { p.color(ink, "g", "rg") }

// Fill fills b.
func (p *Page) Fill(b geom.Box, ink printing.Ink) {
	p.FillInk(ink)
	p.Rect(b)
	p.Op("f")
}
