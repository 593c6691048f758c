package pdf

import (
	"math"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/printing"
	"quarterstep/printing/page"
)

// the squares to set a projector by, mm.
const (
	squareLine = 0.3
	squareInk  = 0.75 // grey on white
	squareWord = 5.0  // letter height
)

// ink is how an ink looks: on a dark page for a projector, white for black.
func (d *document) ink(i printing.Ink) printing.Ink {
	if d.dark() {
		return printing.Ink{R: 1 - i.R, G: 1 - i.G, B: 1 - i.B}
	}
	return i
}

func (d *document) dark() bool {
	return d.plan.Setup.Paper.Projected() && d.plan.Setup.Projector.Dark
}

// look is a stroke as it is drawn: for a projector as broad as was asked for,
// its dashes longer in step so that they stay apart.
func (d *document) look(s printing.Stroke) printing.Stroke {
	s.Ink = d.ink(s.Ink)
	wide := d.plan.Setup.Projector.Line
	if !d.plan.Setup.Paper.Projected() || wide == 0 {
		return s
	}
	if k := wide / s.Width; k > 1 {
		dash := make([]float64, len(s.Dash))
		for i, l := range s.Dash {
			dash[i] = l * k
		}
		s.Dash = dash
	}
	s.Width = wide
	return s
}

// backdrop fills a page for a projector and draws the squares to set it by.
func (d *document) backdrop(p *page.Page) {
	set := d.plan.Setup
	wide, high := set.Size()
	if d.dark() {
		p.Op("q")
		p.Fill(geom.Box{Max: geom.Pt(wide, high)}, page.Black)
		p.Restore()
	}
	side := set.Projector.Square
	if side == 0 {
		return
	}
	grey := d.ink(page.Grey(squareInk))
	for x := side; x < wide; x += side {
		p.Line(geom.Pt(x, 0), geom.Pt(x, high), squareLine, grey)
	}
	for y := side; y < high; y += side {
		p.Line(geom.Pt(0, y), geom.Pt(wide, y), squareLine, grey)
	}
	text := words.F("Squares of %s. Set the projector until a ruler says so, across and down.", lengthText(side))
	size := d.Fit(text, wide-8, squareWord, false)
	d.Write(p, page.Words{Text: text, At: geom.Pt(4, high-3), Size: size, Left: true, Ink: d.ink(page.Grey(0.35))})
}

// lengthText is a length in inches where it is a whole number of them, else in
// centimetres.
func lengthText(mm float64) string {
	if in := mm / 25.4; math.Abs(in-math.Round(in)) < 1e-9 {
		return words.F("%s in", words.Figure(in, 0))
	}
	return words.F("%s cm", strings.TrimSuffix(words.Figure(mm/10, 1), words.Decimal()+"0"))
}
