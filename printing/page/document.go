package page

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"io"
	"time"

	"github.com/jung-kurt/gofpdf"

	"quarterstep/assets/words"
	"quarterstep/printing"
)

// Options are what a document is begun with.
type Options struct {
	Title string
	// Date is written into the file; the zero Date stands for the first day of
	// 2000, so that the same pages give the same bytes.
	Date       time.Time
	Wide, High float64 // of every page, mm
	// Regular and Bold are the fonts' TrueType bytes; both are needed.
	Regular, Bold []byte
}

// Document is a PDF under way.
type Document struct {
	f             *gofpdf.Fpdf
	wide, high    float64
	regular, bold *typeface
}

// New begins a document without pages. It fails on a font that cannot be read.
func New(o Options) (*Document, error) {
	size := gofpdf.SizeType{Wd: o.Wide, Ht: o.High}
	f := gofpdf.NewCustom(&gofpdf.InitType{OrientationStr: "P", UnitStr: "mm", Size: size})
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.SetLineJoinStyle("round")
	f.SetLineCapStyle("butt")
	f.SetCatalogSort(true)
	f.SetCompression(false) // finish packs the pages
	date := o.Date
	if date.IsZero() {
		date = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	f.SetCreationDate(date)
	f.SetModificationDate(date)
	f.SetTitle(textString(o.Title), false)
	f.SetCreator("Quarterstep", true)
	f.SetProducer("Quarterstep", true)
	d := &Document{f: f, wide: o.Wide, high: o.High}
	var err error
	if d.regular, err = face(f, "", o.Regular); err != nil {
		return nil, words.Errorf("reading the regular font: %w", err)
	}
	if d.bold, err = face(f, "B", o.Bold); err != nil {
		return nil, words.Errorf("reading the bold font: %w", err)
	}
	return d, nil
}

// AddPage starts a page. A page that lies on its side is wider than high, not
// turned: the writer's own landscape puts things off the page.
func (d *Document) AddPage() *Page {
	d.f.AddPageFormat("P", gofpdf.SizeType{Wd: d.wide, Ht: d.high})
	p := &Page{f: d.f, high: d.high, sum: sha256.New()}
	fmt.Fprintf(p.sum, "%g x %g mm\n", d.wide, d.high)
	return p
}

// AddLayer makes a layer that viewers can hide, and gives its number.
func (d *Document) AddLayer(name string) int { return d.f.AddLayer(plainName(name), true) }

// OpenLayerPane asks viewers to show the list of layers.
func (d *Document) OpenLayerPane() { d.f.OpenLayerPane() }

// Output writes the document; every page must have been flushed.
func (d *Document) Output(w io.Writer) error {
	var raw bytes.Buffer
	if err := d.f.Output(&raw); err != nil {
		return err
	}
	out, err := finish(raw.Bytes())
	if err != nil {
		return err
	}
	_, err = w.Write(out)
	return err
}

// Black is the zero Ink.
var Black printing.Ink

// Grey is an ink from black, 0, to white, 1.
func Grey(level float64) printing.Ink { return printing.Ink{R: level, G: level, B: level} }
