package targetsheet

import (
	"io"
	"math"
	"time"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/model/trace/target"
	"quarterstep/printing/page"
	"quarterstep/printing/tile"
)

// Options are what a sheet does not know.
type Options struct {
	Paper tile.Paper
	// Printer corrects a printer that prints a little small or large; targets and
	// squares then come out as large as they say.
	Printer tile.Printer
	// Regular and Bold are the fonts' TrueType bytes; both are needed.
	Regular, Bold []byte
}

// The page, mm. A4 is the narrower, Letter the shorter of the two.
const (
	margin    = 8.0
	leastWide = 210.0
	leastHigh = 11 * 25.4
	gutter    = 3.0
	cutLine   = 0.15
	// A printer farther out than this is set wrongly (common practice, as in
	// printing/tile).
	mostCorrection = 0.06
)

var cutDash = []float64{3, 2}

// Write writes the sheet of a set as a PDF of one page. Errors name the paper
// that is too small, the set there is not, the correction that cannot be one, or
// the font that cannot be read.
func Write(w io.Writer, set target.Set, o Options) error {
	if err := write(w, set, o); err != nil {
		return words.Errorf("writing the targets: %w", err)
	}
	return nil
}

func write(w io.Writer, set target.Set, o Options) error {
	titles := map[target.Set]string{target.Strips: words.T("Strips to lay round a piece"), target.Corners: words.T("Corner cards to lay round a piece")}
	title, ok := titles[set]
	if !ok {
		return words.Errorf("there are no targets %q: choose %s or %s", set, target.Strips, target.Corners)
	}
	if o.Paper.Width < leastWide || o.Paper.Height < leastHigh {
		return words.Errorf("paper %s is too small: use A4 or Letter", o.Paper.Said())
	}
	across, down := o.Printer.Scale()
	if !(math.Abs(across-1) <= mostCorrection && math.Abs(down-1) <= mostCorrection) {
		return words.Errorf("the printer's correction is too large: set it to 100 %% and measure it again")
	}
	f, err := page.New(page.Options{
		Title: title, Date: time.Time{},
		Wide: o.Paper.Width, High: o.Paper.Height, Regular: o.Regular, Bold: o.Bold,
	})
	if err != nil {
		return err
	}
	s := &sheet{Document: f, p: f.AddPage(), set: set, paper: o.Paper, title: title}
	s.middle = Middle(set, o.Paper)
	x, y := s.p.At(geom.Pt(o.Paper.Width/2, o.Paper.Height/2))
	s.p.Group(geom.Affine{A: across, D: down, E: x * (1 - across), F: y * (1 - down)})
	if set == target.Strips {
		s.strips()
	} else {
		s.cards()
	}
	for part := range target.Parts {
		for k := range target.PerPart {
			s.target(set.Code(part, k))
		}
	}
	s.p.Restore()
	s.p.Flush()
	return f.Output(w)
}

// Middle is where on a page the middle of a set's parts lies, from which
// target.Spot's Sheet counts, before a printer's correction, which is about the
// middle of the page.
func Middle(set target.Set, paper tile.Paper) geom.Point {
	if set == target.Strips {
		return geom.Pt(firstStrip+target.Parts*target.StripWidth/2, paper.Height/2)
	}
	return geom.Pt(paper.Width/2, firstCard+target.CardSide)
}

// sheet is a page of targets being drawn.
type sheet struct {
	*page.Document
	p      *page.Page
	set    target.Set
	paper  tile.Paper
	title  string
	middle geom.Point
}

// target draws the target of a code.
func (s *sheet) target(code int) {
	spot, _ := target.SpotOf(code)
	r := spot.Radius
	x, y := s.p.At(s.middle.Add(geom.Vec(spot.Sheet)))
	s.p.Group(geom.Affine{A: 1, D: -1, E: x, F: y}) // y down within
	s.p.FillInk(page.Black)
	s.p.Circle(r)
	s.p.Circle(target.RingInside * r)
	s.p.Op("f*")
	s.quarter(target.Checker * r)
	s.quarter(-target.Checker * r)
	s.p.Op("f")
	s.p.Restore()
	for _, d := range target.Dots(code) {
		s.p.Group(geom.Affine{A: 1, D: -1, E: x + d.X*r*page.PerMM, F: y - d.Y*r*page.PerMM})
		s.p.FillInk(page.Black)
		s.p.Circle(target.DotRadius * r)
		s.p.Op("f")
		s.p.Restore()
	}
}

// quarter adds the quarter of a disc about the group's origin from x to y, or
// for a radius below nothing the one opposite.
func (s *sheet) quarter(r float64) {
	const k = 0.5522847498 // 4/3 (sqrt 2 - 1), as page.Circle has it
	r *= page.PerMM
	s.p.Op("m", 0, 0)
	s.p.Op("l", r, 0)
	s.p.Op("c", r, k*r, k*r, r, 0, r)
	s.p.Op("h")
}

// cut draws a line to cut along.
func (s *sheet) cut(a, b geom.Point) { s.p.Line(a, b, cutLine, page.Grey(0.45), cutDash...) }

func (s *sheet) text(at geom.Point, size float64, bold bool, said string) {
	s.Write(s.p, page.Words{Text: said, At: at, Size: size, Bold: bold})
}
