package targetsheet

import (
	"fmt"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/printing/page"
)

const (
	inch       = 25.4
	squareLine = 0.2
)

// square draws a test square of the size that b has.
func (s *sheet) square(b geom.Box, name string) {
	s.p.Frame(b, squareLine, page.Black)
	s.text(b.Centre().Add(geom.Vec{Y: -1}), 5, true, name)
	s.text(b.Centre().Add(geom.Vec{Y: 5}), 3.2, false, words.T("each way"))
}

// heading writes what the sheet is, in up to two lines.
func (s *sheet) heading(room geom.Box) {
	const size = 4.6
	y := room.Min.Y + size
	for _, line := range s.Wrap(s.title, room.Width(), 1.08*size) { // bold is that much wider
		s.Write(s.p, page.Words{Text: line, At: geom.Pt(room.Min.X, y), Size: size, Bold: true, Left: true})
		y += 1.2 * size
	}
}

// Sentences, in letter heights: from line to line, and the room after each.
const (
	lineStep  = 1.25
	lineApart = 0.5
)

// listed writes sentences in room, counted from first, at the largest letter
// height from 3.6 mm down at which they fit.
func (s *sheet) listed(room geom.Box, first int, sentences []words.Text) {
	var all []string
	for i, t := range sentences {
		all = append(all, fmt.Sprintf("%d. %s", first+i, t))
	}
	const largest, least = 3.6, 2.2
	size := largest
	for ; size > least; size -= 0.1 {
		high := 0.0
		for _, t := range all {
			high += size * (lineApart + lineStep*float64(len(s.Wrap(t, room.Width(), size))))
		}
		if high <= room.Height() {
			break
		}
	}
	y := room.Min.Y + 0.8*size
	for _, t := range all {
		for _, line := range s.Wrap(t, room.Width(), size) {
			s.Write(s.p, page.Words{Text: line, At: geom.Pt(room.Min.X, y), Size: size, Left: true})
			y += lineStep * size
		}
		y += lineApart * size
	}
}
