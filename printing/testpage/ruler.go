package testpage

import (
	"fmt"
	"math"

	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/printing/page"
)

// tick is one mark of a ruler.
type tick struct {
	at    float64 // mm on true paper from the ruler's start
	long  float64 // mm
	label string
}

// ticks are the marks of a ruler of that length: millimetres with every
// centimetre numbered, or eighths with every inch.
func ticks(length float64, unit measure.Unit) []tick {
	const long, half, short = 5.0, 3.5, 2.0
	per, step := 10, 1.0
	if unit == measure.Inches {
		per, step = 8, 25.4/8
	}
	var out []tick
	for i := 1; float64(i)*step < length-1e-6; i++ {
		t := tick{at: float64(i) * step, long: short}
		switch {
		case i%per == 0:
			t.long, t.label = long, fmt.Sprint(i/per)
		case i%(per/2) == 0:
			t.long = half
		}
		out = append(out, t)
	}
	return out
}

// rulers rules the upper and left sides of the rectangle, inside.
func (d *drawing) rulers() {
	const fine, size, clear = 0.1, 3.0, 1.0
	unit := d.of.Unit
	for _, t := range ticks(d.across, unit) {
		x := t.at * d.kx
		d.p.Line(d.at(x, 0), d.at(x, t.long), fine, page.Black)
		if t.label != "" {
			d.Write(d.p, page.Words{Text: t.label, At: d.at(x, t.long+clear+0.72*size), Size: size})
		}
	}
	for _, t := range ticks(d.down, unit) {
		y := t.at * d.ky
		d.p.Line(d.at(0, y), d.at(t.long, y), fine, page.Black)
		// The first numbers of the two rulers would stand on each other.
		if t.label != "" && y > 2*size+clear {
			d.Write(d.p, page.Words{Text: t.label, At: d.at(t.long+clear, y+0.36*size), Size: size, Left: true})
		}
	}
}

// ends draws arrows between the sides that are measured, with the length along
// them.
func (d *drawing) ends() {
	w, h := d.frame.Width(), d.frame.Height()
	const in = 14.0
	d.arrow(d.at(0, in), d.at(w, in))
	d.arrow(d.at(in, 0), d.at(in, h))
}

// arrow draws a thin line with a point at both ends.
func (d *drawing) arrow(a, b geom.Point) {
	const long, broad = 4.0, 1.2
	d.p.Line(a, b, thin, page.Grey(0.4))
	u := b.Sub(a).Unit()
	n := geom.Vec{X: -u.Y, Y: u.X}
	for _, end := range []struct {
		tip geom.Point
		in  geom.Vec
	}{{a, u}, {b, u.Scale(-1)}} {
		foot := end.tip.Add(end.in.Scale(long))
		d.p.Line(foot.Add(n.Scale(broad)), end.tip, thin, page.Grey(0.4))
		d.p.Line(foot.Add(n.Scale(-broad)), end.tip, thin, page.Grey(0.4))
	}
}

// The lines at the paper's edges, mm from them.
const (
	leastMargin = 2
	mostMargin  = 13
	marginLong  = 5.0
	marginStep  = 8.5
)

// margins draws at each edge a stair of short lines with their distance from
// the edge, so that the smallest one printed whole tells what the printer
// leaves white. They stand on the file's page and are not corrected.
func (d *drawing) margins() {
	const size = 2.4
	w, h := d.of.Paper.Width, d.of.Paper.Height
	clear := math.Min(d.frame.Min.X, d.frame.Min.Y) - 1
	for mm := leastMargin; mm <= mostMargin && float64(mm) < clear; mm++ {
		far, along := float64(mm), (float64(mm-leastMargin)-float64(mostMargin-leastMargin)/2)*marginStep
		from, to, next := along-marginLong/2, along+marginLong/2, along+marginLong/2+0.3
		name := fmt.Sprint(mm)
		word := func(at geom.Point) {
			d.Write(d.p, page.Words{Text: name, At: at, Size: 1.8, Left: true})
		}
		line := func(a, b geom.Point) { d.p.Line(a, b, thin, page.Black) }
		line(geom.Pt(w/2+from, far), geom.Pt(w/2+to, far))
		word(geom.Pt(w/2+next, far+size/4))
		line(geom.Pt(w/2+from, h-far), geom.Pt(w/2+to, h-far))
		word(geom.Pt(w/2+next, h-far+size/4))
		line(geom.Pt(far, h/2+from), geom.Pt(far, h/2+to))
		word(geom.Pt(far-size/4, h/2+next+1.3))
		line(geom.Pt(w-far, h/2+from), geom.Pt(w-far, h/2+to))
		word(geom.Pt(w-far-size/4, h/2+next+1.3))
	}
}
