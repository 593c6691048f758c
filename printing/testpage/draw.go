package testpage

import (
	"fmt"
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/printing/page"
)

// drawing is the test page under way.
type drawing struct {
	*page.Document
	p            *page.Page
	of           Page
	kx, ky       float64  // the correction
	frame        geom.Box // the rectangle, page mm
	across, down float64  // its sides on true paper
}

// What stands in the rectangle, mm from its upper left corner on the page.
const (
	left    = 20.0 // clear of the ruler down
	headTop = 20.0 // clear of the ruler across
	figures = 55.0 // the squares and the card
)

// The squares (common practice) and the bank card (ISO/IEC 7810, ID-1: 85.60 x
// 53.98 mm, corners of 3.18 mm).
const (
	squareMM   = 50.0
	squareInch = 2 * 25.4
	cardWide   = 85.60
	cardHigh   = 53.98
	cardCorner = 3.18
	apart      = 6.0
)

func (d *drawing) draw() {
	d.margins()
	d.p.Frame(d.frame, thin, page.Black)
	d.rulers()
	d.ends()
	d.head()
	d.shapes()
	d.advise()
	d.p.Flush()
}

// at is a place in the rectangle, page mm; what is measured keeps its size by
// sized.
func (d *drawing) at(x, y float64) geom.Point { return d.frame.Min.Add(geom.Vec{X: x, Y: y}) }

func (d *drawing) sized(x, y, w, h float64) geom.Box {
	from := d.at(x, y)
	return geom.Box{Min: from, Max: from.Add(geom.Vec{X: w * d.kx, Y: h * d.ky})}
}

func (d *drawing) text(at geom.Point, wide, size float64, bold bool, s string) {
	d.Write(d.p, page.Words{Text: s, At: at, Size: d.Fit(s, wide, size, bold), Bold: bold, Left: true})
}

// wide is the room for words from left to the rectangle's right side.
func (d *drawing) wide() float64 { return math.Min(d.frame.Width()-left-8, 150) }

func (d *drawing) head() {
	d.text(d.at(left, headTop+4), d.wide(), 8, true, words.T("Scale check"))
	line := d.of.Paper.Said()
	if d.of.Printer != "" {
		line = d.of.Printer + ", " + line
	}
	if d.of.Date != "" {
		line += ", " + d.of.Date
	}
	d.text(d.at(left, headTop+11), d.wide(), 4.2, false, line)
	with := words.T("Printed without a correction.")
	if d.kx != 1 || d.ky != 1 {
		with = words.F("Printed with this printer's correction: %s %% across, %s %% down.", words.Figure(d.kx*100, 2), words.Figure(d.ky*100, 2))
	}
	d.text(d.at(left, headTop+16.5), d.wide(), 3.4, false, with)
	for i, s := range []string{
		words.F("Across should be %s. I measure", d.length(d.across)),
		words.F("Down should be %s. I measure", d.length(d.down)),
	} {
		y := headTop + 23 + 6.5*float64(i)
		d.text(d.at(left, y), 85, 4.2, true, s)
		from := d.at(left+3+d.Width(s, d.Fit(s, 85, 4.2, true), true), y+0.8)
		d.p.Line(from, from.Add(geom.Vec{X: 42}), thin, page.Grey(0.4))
	}
}

// length writes a side of the rectangle in the unit chosen, and in the other
// one in brackets.
func (d *drawing) length(mm float64) string {
	cm := measure.Format(mm, measure.TenthCM) + " cm"
	if d.of.Unit == measure.Inches {
		return measure.Format(mm, measure.Sixteenths) + " " + words.C("inches", "in") + " (" + measure.Format(mm, measure.TenthMM) + " mm)"
	}
	return cm + " (" + measure.Format(mm, measure.ThirtySeconds) + " " + words.C("inches", "in") + ")"
}

// shapes draws the squares and the card.
func (d *drawing) shapes() {
	mm := d.sized(left, figures, squareMM, squareMM)
	inch := d.sized(left, figures+squareMM*d.ky+apart, squareInch, squareInch)
	card := d.sized(left+squareInch*d.kx+apart, figures, cardWide, cardHigh)
	d.p.Frame(mm, thin, page.Black)
	d.p.Frame(inch, thin, page.Black)
	d.p.SetPen(thin, page.Black, nil, 0)
	d.p.Rounded(card, cardCorner*d.kx, cardCorner*d.ky)
	d.p.Op("S")
	d.inside(mm, words.T("5 cm"), words.T("each way"))
	d.inside(inch, words.T("2 in"), words.T("each way"))
	d.inside(card, words.T("Bank card"), words.T("A card laid here covers the line exactly"))
}

func (d *drawing) inside(b geom.Box, name, more string) {
	d.Write(d.p, page.Words{Text: name, At: b.Centre(), Size: d.Fit(name, b.Width()-6, 5, true), Bold: true})
	d.Write(d.p, page.Words{Text: more, At: b.Centre().Add(geom.Vec{Y: 5.5}), Size: d.Fit(more, b.Width()-6, 3.2, false)})
}

// advise writes what to do beside the squares and below the card.
func (d *drawing) advise() {
	const size, step, indent = 3.7, 1.3, 5.0
	x := left + squareInch*d.kx + apart
	y := figures + cardHigh*d.ky + apart + size
	wide := d.frame.Width() - x - 8
	if wide > 110 {
		wide = 110
	}
	for i, s := range d.advice() {
		d.text(d.at(x, y), indent, size, true, fmt.Sprint(i+1))
		for _, line := range d.Wrap(s, wide-indent, size) {
			d.text(d.at(x+indent, y), wide, size, false, line)
			y += size * step
		}
		y += 0.5 * size
	}
}

// advice is what to do with the page. Common practice.
func (d *drawing) advice() []string {
	return []string{
		words.F(`Print this page at 100 %% ("Actual size") on %s, one page on a sheet, with "Fit to page" and "Borderless" off.`, d.of.Paper.Said()),
		words.T("Measure the large frame along its rulers, from the middle of one line to the middle of the other, with one long ruler. Read to half a millimetre (1/64 in)."),
		words.T("Type both lengths under Scale check in the Print step. This printer is corrected by them from then on, or you are told which setting looks wrong."),
		words.T("No long ruler? The squares and a bank card on its outline show a wrong setting, but not a small error."),
		words.T("At each edge of the paper, find the smallest number whose line is printed whole. The largest of the four is what your printer leaves white, in mm: type it as the printer's own margin."),
	}
}
