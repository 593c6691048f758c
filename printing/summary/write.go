package summary

import (
	"fmt"
	"io"

	"quarterstep/assets/words"
	"quarterstep/model/geom"
	"quarterstep/printing/page"
)

// The page, mm. Common practice: printers leave 6 to 10 white.
const (
	margin    = 14.0
	headHigh  = 20.0 // of the first page's head
	laterHigh = 8.0  // of the later ones'
	footHigh  = 6.0
	leastWide = 180.0
	leastHigh = 250.0

	titleSize = 4.6 // letter heights
	textSize  = 3.3
	lineApart = 1.36 // of lines of words, in letter heights
	partApart = 4.5
	indent    = 5.0 // of numbered points
)

// Write writes the summary. Errors name the piece that cannot be drawn, the
// paper that is too small, or the font that cannot be read.
func Write(w io.Writer, s Summary, o Options) error {
	if err := write(w, s, o); err != nil {
		return words.Errorf("writing the summary: %w", err)
	}
	return nil
}

func write(w io.Writer, s Summary, o Options) error {
	if !(o.Paper.Width >= leastWide && o.Paper.Height >= leastHigh) {
		return words.Errorf("paper %s is too small: use A4 or Letter", o.Paper.Said())
	}
	if err := s.check(); err != nil {
		return err
	}
	f, err := page.New(page.Options{
		Title: words.F("%s, summary", s.Title), Wide: o.Paper.Width, High: o.Paper.Height, Regular: o.Regular, Bold: o.Bold,
	})
	if err != nil {
		return err
	}
	d := &document{Document: f, s: s, wide: o.Paper.Width - 2*margin, high: o.Paper.Height}
	d.draw()
	return f.Output(w)
}

// document is a summary under way.
type document struct {
	*page.Document
	s          Summary
	wide, high float64 // between the margins; of the paper
}

// block is what stays together on a page; keep: and with the block after it.
type block struct {
	high float64
	keep bool
	draw func(p *page.Page, at geom.Point) // at is its upper left corner
}

// draw lays the blocks over pages and draws them.
func (d *document) draw() {
	pages := d.laidOut(d.blocks())
	for n, blocks := range pages {
		p := d.AddPage()
		y := margin + d.head(p, n)
		for _, b := range blocks {
			b.draw(p, geom.Pt(margin, y))
			y += b.high
		}
		d.foot(p, n, len(pages))
		p.Flush()
	}
}

// laidOut gives each page its blocks: a block begins a page where it, with
// those it is kept with, has no room.
func (d *document) laidOut(blocks []block) [][]block {
	pages := [][]block{nil}
	left := d.room(0)
	for i := 0; i < len(blocks); {
		n, high := 1, blocks[i].high
		for blocks[i+n-1].keep && i+n < len(blocks) {
			high += blocks[i+n].high
			n++
		}
		last := len(pages) - 1
		if high > left && len(pages[last]) > 0 {
			pages, left = append(pages, nil), d.room(last+1)
			last++
		}
		pages[last] = append(pages[last], blocks[i:i+n]...)
		left -= high
		i += n
	}
	return pages
}

// room is the height for blocks on page n, counted from 0.
func (d *document) room(n int) float64 {
	head := headHigh
	if n > 0 {
		head = laterHigh
	}
	return d.high - 2*margin - head - footHigh
}

// blocks are the pieces and all the parts.
func (d *document) blocks() []block {
	out := d.pieces()
	for _, part := range d.s.Parts {
		if part.empty() {
			continue
		}
		title := part.Title
		out = append(out, block{high: partApart + 1.7*titleSize, keep: true, draw: func(p *page.Page, at geom.Point) {
			d.text(p, at.X, at.Y+partApart+titleSize, d.wide, titleSize, true, title)
		}})
		out = append(out, d.table(part.Table)...)
		for _, s := range part.Text {
			out = append(out, d.paragraph(s, 0, ""))
		}
		for i, s := range part.Points {
			out = append(out, d.paragraph(s, indent, fmt.Sprint(i+1)))
		}
	}
	return out
}

// paragraph is words in as many lines as they take, with a number before them
// where they have one.
func (d *document) paragraph(s string, in float64, number string) block {
	lines := d.Wrap(s, d.wide-in, textSize)
	high := float64(len(lines))*lineApart*textSize + 0.4*textSize
	return block{high: high, draw: func(p *page.Page, at geom.Point) {
		y := at.Y + textSize
		if number != "" {
			d.text(p, at.X, y, in, textSize, true, number)
		}
		for _, l := range lines {
			d.text(p, at.X+in, y, d.wide-in, textSize, false, l)
			y += lineApart * textSize
		}
	}}
}

// text writes words with their left end at (x, y), no wider than wide.
func (d *document) text(p *page.Page, x, y, wide, size float64, bold bool, s string) {
	d.Write(p, page.Words{Text: s, At: geom.Pt(x, y), Size: d.Fit(s, wide, size, bold), Bold: bold, Left: true})
}

// right writes words that end at x.
func (d *document) right(p *page.Page, x, y, size float64, ink float64, s string) {
	d.Write(p, page.Words{Text: s, At: geom.Pt(x-d.Width(s, size, false), y), Size: size, Left: true, Ink: page.Grey(ink)})
}

// head writes the head of page n and says how high it is.
func (d *document) head(p *page.Page, n int) float64 {
	x, y, far := margin, margin, margin+d.wide
	if n > 0 {
		d.text(p, x, y+3, d.wide*0.8, textSize, true, d.s.Title)
		p.Line(geom.Pt(x, y+4.5), geom.Pt(far, y+4.5), 0.15, page.Grey(0.6))
		return laterHigh
	}
	const beside = 42.0
	d.text(p, x, y+7, d.wide-beside, 8, true, d.s.Title)
	d.text(p, x, y+13.5, d.wide, 4.2, false, d.s.Line)
	d.right(p, far, y+3, textSize, 0.3, words.T("Summary"))
	if d.s.Date != "" {
		d.right(p, far, y+7.5, d.Fit(d.s.Date, beside, textSize, false), 0.3, d.s.Date)
	}
	p.Line(geom.Pt(x, y+16.5), geom.Pt(far, y+16.5), 0.2, page.Grey(0.4))
	return headHigh
}

func (d *document) foot(p *page.Page, n, of int) {
	d.right(p, margin+d.wide, d.high-margin, 2.8, 0.3, words.F("page %d of %d", n+1, of))
}
