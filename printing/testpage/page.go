package testpage

import (
	"io"
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/printing/page"
	"quarterstep/printing/tile"
)

// Page is what the test page is made for.
type Page struct {
	Paper   tile.Paper   // of a roll, a page of rollLong is cut
	Unit    measure.Unit // lengths are in inches, or else in cm
	Printer string       // its name, shown; may be empty
	Date    string       // shown as given; may be empty
	With    tile.Printer // the correction it is printed with
	// Regular and Bold are the fonts' TrueType bytes; both are needed.
	Regular, Bold []byte
}

// The page, mm.
const (
	inset     = 15.0 // of the rectangle: beyond what printers leave white
	leastWide = 200.0
	leastHigh = 240.0
	// A correction may be as much as tile.Setup takes; the rectangle has that
	// much room beyond its inset.
	mostCorrection = 0.06
	rollLong       = 500.0
	thin           = 0.2
)

// Sheet is the paper the page is written on: a roll's is as long as a test page
// needs.
func (p Page) Sheet() tile.Paper {
	s := p.Paper
	if s.Roll() && s.Height == 0 {
		s.Height = rollLong
	}
	return s
}

// Lengths are the sides of the rectangle that is measured, mm on true paper:
// whole centimetres, or half inches. It fails on paper that is too small.
func (p Page) Lengths() (across, down float64, err error) {
	w, h := p.Sheet().Width, p.Sheet().Height
	switch {
	case p.Paper.Projected():
		return 0, 0, words.Error("a projector is set by the squares of its page, not by a test page")
	case w == 0 && h == 0:
		return 0, 0, words.Error("choose a paper first")
	case !(w >= leastWide) || !(h >= leastHigh) || math.IsInf(w, 0) || math.IsInf(h, 0):
		return 0, 0, words.Errorf("%s is too small for the test page: use A4 or Letter", p.Paper.Said())
	}
	step := 10.0
	if p.Unit == measure.Inches {
		step = 12.7
	}
	whole := func(side float64) float64 { return step * math.Floor((side-2*inset)/step+1e-9) }
	return whole(w), whole(h), nil
}

// Write writes the test page as a PDF. Errors say what is wrong with the paper,
// the correction or the fonts.
func Write(w io.Writer, p Page) error {
	if err := p.write(w); err != nil {
		return words.Errorf("writing the test page: %w", err)
	}
	return nil
}

func (p Page) write(w io.Writer) error {
	across, down, err := p.Lengths()
	if err != nil {
		return err
	}
	p.Paper = p.Sheet()
	kx, ky := p.With.Scale()
	if !(math.Abs(kx-1) <= mostCorrection) || !(math.Abs(ky-1) <= mostCorrection) {
		return words.Errorf("a correction of more than %.0f %% is a wrong print setting: take it back first", mostCorrection*100)
	}
	f, err := page.New(page.Options{
		Title: p.title(), Wide: p.Paper.Width, High: p.Paper.Height, Regular: p.Regular, Bold: p.Bold,
	})
	if err != nil {
		return err
	}
	middle := geom.Pt(p.Paper.Width/2, p.Paper.Height/2)
	half := geom.Vec{X: across * kx / 2, Y: down * ky / 2}
	d := &drawing{
		Document: f, p: f.AddPage(), of: p, kx: kx, ky: ky,
		frame: geom.Box{Min: middle.Add(half.Scale(-1)), Max: middle.Add(half)}, across: across, down: down,
	}
	d.draw()
	return f.Output(w)
}

func (p Page) title() string {
	if p.Printer == "" {
		return words.T("Scale check")
	}
	return words.F("Scale check, %s", p.Printer)
}
