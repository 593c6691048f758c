package pdf

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/printing/page"
	"quarterstep/printing/tile"
)

// marks of the sheets, mm.
const (
	hairline = 0.12
	joinLine = 0.2
	rung     = 4.0 // from rung to rung of a glue strip
	tips     = 2.8 // letter height of the words in the strips
	armLong  = 2.0 // of the cross-hair beyond its button
)

// sheet draws one sheet of the layout on a page of its own.
func (d *document) sheet(s tile.Sheet) {
	p := d.AddPage()
	m := d.plan.OnPage(s)
	projected := d.plan.Setup.Paper.Projected()
	if projected {
		d.backdrop(p)
	}
	p.Clip(onPage(m, s.Window))
	for side := tile.Left; side <= tile.Down; side++ {
		d.strip(p, m, s, side)
	}
	d.drawLines(p, s)
	for _, b := range s.Buttons {
		button(p, m, b)
	}
	p.Restore()
	d.drawLabels(p, s)
	for side := tile.Left; side <= tile.Down; side++ {
		d.tip(p, m, s, side)
	}
	if !projected {
		d.Write(p, page.Words{Text: s.Name, At: m.Apply(s.NameAt), Size: tile.NameSize, Bold: true, Left: true, Ink: page.Grey(0.35)})
	}
	if !d.plan.Panel.Empty() && d.plan.Sheets[d.plan.PanelOn].Name == s.Name {
		d.panel(p, onPage(m, d.plan.Panel))
	}
	d.end(p, s.Name)
}

// onPage takes a box of the layout to the page.
func onPage(m geom.Affine, b geom.Box) geom.Box {
	return geom.Box{Min: m.Apply(b.Min), Max: m.Apply(b.Max)}
}

// turnOf is how far m turns, clockwise on paper.
func turnOf(m geom.Affine) float64 { return math.Atan2(m.B, m.A) }

// strip draws the join of a side: broken where the sheet is trimmed, solid with
// a pale ladder beyond it where the neighbour is glued on top.
func (d *document) strip(p *page.Page, m geom.Affine, s tile.Sheet, side tile.Side) {
	if s.Beside[side] == "" {
		return
	}
	if strip := s.Strip(side); s.Glue(side) && !strip.Empty() {
		var words geom.Box
		if s.InStrip(side) {
			words = s.Tips[side]
		}
		for _, part := range around(strip, words) {
			ladder(p, onPage(m, part), side)
		}
	}
	a, b := joinOf(onPage(m, s.Own), side)
	if s.Trim(side) {
		p.Line(a, b, joinLine, page.Grey(0.3), 3, 1.5)
	} else {
		p.Line(a, b, joinLine, page.Grey(0.3))
	}
}

// around is the strip without the stretch that the words take.
func around(strip, words geom.Box) []geom.Box {
	if words.Empty() {
		return []geom.Box{strip}
	}
	before, after := strip, strip
	if strip.Height() > strip.Width() {
		before.Max.Y, after.Min.Y = words.Min.Y, words.Max.Y
	} else {
		before.Max.X, after.Min.X = words.Min.X, words.Max.X
	}
	return []geom.Box{before, after}
}

// ladder fills part of a side's strip with rungs: one broad line, broken.
func ladder(p *page.Page, b geom.Box, side tile.Side) {
	from, to, broad := geom.Pt(b.Centre().X, b.Min.Y), geom.Pt(b.Centre().X, b.Max.Y), b.Width()
	if side == tile.Down {
		from, to, broad = geom.Pt(b.Min.X, b.Centre().Y), geom.Pt(b.Max.X, b.Centre().Y), b.Height()
	}
	if broad > 0 && from != to {
		p.Line(from, to, broad, page.Grey(0.8), joinLine, rung-joinLine)
	}
}

// joinOf is the side of a box, from its upper or left end.
func joinOf(b geom.Box, side tile.Side) (from, to geom.Point) {
	switch side {
	case tile.Left:
		return b.Min, geom.Pt(b.Min.X, b.Max.Y)
	case tile.Right:
		return geom.Pt(b.Max.X, b.Min.Y), b.Max
	case tile.Up:
		return b.Min, geom.Pt(b.Max.X, b.Min.Y)
	default:
		return geom.Pt(b.Min.X, b.Max.Y), b.Max
	}
}

// tip writes in a strip, or beside a join without one, what to do there, where
// there is room.
func (d *document) tip(p *page.Page, m geom.Affine, s tile.Sheet, side tile.Side) {
	if s.Tips[side].Empty() {
		return
	}
	room := onPage(m, s.Tips[side])
	text := words.F("glue %s here", s.Beside[side])
	switch {
	case s.Trim(side):
		text = words.F("trim, joins %s", s.Beside[side])
	case !s.InStrip(side):
		text = words.F("%s joins here", s.Beside[side])
	}
	// The middle of the letters, not their baseline, lies mid-strip.
	drop := tips * 0.36
	w := page.Words{Text: text, Size: d.Fit(text, max(room.Width(), room.Height()), tips, false), Ink: page.Grey(0.35), At: room.Centre().Add(geom.Vec{Y: drop})}
	if room.Height() > room.Width() {
		w.Turn, w.At = math.Pi/2, room.Centre().Add(geom.Vec{X: -drop})
	}
	d.Write(p, w)
}

// button draws the quarters of a joining button that the sheet prints, and its
// whole cross-hair: a rim, a groove and four holes. Every button is the one of
// radius designed, scaled; only its scale and place differ, which packs well.
func button(p *page.Page, m geom.Affine, b tile.Button) {
	const designed, reach, hole = 4.0, 4.5, 1.2
	x, y := p.At(m.Apply(b.At))
	k := b.R / designed
	p.Group(geom.Affine{A: k, D: k, E: x, F: y})
	p.SetPen(hairline, page.Black, nil, 0)
	draw(p, -designed-armLong, 0, designed+armLong, 0)
	draw(p, 0, -designed-armLong, 0, designed+armLong)
	p.Op("S")
	for q, corner := range [4][2]float64{{-1, 0}, {0, 0}, {0, -1}, {-1, -1}} {
		if b.Quarters[q] {
			p.Op("re", corner[0]*reach*page.PerMM, corner[1]*reach*page.PerMM, reach*page.PerMM, reach*page.PerMM)
		}
	}
	p.Op("W n")
	p.SetPen(0.35, page.Black, nil, 0)
	p.Circle(designed)
	p.Circle(0.74 * designed)
	p.Op("S")
	// Lines without length but with round ends: dots (8.5.3.2).
	p.Op("J", 1)
	p.SetPen(0.3*designed, page.Black, nil, 0)
	for _, c := range [4][2]float64{{-hole, -hole}, {hole, -hole}, {hole, hole}, {-hole, hole}} {
		draw(p, c[0], c[1], c[0], c[1])
	}
	p.Op("S")
	p.Restore()
}

// draw adds a line, in mm from the origin of the group, y up.
func draw(p *page.Page, x0, y0, x1, y1 float64) {
	p.Op("m", x0*page.PerMM, y0*page.PerMM)
	p.Op("l", x1*page.PerMM, y1*page.PerMM)
}
