package pdf

import (
	"fmt"
	"unicode"
	"unicode/utf8"

	"quarterstep/assets/words"
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

// cover draws the page before the sheets: the scale check, rulers and the page
// map.
func (d *document) cover() {
	p := d.AddPage()
	s := d.plan.Setup
	wide, high := s.Size()
	room := geom.Box{Min: geom.Pt(s.Margin, s.Margin), Max: geom.Pt(wide-s.Margin, high-s.Margin)}
	panel := geom.Box{Min: room.Min, Max: room.Min.Add(geom.Vec{X: tile.PanelWidth, Y: tile.PanelHeight})}
	d.panel(p, panel)
	if room.Max.X-panel.Max.X >= rulerBroad+2 {
		d.rulerDown(p, geom.Box{Min: geom.Pt(room.Max.X-rulerBroad, room.Min.Y), Max: room.Max})
		room.Max.X -= rulerBroad + 4
	}
	below := geom.Box{Min: geom.Pt(room.Min.X, panel.Max.Y+5), Max: room.Max}
	beside := geom.Box{Min: geom.Pt(panel.Max.X+8, room.Min.Y), Max: room.Max}
	if mapSize(d.plan, beside) > mapSize(d.plan, below) {
		below = beside
	}
	d.pageMap(p, below)
	d.end(p, tile.CoverName)
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
		name = words.T("Pattern")
	}
	line(0, 7.5, 8, true, name)
	if d.o.Note != "" {
		line(0, 14, 4.5, false, sentence(d.o.Note))
	}
	line(0, 19.5, 3.4, false, d.summary())
	line(0, 28, 4.5, true, words.T("Check the scale before you cut"))
	d.scaleCheck(p, at(0, 31))
	d.advice(p, geom.Box{Min: at(squareInch+8, 31+cardHigh+6), Max: at(tile.PanelWidth, tile.PanelHeight-rulerBroad-4)})
	d.rulerAcross(p, geom.Box{Min: at(0, tile.PanelHeight-rulerBroad), Max: at(tile.PanelWidth, tile.PanelHeight)})
}

// sentence is s with a capital at its start.
func sentence(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}

// summary says how many pages there are and which are left out.
func (d *document) summary() string {
	pl := d.plan
	paper := words.F("%s, upright", pl.Setup.Paper.Said())
	if w, h := pl.Setup.Size(); w > h {
		paper = words.F("%s, on its side", pl.Setup.Paper.Said())
	}
	n := len(pl.Sheets)
	if n == 0 {
		return words.F("%s. No pieces to print yet.", paper)
	}
	text := words.N(n, "%d pattern page of %s: %d across, %d down.", "%d pattern pages of %s: %d across, %d down.", n, paper, pl.Cols, pl.Rows)
	if blank := pl.Rows*pl.Cols - n; blank > 0 {
		text += " " + words.N(blank, "%d blank page left out.", "%d blank pages left out.", blank)
	}
	return text
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
		d.Write(p, page.Words{Text: text, At: b.Centre().Add(geom.Vec{Y: dy}), Size: d.Fit(text, b.Width()-4, size, bold), Bold: bold})
	}
	in(mm, 0, 6, true, words.T("50 mm"))
	in(mm, 6, 3, false, words.T("each way"))
	in(inch, 0, 6, true, words.T("2 in"))
	in(inch, 6, 3, false, words.T("each way"))
	in(card, 0, 4, true, words.T("Bank card"))
	in(card, 5, 3, false, words.T("A card laid here covers the line exactly"))
}

// advice is what to know before cutting. Common practice.
var advice = []words.Text{
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
			wrapped := d.Wrap(a.String(), b.Width()-indent, size)
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
