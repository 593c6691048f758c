package summary

import (
	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/printing/page"
)

// scales are those the pieces can be drawn to: one mm on paper for so many of
// theirs.
var scales = []float64{4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100, 200, 500, 1000}

// The drawings, mm.
const (
	pieceHigh = 62.0 // of the highest piece, at most
	pieceWide = 32.0 // for its name, at least
	pieceGap  = 4.0
	nameHigh  = 9.0
	mostRows  = 2
)

// shelf is a row of pieces side by side.
type shelf struct {
	pieces []Drawing
	high   float64 // of the highest
}

// pieces draws the pieces in rows, as large as two rows allow.
func (d *document) pieces() []block {
	if len(d.s.Pieces) == 0 {
		return nil
	}
	var rows []shelf
	n := 0.0
	for _, n = range scales {
		var fits bool
		if rows, fits = d.shelves(n); fits {
			break
		}
	}
	var out []block
	for i, row := range rows {
		caption := ""
		if i == len(rows)-1 {
			caption = words.F("Drawn at 1 : %g, not to be measured", n)
		}
		out = append(out, d.shelfBlock(row, n, caption))
	}
	return out
}

// room is how wide a piece stands at 1 : n.
func (q Drawing) room(n float64) float64 {
	return max(pieceWide, q.Outline.Bounds().Width()/n) + pieceGap
}

// shelves puts the pieces in rows at 1 : n; false where there are too many rows
// or a piece is too large.
func (d *document) shelves(n float64) (rows []shelf, fits bool) {
	fits = true
	x := d.wide
	for _, q := range d.s.Pieces {
		b := q.Outline.Bounds()
		fits = fits && b.Height()/n <= pieceHigh && b.Width()/n <= d.wide-pieceGap
		if wide := q.room(n); x+wide > d.wide+pieceGap || len(rows) == 0 {
			rows, x = append(rows, shelf{}), 0
		}
		x += q.room(n)
		row := &rows[len(rows)-1]
		row.pieces, row.high = append(row.pieces, q), max(row.high, b.Height()/n)
	}
	return rows, fits && len(rows) <= mostRows
}

func (d *document) shelfBlock(row shelf, n float64, caption string) block {
	high := row.high + nameHigh
	if caption != "" {
		high += lineApart * textSize
	}
	return block{high: high, draw: func(p *page.Page, at geom.Point) {
		x := at.X
		for _, q := range row.pieces {
			d.piece(p, q, geom.Pt(x, at.Y), row.high, n)
			x += q.room(n)
		}
		if caption != "" {
			d.text(p, at.X, at.Y+high-1.2, d.wide, 2.7, false, caption)
		}
	}}
}

// piece draws a piece at 1 : n with its upper left corner at at, and its words
// below the row.
func (d *document) piece(p *page.Page, q Drawing, at geom.Point, high, n float64) {
	b := q.Outline.Bounds()
	m := geom.Translate(geom.Vec(at)).Mul(geom.ScaleXY(1/n, 1/n)).Mul(geom.Translate(geom.Point{}.Sub(b.Min)))
	for _, l := range q.Lines {
		p.SetPen(0.12, page.Grey(0.5), nil, 0)
		stroke(p, l.Transform(m))
	}
	p.SetPen(0.3, page.Black, nil, 0)
	stroke(p, q.Outline.Transform(m))
	wide := q.room(n) - pieceGap
	d.text(p, at.X, at.Y+high+3.6, wide, textSize, true, q.Name)
	d.text(p, at.X, at.Y+high+7.2, wide, 2.8, false, q.Cut)
}

func stroke(p *page.Page, l geom.Path) {
	for i, c := range l {
		if i == 0 {
			p.MoveTo(c.P0)
		}
		p.CubicTo(c)
	}
	p.Op("S")
}
