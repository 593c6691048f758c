package targetsheet

import (
	"strconv"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/model/trace/target"
)

// firstCard is where the upper cards begin, mm from the paper's upper edge.
const firstCard = 10.0

var cardWords = []words.Text{
	"Print at 100 % (actual size), on one side. Measure both squares; if they are not true, print again.",
	"Cut along the dashed lines.",
	"Lay the piece flat, and the cards flat beside its corners: 1 at the upper left, then 2, 3 and 4 the way a clock goes. They may lie askew, but not on a line you want.",
	"Take the photo from above, in even light, with all four cards whole in the picture and little else.",
	"To be sure of the print, measure from the middle of 1 to the middle of 2, and from 2 to 3, and type both.",
	"Uncut, the sheet may lie beside a small piece.",
}

var cardPlaces = [target.Parts]words.Text{"upper left", "upper right", "lower right", "lower left"}

// cards draws what is on the page beside the targets of the cards.
func (s *sheet) cards() {
	const side = target.CardSide
	for i := -1.0; i <= 1; i++ {
		s.cut(s.middle.Add(geom.Vec{X: -side, Y: i * side}), s.middle.Add(geom.Vec{X: side, Y: i * side}))
		s.cut(s.middle.Add(geom.Vec{X: i * side, Y: -side}), s.middle.Add(geom.Vec{X: i * side, Y: side}))
	}
	for part := range target.Parts {
		spot, _ := target.SpotOf(target.Corners.Code(part, 0))
		mid := s.middle.Add(geom.Vec(spot.Sheet))
		s.text(mid.Add(geom.Vec{Y: -20}), 13, true, strconv.Itoa(part+1))
		s.text(mid.Add(geom.Vec{Y: 25}), 4, false, cardPlaces[part].String())
	}
	foot := s.middle.Y + side + 2*gutter
	left := (s.paper.Width - 2*side) / 2
	room := geom.Box{Min: geom.Pt(left, foot), Max: geom.Pt(left+2*side, s.paper.Height-margin)}
	two := geom.Box{Min: geom.Pt(room.Max.X-2*inch, foot), Max: geom.Pt(room.Max.X, foot+2*inch)}
	metric := geom.Box{Min: geom.Pt(two.Min.X-gutter-50, foot), Max: geom.Pt(two.Min.X-gutter, foot+50)}
	s.square(metric, words.T("5 cm"))
	s.square(two, words.T("2 in"))
	s.heading(geom.Box{Min: room.Min, Max: geom.Pt(metric.Min.X-gutter, foot+12)})
	s.listed(geom.Box{Min: geom.Pt(room.Min.X, foot+16), Max: geom.Pt(metric.Min.X-gutter, two.Max.Y)}, 1, cardWords[:2])
	s.listed(geom.Box{Min: geom.Pt(room.Min.X, two.Max.Y+2*gutter), Max: room.Max}, 3, cardWords[2:])
}
