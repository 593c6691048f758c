package handsheet

import (
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/printing"
	"quarterstep/printing/page"
)

// scales are those a drawing can have: one mm on paper for so many of the
// piece.
var scales = []float64{1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100, 200, 500}

// badgeRoom is what the numbers need around the outline, mm.
const badgeRoom = 13.0

// captionHigh is the room for the words below the drawing, mm.
const captionHigh = 5.0

// drawing draws the piece in room: the printed line thin and broken, the new
// one solid, and a number at each grade point with arrows the way it goes.
func (d *document) drawing(room geom.Box) {
	all := geom.Join(d.s.Printed...).Bounds().Union(geom.Join(d.s.Wanted...).Bounds())
	inner := room
	inner.Max.Y -= captionHigh
	free := inner.Grow(-badgeRoom)
	n := scales[len(scales)-1]
	for _, s := range scales {
		if all.Width()/s <= free.Width() && all.Height()/s <= free.Height() {
			n = s
			break
		}
	}
	c := all.Centre()
	m := geom.Translate(geom.Vec(free.Centre())).Mul(geom.ScaleXY(1/n, 1/n)).Mul(geom.Translate(geom.Vec{X: -c.X, Y: -c.Y}))
	printed, wanted := turned(d.s.Printed, m), turned(d.s.Wanted, m)
	d.outline(printed, 0.18, 1.2, 0.9)
	marks := turned(d.s.Marks, m)
	for _, l := range marks {
		d.stroke(l, 0.15, page.Grey(0.5))
		d.p.Op("S")
	}
	d.outline(wanted, 0.4)
	for k, b := range d.badges(inner, m, slices.Concat(printed, wanted, marks)) {
		d.badge(b, k)
	}
	caption := words.F("Drawn at 1 : %g, grain up and down.", n)
	if d.s.To != "" {
		caption += " " + words.F("Broken: printed size %s. Solid: %s.", d.s.From, d.s.To)
	}
	d.text(room.Min.X, room.Max.Y-0.8, room.Width(), 3, false, caption)
}

func turned(edges []geom.Path, m geom.Affine) []geom.Path {
	out := make([]geom.Path, len(edges))
	for i, e := range edges {
		out[i] = e.Transform(m)
	}
	return out
}

func (d *document) outline(edges []geom.Path, width float64, dash ...float64) {
	d.stroke(geom.Join(edges...), width, page.Black, dash...)
	d.p.Op("h")
	d.p.Op("S")
}

// stroke begins a line.
func (d *document) stroke(l geom.Path, width float64, ink printing.Ink, dash ...float64) {
	d.p.SetPen(width, ink, dash, 0)
	for i, c := range l {
		if i == 0 {
			d.p.MoveTo(c.P0)
		}
		d.p.CubicTo(c)
	}
}
