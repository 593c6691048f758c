package pdf

import (
	"fmt"
	"math"
	"unicode"
	"unicode/utf8"

	"quarterstep/model/geom"
	"quarterstep/printing/page"
	"quarterstep/printing/tile"
)

// the scale check: two squares (common practice) and a bank card (ISO/IEC
// 7810, ID-1: 85.60 x 53.98 mm, corners of 3.18 mm).
const (
	squareMM   = 50.0
	squareInch = 2 * 25.4
	cardWide   = 85.60
	cardHigh   = 53.98
	cardCorner = 3.18
	checkLine  = 0.2
)

// cover draws the page before the sheets: the scale check and the page map.
func (d *document) cover() {
	p := d.AddPage()
	s := d.plan.Setup
	wide, high := s.Size()
	room := geom.Box{Min: geom.Pt(s.Margin, s.Margin), Max: geom.Pt(wide-s.Margin, high-s.Margin)}
	panel := geom.Box{Min: room.Min, Max: room.Min.Add(geom.Vec{X: tile.PanelWidth, Y: tile.PanelHeight})}
	d.panel(p, panel)
	below := geom.Box{Min: geom.Pt(room.Min.X, panel.Max.Y+5), Max: room.Max}
	beside := geom.Box{Min: geom.Pt(panel.Max.X+8, room.Min.Y), Max: room.Max}
	if mapSize(d.plan, beside) > mapSize(d.plan, below) {
		below = beside
	}
	d.pageMap(p, below)
	p.Flush()
}

// panel draws the title, the scale check and the words, from the upper left
// corner of b.
func (d *document) panel(p *page.Page, b geom.Box) {
	at := func(x, y float64) geom.Point { return b.Min.Add(geom.Vec{X: x, Y: y}) }
	line := func(x, y, size float64, bold bool, text string) {
		d.Write(p, page.Words{Text: text, At: at(x, y), Size: d.Fit(text, tile.PanelWidth-x, size, bold), Bold: bold, Left: true})
	}
	name := d.o.Title
	if name == "" {
		name = "Pattern"
	}
	line(0, 7.5, 8, true, name)
	if d.o.Note != "" {
		line(0, 14, 4.5, false, sentence(d.o.Note))
	}
	line(0, 19.5, 3.4, false, d.summary())
	line(0, 28, 4.5, true, "Check the scale before you cut")
	d.scaleCheck(p, at(0, 31))
	d.advice(p, geom.Box{Min: at(squareInch+8, 31+cardHigh+6), Max: at(tile.PanelWidth, tile.PanelHeight)})
}

// sentence is s with a capital at its start.
func sentence(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}

// summary says how many pages there are and which are left out.
func (d *document) summary() string {
	pl := d.plan
	lie := "upright"
	if w, h := pl.Setup.Size(); w > h {
		lie = "on its side"
	}
	paper := fmt.Sprintf("%s, %s", pl.Setup.Paper.Name, lie)
	if len(pl.Sheets) == 0 {
		return paper + ". No pieces to print yet."
	}
	text := fmt.Sprintf("%s of %s: %d across, %d down.", count(len(pl.Sheets), "pattern page"), paper, pl.Cols, pl.Rows)
	if n := pl.Rows*pl.Cols - len(pl.Sheets); n > 0 {
		text += fmt.Sprintf(" %s left out.", count(n, "blank page"))
	}
	return text
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// scaleCheck draws the squares and the card, corrected like the pattern.
func (d *document) scaleCheck(p *page.Page, at geom.Point) {
	kx, ky := d.plan.Setup.Printer.Scale()
	sized := func(x, y, w, h float64) geom.Box {
		from := at.Add(geom.Vec{X: x, Y: y})
		return geom.Box{Min: from, Max: from.Add(geom.Vec{X: w * kx, Y: h * ky})}
	}
	mm, inch := sized(0, 0, squareMM, squareMM), sized(0, cardHigh+6, squareInch, squareInch)
	card := sized(squareInch+8, 0, cardWide, cardHigh)
	p.Frame(mm, checkLine, page.Black)
	p.Frame(inch, checkLine, page.Black)
	p.SetPen(checkLine, page.Black, nil, 0)
	p.Rounded(card, cardCorner*kx, cardCorner*ky)
	p.Op("S")
	in := func(b geom.Box, dy, size float64, bold bool, text string) {
		d.Write(p, page.Words{Text: text, At: b.Centre().Add(geom.Vec{Y: dy}), Size: size, Bold: bold})
	}
	in(mm, 0, 6, true, "50 mm")
	in(mm, 6, 3, false, "each way")
	in(inch, 0, 6, true, "2 in")
	in(inch, 6, 3, false, "each way")
	in(card, 0, 4, true, "Bank card")
	in(card, 5, 3, false, "A card laid here covers the line exactly")
}

// advice is what to know before cutting. Common practice.
var advice = []string{
	"Print at 100 % (\"actual size\"), on one side only, with \"fit to page\" off.",
	"Measure both squares with a ruler before you cut anything. If they are out, type what you read under Scale check and print again.",
	"Trim each page along its broken lines, on the left and above. Lay it on its neighbours so that the joining buttons become whole, and glue. Join each row from left to right, then row under row.",
	"Sew a toile first: a size that was not printed is worked out, and nobody has worn it yet.",
	"A bought pattern is licensed for your own use, and so are the sizes made from it. Keep these pages to yourself.",
	"For children: nightwear and drawstrings fall under safety rules. See the ones of your country.",
}

// advice writes the points in b, in smaller letters where they need it.
func (d *document) advice(p *page.Page, b geom.Box) {
	const indent = 4
	var lines [][]string
	size := 4.2
	for ; size > 2; size -= 0.1 {
		n := 0
		lines = lines[:0]
		for _, a := range advice {
			wrapped := d.Wrap(a, b.Width()-indent, size)
			lines = append(lines, wrapped)
			n += len(wrapped)
		}
		if float64(n)*size*1.28+float64(len(advice))*size*0.45 <= b.Height() {
			break
		}
	}
	y := b.Min.Y + size*0.8
	for i, wrapped := range lines {
		d.Write(p, page.Words{Text: fmt.Sprint(i + 1), At: geom.Pt(b.Min.X, y), Size: size, Bold: true, Left: true})
		for _, l := range wrapped {
			d.Write(p, page.Words{Text: l, At: geom.Pt(b.Min.X+indent, y), Size: size, Left: true})
			y += size * 1.28
		}
		y += size * 0.45
	}
}

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
	d.Write(p, page.Words{Text: "Page map", At: room.Min.Add(geom.Vec{Y: 4}), Size: 4.5, Bold: true, Left: true})
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
