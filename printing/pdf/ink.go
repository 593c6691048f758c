package pdf

import (
	"math"
	"strconv"

	"github.com/jung-kurt/gofpdf"

	"quarterstep/model/geom"
	"quarterstep/printing"
)

// perMM is points to the millimetre.
const perMM = 72 / 25.4

// page collects drawing operators for one page, given in page mm. Numbers are
// written with five decimals of a point: 4 millionths of a millimetre.
type page struct {
	f    *gofpdf.Fpdf
	buf  []byte
	high float64 // of the page, mm
	pen  pen
}

// pen is the state that strokes are drawn with.
type pen struct {
	width float64
	ink   printing.Ink
	dash  string
}

func (p *page) num(x float64) {
	x = math.Round(x*1e5) / 1e5
	if x == 0 {
		x = 0 // no minus zero
	}
	p.buf = strconv.AppendFloat(p.buf, x, 'f', -1, 64)
	p.buf = append(p.buf, ' ')
}

// op writes operands and an operator.
func (p *page) op(name string, operands ...float64) {
	for _, x := range operands {
		p.num(x)
	}
	p.buf = append(p.buf, name...)
	p.buf = append(p.buf, '\n')
}

func (p *page) at(q geom.Point) (x, y float64) { return q.X * perMM, (p.high - q.Y) * perMM }

func (p *page) moveTo(q geom.Point) {
	x, y := p.at(q)
	p.op("m", x, y)
}

func (p *page) lineTo(q geom.Point) {
	x, y := p.at(q)
	p.op("l", x, y)
}

// cubicTo draws c from the current point; a straight one as a line.
func (p *page) cubicTo(c geom.Cubic) {
	if straight(c) {
		p.lineTo(c.P3)
		return
	}
	x1, y1 := p.at(c.P1)
	x2, y2 := p.at(c.P2)
	x3, y3 := p.at(c.P3)
	p.op("c", x1, y1, x2, y2, x3, y3)
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

func (p *page) rect(b geom.Box) {
	x, y := p.at(geom.Pt(b.Min.X, b.Max.Y))
	p.op("re", x, y, b.Width()*perMM, b.Height()*perMM)
}

// clip opens a group in which nothing is drawn outside the boxes; restore
// closes it.
func (p *page) clip(boxes ...geom.Box) {
	p.op("q")
	for _, b := range boxes {
		p.rect(b)
	}
	p.op("W n")
}

// restore closes the group opened last; the pen must be set again.
func (p *page) restore() {
	p.op("Q")
	p.pen = pen{}
}

// layer opens a layer by its number; endLayer closes it.
func (p *page) layer(id int) {
	p.buf = append(p.buf, "/OC /OC"...)
	p.buf = strconv.AppendInt(p.buf, int64(id), 10)
	p.buf = append(p.buf, " BDC\n"...)
}

func (p *page) endLayer() { p.op("EMC") }

// setPen changes what differs from the pen in hand. Dashes in mm; start is how
// far into them the line begins.
func (p *page) setPen(width float64, ink printing.Ink, dash []float64, start float64) {
	fresh := p.pen.width == 0
	if fresh || p.pen.width != width {
		p.op("w", width*perMM)
	}
	if fresh || p.pen.ink != ink {
		p.color(ink, "G", "RG")
	}
	from := len(p.buf)
	p.buf = append(p.buf, '[')
	for _, d := range dash {
		p.num(d * perMM)
	}
	p.buf = append(p.buf, "] "...)
	p.op("d", start*perMM)
	state := string(p.buf[from:])
	if !fresh && p.pen.dash == state {
		p.buf = p.buf[:from]
	}
	p.pen = pen{width, ink, state}
}

func (p *page) color(ink printing.Ink, grey, rgb string) {
	if ink.R == ink.G && ink.G == ink.B {
		p.op(grey, unit(ink.R))
		return
	}
	p.op(rgb, unit(ink.R), unit(ink.G), unit(ink.B))
}

func unit(x float64) float64 { return math.Max(0, math.Min(1, x)) }

// line strokes from a to b with a solid pen.
func (p *page) line(a, b geom.Point, width float64, ink printing.Ink, dash ...float64) {
	p.setPen(width, ink, dash, 0)
	p.moveTo(a)
	p.lineTo(b)
	p.op("S")
}

// frame strokes the sides of b.
func (p *page) frame(b geom.Box, width float64, ink printing.Ink, dash ...float64) {
	p.setPen(width, ink, dash, 0)
	p.rect(b)
	p.op("S")
}

// flush hands what was collected to the document.
func (p *page) flush() {
	if len(p.buf) > 0 {
		p.f.RawWriteStr(string(p.buf))
		p.buf = p.buf[:0]
	}
}
