package pdf

import (
	"fmt"
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/printing/page"
)

// rulers on paper, mm: centimetres on one side, inches on the other.
const (
	rulerBroad = 15.0
	rulerWord  = 2.6 // letter height
	rulerLine  = 0.12
)

// scale is the marks along one side of a ruler: the length of one mark in mm,
// how many make a figure, and how many the middle mark between two figures.
type scale struct {
	mark         float64
	figure, half int
	word         func() string
}

var (
	centimetres = scale{1, 10, 5, func() string { return "cm" }}
	inches      = scale{25.4 / 8, 8, 4, func() string { return words.C("inches", "in") }}
)

// rulerAcross draws a ruler along the upper side of b: centimetres above, inches
// below its line. Like the pattern it is corrected for the printer.
func (d *document) rulerAcross(p *page.Page, b geom.Box) {
	k, _ := d.plan.Setup.Printer.Scale()
	y := b.Centre().Y
	place := func(along, off float64) geom.Point { return geom.Pt(b.Min.X+along*k, y+off) }
	d.ruler(p, b.Width()/k, 0, place)
}

// rulerDown draws a ruler down the middle of b: centimetres on the left.
func (d *document) rulerDown(p *page.Page, b geom.Box) {
	_, k := d.plan.Setup.Printer.Scale()
	x := b.Centre().X
	place := func(along, off float64) geom.Point { return geom.Pt(x+off, b.Min.Y+along*k) }
	d.ruler(p, b.Height()/k, math.Pi/2, place)
}

// ruler draws both scales of a ruler long mm long. place gives the page's place
// of so many mm along the ruler and off its line; words run at turn.
func (d *document) ruler(p *page.Page, long, turn float64, place func(along, off float64) geom.Point) {
	for side, sc := range [2]scale{centimetres, inches} {
		d.rulerSide(p, sc, float64(2*side-1), long, turn, place)
	}
}

// rulerSide draws one scale, on the side of the line that off -1 or 1 says. Its
// marks are the dashes of broad lines: three instead of hundreds.
func (d *document) rulerSide(p *page.Page, sc scale, off, long, turn float64, place func(along, off float64) geom.Point) {
	n := int(long/sc.mark/float64(sc.figure)) * sc.figure
	end := float64(n) * sc.mark
	p.Line(place(0, 0), place(end, 0), rulerLine, page.Black)
	k := place(1, 0).Dist(place(0, 0))
	for _, marks := range []struct {
		every int
		reach float64
	}{{1, 1.6}, {sc.half, 2.6}, {sc.figure, 3.6}} {
		step := float64(marks.every) * sc.mark * k
		from, to := place(0, off*marks.reach/2), place(end, off*marks.reach/2)
		along := to.Sub(from).Scale(rulerLine / 2 / to.Dist(from))
		p.Line(from.Add(along.Scale(-1)), to.Add(along), marks.reach, page.Black, rulerLine, step-rulerLine)
	}
	for i := sc.figure; i <= n; i += sc.figure {
		text := fmt.Sprint(i / sc.figure)
		if i == n {
			text = sc.word()
		}
		baseline := off * 4.4
		if (off > 0) == (turn == 0) {
			baseline += off * rulerWord * 0.72
		}
		d.Write(p, page.Words{Text: text, At: place(float64(i)*sc.mark, baseline), Size: rulerWord, Turn: turn})
	}
}
