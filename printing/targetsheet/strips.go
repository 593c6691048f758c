package targetsheet

import (
	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/model/trace/target"
)

// firstStrip is where the first strip begins, mm from the paper's left edge: its
// targets lie 4 mm farther in.
const firstStrip = 4.0

var stripWords = []words.Text{
	"Print at 100 % (actual size), on one side. Measure both squares; if they are not true, print again.",
	"Cut along the dashed lines.",
	"Lay the piece flat, and one strip flat beside each of its four sides, any way round. They may lie on the sheet, but not on a line you want.",
	"Take the photo from above, in even light, with all four strips whole in the picture and little else.",
	"Nothing need be measured. Keep the strips for the next photo.",
}

// strips draws what is on the page beside the targets of the strips.
func (s *sheet) strips() {
	for part := range target.Parts {
		right := firstStrip + float64(part+1)*target.StripWidth
		s.cut(geom.Pt(right, 0), geom.Pt(right, s.paper.Height))
		for _, y := range []float64{-90, -30, 30, 90} {
			s.text(s.middle.Add(geom.Vec{X: right - target.StripWidth/2 - s.middle.X, Y: y + 1.5}), 4, true, words.F("Strip %d", part+1))
		}
	}
	left := firstStrip + target.Parts*target.StripWidth + gutter
	metric := geom.Box{Min: geom.Pt(left, margin+14), Max: geom.Pt(left+50, margin+14+50)}
	two := geom.Box{Min: geom.Pt(left, metric.Max.Y+gutter)}
	two.Max = two.Min.Add(geom.Vec{X: 2 * inch, Y: 2 * inch})
	s.heading(geom.Box{Min: geom.Pt(left, margin), Max: geom.Pt(left+2*inch, metric.Min.Y)})
	s.square(metric, words.T("5 cm"))
	s.square(two, words.T("2 in"))
	s.listed(geom.Box{
		Min: geom.Pt(left, two.Max.Y+2*gutter),
		Max: geom.Pt(left+2*inch, s.paper.Height-margin),
	}, 1, stripWords)
}
