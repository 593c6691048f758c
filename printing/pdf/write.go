package pdf

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"time"

	"github.com/jung-kurt/gofpdf"

	"quarterstep/printing"
	"quarterstep/printing/tile"
)

// Options are what the plan does not know.
type Options struct {
	Title string // of the pattern
	Note  string // size and wearer
	// Date is written into the file; the zero Date stands for the first day of
	// 2000, so that the same plan gives the same bytes.
	Date time.Time
	// Regular and Bold are the fonts' TrueType bytes; both are needed.
	Regular, Bold []byte
}

// Write writes the plan as a PDF: the cover page where the plan has one, then
// its sheets in order. Errors name the piece whose line cannot be drawn, or
// the font that cannot be read.
func Write(w io.Writer, plan tile.Plan, o Options) error {
	if err := plan.Setup.Validate(); err != nil {
		return fmt.Errorf("writing the PDF: %w", err)
	}
	d, err := newDocument(plan, o)
	if err != nil {
		return fmt.Errorf("writing the PDF: %w", err)
	}
	if plan.Cover() {
		d.cover()
	}
	for _, s := range plan.Sheets {
		d.sheet(s)
	}
	var raw bytes.Buffer
	if err := d.f.Output(&raw); err != nil {
		return fmt.Errorf("writing the PDF: %w", err)
	}
	out, err := finish(raw.Bytes())
	if err != nil {
		return fmt.Errorf("writing the PDF: %w", err)
	}
	if _, err := w.Write(out); err != nil {
		return fmt.Errorf("writing the PDF: %w", err)
	}
	return nil
}

// document is a PDF under way.
type document struct {
	f     *gofpdf.Fpdf
	plan  tile.Plan
	o     Options
	fonts fonts
	lines []line // by layer, the lines without one first
}

func newDocument(plan tile.Plan, o Options) (*document, error) {
	wide, high := plan.Setup.Size()
	size := gofpdf.SizeType{Wd: wide, Ht: high}
	d := &document{plan: plan, o: o, f: gofpdf.NewCustom(&gofpdf.InitType{OrientationStr: "P", UnitStr: "mm", Size: size})}
	d.f.SetAutoPageBreak(false, 0)
	d.f.SetMargins(0, 0, 0)
	d.f.SetLineJoinStyle("round")
	d.f.SetLineCapStyle("butt")
	d.f.SetCatalogSort(true)
	d.f.SetCompression(false) // finish packs the pages
	date := o.Date
	if date.IsZero() {
		date = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	d.f.SetCreationDate(date)
	d.f.SetModificationDate(date)
	d.f.SetTitle(title(o), true)
	d.f.SetCreator("Quarterstep", true)
	d.f.SetProducer("Quarterstep", true)
	if err := d.loadFonts(o); err != nil {
		return nil, err
	}
	return d, d.layOut()
}

func title(o Options) string {
	switch {
	case o.Title == "":
		return "Pattern"
	case o.Note == "":
		return o.Title
	}
	return o.Title + ", " + o.Note
}

// layOut prepares all lines and makes the layers, in the order in which the
// pieces first name them.
func (d *document) layOut() error {
	ids := map[string]int{}
	byLayer := [][]line{nil} // the first: lines always shown
	for _, p := range d.plan.Pieces {
		for _, l := range p.Piece.Labels {
			if err := checkLabel(l); err != nil {
				return fmt.Errorf("drawing %s: %w", p.Piece.Name, err)
			}
		}
		for _, s := range p.Piece.Strokes {
			id := -1
			if s.Layer != "" {
				known, ok := ids[s.Layer]
				if !ok {
					known = d.f.AddLayer(s.Layer, true)
					ids[s.Layer] = known
					byLayer = append(byLayer, nil)
				}
				id = known
			}
			l, err := newLine(p, s, id)
			if err != nil {
				return err
			}
			byLayer[id+1] = append(byLayer[id+1], l)
		}
	}
	for _, lines := range byLayer {
		d.lines = append(d.lines, lines...)
	}
	if len(ids) > 0 {
		d.f.OpenLayerPane()
	}
	return nil
}

// newPage starts a page. Sheets that lie on their side are pages wider than
// high, not turned ones: the writer's own landscape puts things off the page.
func (d *document) newPage() *page {
	wide, high := d.plan.Setup.Size()
	d.f.AddPageFormat("P", gofpdf.SizeType{Wd: wide, Ht: high})
	return &page{f: d.f, high: high}
}

// drawLines draws every line in the sheet's window.
func (d *document) drawLines(p *page, s tile.Sheet) {
	m := d.plan.OnPage(s)
	open := -1
	for i := range d.lines {
		l := &d.lines[i]
		if !l.box.Intersects(s.Window) {
			continue
		}
		if l.layer != open {
			if open >= 0 {
				p.endLayer()
			}
			if open = l.layer; open >= 0 {
				p.layer(open)
			}
		}
		l.draw(p, m, s.Window)
	}
	if open >= 0 {
		p.endLayer()
	}
}

// drawLabels writes the pieces' words.
func (d *document) drawLabels(p *page, s tile.Sheet) {
	m := d.plan.OnPage(s)
	clip := onPage(m, s.Window)
	for _, q := range d.plan.Pieces {
		for _, l := range q.Piece.Labels {
			d.write(p, words{
				text: l.Text, at: m.Apply(q.At.Apply(l.At)), size: l.Size, bold: l.Bold,
				turn: l.Turn + turnOf(q.At), clip: clip,
			})
		}
	}
}

// checkLabel refuses what cannot be written down in a PDF.
func checkLabel(l printing.Label) error {
	if !(l.Size > 0) || math.IsInf(l.Size, 0) || !l.At.Finite() || math.IsNaN(l.Turn) || math.IsInf(l.Turn, 0) {
		return fmt.Errorf("the words %q have no ordinary size or place", l.Text)
	}
	return nil
}

// black is the zero Ink.
var black printing.Ink

func grey(level float64) printing.Ink { return printing.Ink{R: level, G: level, B: level} }
