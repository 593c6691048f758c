package pdf

import (
	"io"
	"math"
	"slices"
	"strings"
	"time"

	"quarterstep/assets/words"
	"quarterstep/printing"
	"quarterstep/printing/page"
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
	// Pages are the pages to write, by the names that Plan.PageNames gives;
	// empty is all of them. They are written in the plan's order.
	Pages []string
	// Each is asked before each page, and hears how many of how many are drawn; its
	// error ends the work. Nil asks nobody.
	Each func(done, of int) error
}

// Write writes the plan as a PDF: the cover page where the plan has one, then
// its sheets in order. Errors name the piece whose line cannot be drawn, the
// page that is not there, or the font that cannot be read.
func Write(w io.Writer, plan tile.Plan, o Options) error {
	d, err := drawn(plan, o)
	if err != nil {
		return words.Errorf("writing the PDF: %w", err)
	}
	if err := d.Output(w); err != nil {
		return words.Errorf("writing the PDF: %w", err)
	}
	return nil
}

// Mark is a page's name and a fingerprint of what is printed on it.
type Mark struct{ Page, Print string }

// Marks are the marks of the pages that Write would write. A page whose mark is
// another than at the last print has changed.
func Marks(plan tile.Plan, o Options) ([]Mark, error) {
	d, err := drawn(plan, o)
	if err != nil {
		return nil, words.Errorf("comparing the pages: %w", err)
	}
	return d.marks, nil
}

// drawn is the document with its pages drawn.
func drawn(plan tile.Plan, o Options) (*document, error) {
	if err := plan.Setup.Validate(); err != nil {
		return nil, err
	}
	for _, name := range o.Pages {
		if !slices.Contains(plan.PageNames(), name) {
			return nil, words.Errorf("there is no page %s: choose from %s", name, strings.Join(plan.PageNames(), ", "))
		}
	}
	d, err := newDocument(plan, o)
	if err != nil {
		return nil, err
	}
	if plan.Cover() && d.wanted(tile.CoverName) {
		if err := d.each(); err != nil {
			return nil, err
		}
		d.cover()
	}
	for _, s := range plan.Sheets {
		if !d.wanted(s.Name) {
			continue
		}
		if err := d.each(); err != nil {
			return nil, err
		}
		d.sheet(s)
	}
	return d, nil
}

// each asks whether the next page is to be drawn.
func (d *document) each() error {
	if d.o.Each == nil {
		return nil
	}
	of := len(d.o.Pages)
	if of == 0 {
		of = len(d.plan.PageNames())
	}
	return d.o.Each(len(d.marks), of)
}

func (d *document) wanted(page string) bool {
	return len(d.o.Pages) == 0 || slices.Contains(d.o.Pages, page)
}

// end finishes a page.
func (d *document) end(p *page.Page, name string) {
	p.Flush()
	d.marks = append(d.marks, Mark{name, p.Mark()})
}

// document is a PDF under way.
type document struct {
	*page.Document
	plan  tile.Plan
	o     Options
	lines []line // by layer, the lines without one first
	marks []Mark // of the pages drawn
	// layers are the layers' numbers by name. Words in a layer that no line is
	// in are always shown.
	layers map[string]int
}

func newDocument(plan tile.Plan, o Options) (*document, error) {
	wide, high := plan.Setup.Size()
	f, err := page.New(page.Options{
		Title: title(o), Date: o.Date, Wide: wide, High: high, Regular: o.Regular, Bold: o.Bold,
	})
	if err != nil {
		return nil, err
	}
	d := &document{Document: f, plan: plan, o: o}
	return d, d.layOut()
}

func title(o Options) string {
	switch {
	case o.Title == "":
		return words.T("Pattern")
	case o.Note == "":
		return o.Title
	}
	return o.Title + ", " + o.Note
}

// layOut prepares all lines and makes the layers, in the order in which the
// pieces first name them.
func (d *document) layOut() error {
	d.layers = map[string]int{}
	byLayer := [][]line{nil} // the first: lines always shown
	for _, p := range d.plan.Pieces {
		for _, l := range p.Piece.Labels {
			if err := checkLabel(l); err != nil {
				return words.Errorf("drawing %s: %w", p.Piece.Name, err)
			}
		}
		for _, s := range p.Piece.Strokes {
			id := -1
			if s.Layer != "" {
				known, ok := d.layers[s.Layer]
				if !ok {
					known = d.AddLayer(s.Layer)
					d.layers[s.Layer] = known
					byLayer = append(byLayer, nil)
				}
				id = known
			}
			l, err := newLine(p, d.look(s), id)
			if err != nil {
				return err
			}
			byLayer[id+1] = append(byLayer[id+1], l)
		}
	}
	for _, lines := range byLayer {
		d.lines = append(d.lines, lines...)
	}
	if len(d.layers) > 0 {
		d.OpenLayerPane()
	}
	return nil
}

// drawLines draws every line in the sheet's window.
func (d *document) drawLines(p *page.Page, s tile.Sheet) {
	m := d.plan.OnPage(s)
	open := -1
	for i := range d.lines {
		l := &d.lines[i]
		if !l.box.Intersects(s.Window) {
			continue
		}
		if l.layer != open {
			if open >= 0 {
				p.EndLayer()
			}
			if open = l.layer; open >= 0 {
				p.Layer(open)
			}
		}
		l.draw(p, m, s.Window)
	}
	if open >= 0 {
		p.EndLayer()
	}
}

// drawLabels writes the pieces' words.
func (d *document) drawLabels(p *page.Page, s tile.Sheet) {
	m := d.plan.OnPage(s)
	clip := onPage(m, s.Window)
	for _, q := range d.plan.Pieces {
		for _, l := range q.Piece.Labels {
			id, layered := d.layers[l.Layer]
			if layered {
				p.Layer(id)
			}
			d.Write(p, page.Words{
				Text: l.Text, At: m.Apply(q.At.Apply(l.At)), Size: l.Size, Bold: l.Bold,
				Turn: l.Turn + turnOf(q.At), Ink: d.ink(l.Ink), Clip: clip,
			})
			if layered {
				p.EndLayer()
			}
		}
	}
}

// checkLabel refuses what cannot be written down in a PDF.
func checkLabel(l printing.Label) error {
	if !(l.Size > 0) || math.IsInf(l.Size, 0) || !l.At.Finite() || math.IsNaN(l.Turn) || math.IsInf(l.Turn, 0) {
		return words.Errorf("the words %q have no ordinary size or place", l.Text)
	}
	return nil
}
