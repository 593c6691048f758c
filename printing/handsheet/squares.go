package handsheet

import (
	"quarterstep/model/geom"
	"quarterstep/printing/page"
)

// The test squares, mm: 5 cm and 2 in each way (common practice).
const (
	squareMetric = 50.0
	squareInch   = 2 * inch
	squareApart  = 3.0
	squareLine   = 0.2
)

// notes are what holds for every piece. Common practice of drawing a size by
// hand.
var notes = []string{
	"Centre and fold lines stay where they are: points on them go only along them.",
	"Draw the joining curves along the old line, and keep each corner as it was.",
	"An amount is the whole way, rounded once. Do not add up gaps that are rounded already.",
	"Sew a toile, and look at the neckline and the armhole first.",
}

// onSquares says what the squares are for.
const onSquares = "Measure both squares: they show whether the printer prints true. The table counts; the drawing is only a guide."

// squares draws the two test squares one above the other, with the notes
// inside.
func (d *document) squares(room geom.Box) {
	square := func(y, side float64, name string, says []string) {
		b := geom.Box{Min: geom.Pt(room.Max.X-side, y), Max: geom.Pt(room.Max.X, y+side)}
		d.p.Frame(b, squareLine, page.Black)
		d.Write(d.p, page.Words{Text: name, At: geom.Pt(b.Centre().X, y+5.5), Size: 4.5, Bold: true})
		inside := b.Grow(-2.5)
		inside.Min.Y = y + 8.5
		d.listed(inside, says)
	}
	here := append([]string{
		"Measure each amount from the printed line of size " + d.s.From + ", straight across and along the grain.",
	}, d.s.Notes...)
	square(room.Min.Y, squareMetric, "5 cm each way", append(here, notes[0]))
	square(room.Min.Y+squareMetric+squareApart, squareInch, "2 in each way", append(notes[1:], onSquares))
}

// listed writes whole sentences in room, in letters small enough.
func (d *document) listed(room geom.Box, all []string) {
	const step, apart = 1.25, 0.5
	size := 3.2
	var wrapped [][]string
	for ; ; size -= 0.1 {
		lines := 0
		wrapped = wrapped[:0]
		for _, s := range all {
			w := d.Wrap(s, room.Width(), size)
			wrapped = append(wrapped, w)
			lines += len(w)
		}
		if size <= 2 || float64(lines)*step*size+float64(len(all))*apart*size <= room.Height() {
			break
		}
	}
	y := room.Min.Y + 0.8*size
	for _, w := range wrapped {
		for _, line := range w {
			d.text(room.Min.X, y, room.Width(), size, false, line)
			y += step * size
		}
		y += apart * size
	}
}
