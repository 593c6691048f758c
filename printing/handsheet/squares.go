package handsheet

import (
	"slices"

	"quarterstep/assets/words"
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
var notes = []words.Text{
	"Centre and fold lines stay where they are: points on them go only along them.",
	"Draw the joining curves along the old line, and keep each corner as it was.",
	"An amount is the whole way, rounded once. Do not add up gaps that are rounded already.",
	"Sew a toile, and look at the neckline and the armhole first.",
}

// onSquares says what the squares are for.
const onSquares words.Text = "Measure both squares: they show whether the printer prints true. The table counts; the drawing is only a guide."

// squares draws the two test squares one above the other, with the notes
// inside.
func (d *document) squares(room geom.Box) {
	upper := slices.Concat([]string{
		words.F("Measure each amount from the printed line of size %s, straight across and along the grain.", d.s.From),
	}, d.s.Notes, []string{notes[0].String(), notes[1].String()})
	lower := []string{notes[2].String(), notes[3].String(), onSquares.String()}
	metric := geom.Box{Min: geom.Pt(room.Max.X-squareMetric, room.Min.Y), Max: geom.Pt(room.Max.X, room.Min.Y+squareMetric)}
	two := geom.Box{Min: geom.Pt(room.Max.X-squareInch, metric.Max.Y+squareApart)}
	two.Max = two.Min.Add(geom.Vec{X: squareInch, Y: squareInch})
	inside := func(b geom.Box) geom.Box {
		b = b.Grow(-2.5)
		b.Min.Y += 6
		return b
	}
	size := min(d.sizeFor(inside(metric), upper), d.sizeFor(inside(two), lower))
	d.square(metric, words.T("5 cm each way"))
	d.listed(inside(metric), size, upper)
	d.square(two, words.T("2 in each way"))
	d.listed(inside(two), size, lower)
}

func (d *document) square(b geom.Box, name string) {
	d.p.Frame(b, squareLine, page.Black)
	d.Write(d.p, page.Words{Text: name, At: geom.Pt(b.Centre().X, b.Min.Y+5.5), Size: d.Fit(name, b.Width()-4, 4.2, true), Bold: true})
}

// noteStep is from line to line and noteApart the room after a sentence, both
// in letter heights.
const (
	noteStep  = 1.22
	noteApart = 0.4
)

// sizeFor is the letter height, from 3 mm down, at which the sentences fit into
// room.
func (d *document) sizeFor(room geom.Box, all []string) float64 {
	const largest, least = 3.0, 1.8
	size := largest
	for ; size > least; size -= 0.1 {
		high := noteApart * float64(len(all)-1)
		for _, s := range all {
			high += noteStep * float64(len(d.Wrap(s, room.Width(), size)))
		}
		if high*size <= room.Height() {
			break
		}
	}
	return size
}

// listed writes sentences in room, each from a new line on.
func (d *document) listed(room geom.Box, size float64, all []string) {
	y := room.Min.Y + 0.8*size
	for _, s := range all {
		for _, line := range d.Wrap(s, room.Width(), size) {
			d.text(room.Min.X, y, room.Width(), size, false, line)
			y += noteStep * size
		}
		y += noteApart * size
	}
}
