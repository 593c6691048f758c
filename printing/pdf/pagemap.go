package pdf

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/printing/page"
	"quarterstep/printing/tile"
)

// mapHead is the room above the page map for its heading, mm.
const mapHead = 8.0

// mapSize is mm on the page to a mm of the layout in a page map in room.
func mapSize(plan tile.Plan, room geom.Box) float64 {
	all := extent(plan)
	if all.Empty() || room.Empty() {
		return 0
	}
	return math.Max(0, math.Min(room.Width()/all.Width(), (room.Height()-mapHead)/all.Height()))
}

// extent is the box of all sheets, in layout mm, the blank ones included.
func extent(plan tile.Plan) geom.Box {
	var all geom.Box
	for _, s := range plan.Sheets {
		all = all.Union(s.Window)
	}
	return all
}

// pageMap draws the sheets in their places with the pieces on them, and the
// blank ones with broken lines.
func (d *document) pageMap(p *page.Page, room geom.Box) {
	k := mapSize(d.plan, room)
	if k == 0 {
		return
	}
	title := words.T("Page map")
	d.Write(p, page.Words{Text: title, At: room.Min.Add(geom.Vec{Y: 4}), Size: 4.5, Bold: true, Left: true})
	if len(d.plan.Sheets) > 1 {
		text := words.T("Glue the rows first, along the arrows; then row under row")
		if d.plan.Cols == 1 {
			text = words.T("Glue page under page, from the top")
		}
		from := math.Max(24, d.Width(title, 4.5, true)+3)
		d.Write(p, page.Words{Text: text, At: room.Min.Add(geom.Vec{X: from, Y: 4}), Size: d.Fit(text, math.Max(20, room.Width()-from), 3, false), Left: true})
	}
	all := extent(d.plan)
	corner := room.Min.Add(geom.Vec{Y: mapHead})
	m := geom.Translate(corner.Sub(geom.Point{})).Mul(geom.ScaleXY(k, k)).Mul(geom.Translate(geom.Point{}.Sub(all.Min)))
	for r := range d.plan.Rows {
		for c := range d.plan.Cols {
			if s, ok := d.plan.At(r, c); ok {
				p.Frame(onPage(m, s.Own), 0.2, page.Grey(0.45))
			} else {
				p.Frame(onPage(m, d.plan.Blank(r, c)).Grow(-0.7), 0.2, page.Grey(0.6), 1, 1)
			}
		}
	}
	d.rowArrows(p, m)
	for _, q := range d.plan.Pieces {
		p.SetPen(0.2, page.Grey(0.6), nil, 0)
		for i, c := range q.Piece.Outline.Transform(m.Mul(q.At)) {
			if i == 0 {
				p.MoveTo(c.P0)
			}
			p.CubicTo(c)
		}
		p.Op("S")
	}
	for _, s := range d.plan.Sheets {
		b := onPage(m, s.Own)
		size := d.Fit(s.Name, b.Width()*0.7, math.Min(4.5, b.Height()*0.4), true)
		d.Write(p, page.Words{Text: s.Name, At: b.Centre().Add(geom.Vec{Y: size * 0.36}), Size: size, Bold: true})
	}
}

// rowArrows draws along each row of neighbours, from left to right, the way in
// which they are glued. m takes the layout to the page.
func (d *document) rowArrows(p *page.Page, m geom.Affine) {
	grey := page.Grey(0.55)
	for i := 0; i < len(d.plan.Sheets); {
		last := i
		for last+1 < len(d.plan.Sheets) && d.plan.Sheets[last].Beside[tile.Right] == d.plan.Sheets[last+1].Name {
			last++
		}
		if last > i {
			from, to := onPage(m, d.plan.Sheets[i].Own), onPage(m, d.plan.Sheets[last].Own)
			head := math.Min(1.6, from.Height()/8)
			a := geom.Pt(from.Centre().X, from.Max.Y-1.6*head)
			b := geom.Pt(to.Centre().X, a.Y)
			p.Line(a, b, 0.25, grey)
			p.MoveTo(b.Add(geom.Vec{X: -1.5 * head, Y: -head}))
			p.LineTo(b)
			p.LineTo(b.Add(geom.Vec{X: -1.5 * head, Y: head}))
			p.Op("S")
		}
		i = last + 1
	}
}
