package app

import (
	"fmt"
	"io"
	"math"
	"slices"

	"quarterstep/assets"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/printing"
	"quarterstep/printing/pdf"
	"quarterstep/printing/tile"
)

// What a printer leaves white and what neighbouring pages share unless told
// otherwise, mm. Common practice: margins of 6 to 10, overlaps of 10 to 15.
const (
	usualMargin  = 8.0
	usualOverlap = 10.0
)

// PrintSetup reads a paper and the lengths of margin and overlap ("8", "3/8
// in"; empty for the usual). Errors are sentences for the sewist.
func PrintSetup(paper, margin, overlap string) (tile.Setup, error) {
	s := tile.Setup{Margin: usualMargin, Overlap: usualOverlap}
	var err error
	if s.Paper, err = tile.ParsePaper(paper); err != nil {
		return s, err
	}
	for _, l := range []struct {
		name, text string
		to         *float64
	}{{"margin", margin, &s.Margin}, {"overlap", overlap, &s.Overlap}} {
		if l.text == "" {
			continue
		}
		v, err := measure.Parse(l.text, measure.Millimetres)
		if err != nil {
			return s, fmt.Errorf("%s: %w", l.name, err)
		}
		*l.to = v.MM()
	}
	return s, s.Validate()
}

// Job is a pattern laid over sheets, ready to be written.
type Job struct {
	Plan    tile.Plan
	drawing printing.Drawing
	date    string // as written on the pieces
}

// Plan draws p as chosen and lays it over few sheets.
func Plan(p model.Pattern, c PrintChoice, s tile.Setup) (Job, error) {
	d, err := Drawing(p, c)
	if err != nil {
		return Job{}, err
	}
	placed, err := tile.Arrange(d.Pieces, s)
	if err != nil {
		return Job{}, err
	}
	for i := range placed {
		if placed[i].At.A < 0 {
			placed[i].Piece.Labels = upright(placed[i].Piece.Labels)
		}
	}
	return Job{drawing: d, date: c.Date}.lay(placed, s)
}

// upright turns the words of a piece that lies the other way up, so that they
// read from the same side as the rest and take up the same room. The block
// that names the piece, from its bold first line on, turns as one; any other
// word about its own middle.
func upright(labels []printing.Label) []printing.Label {
	const tall = 0.7 // letters above their baseline, in letter heights
	out := slices.Clone(labels)
	first := slices.IndexFunc(out, func(l printing.Label) bool { return l.Bold })
	var middle geom.Point
	if first >= 0 {
		a, b := out[first], out[len(out)-1]
		middle = a.At.Add(geom.Rotate(a.Turn).ApplyVec(geom.Vec{Y: -tall * a.Size})).Lerp(b.At, 0.5)
	}
	for i, l := range out {
		about := middle
		if first < 0 || i < first {
			about = l.At.Add(geom.Rotate(l.Turn).ApplyVec(geom.Vec{Y: -tall / 2 * l.Size}))
		}
		out[i].At = about.Add(about.Sub(l.At))
		out[i].Turn = l.Turn + math.Pi
	}
	return out
}

// Relay is the job with piece i moved by v over the sheets, mm.
func (j Job) Relay(i int, v geom.Vec) (Job, error) {
	placed := slices.Clone(j.Plan.Pieces)
	placed[i].At = geom.Translate(v).Mul(placed[i].At)
	return j.lay(placed, j.Plan.Setup)
}

func (j Job) lay(placed []tile.Placed, s tile.Setup) (Job, error) {
	plan, err := tile.Layout(placed, s)
	if err != nil {
		return Job{}, err
	}
	j.Plan = plan
	return j, nil
}

// Pages is how many pages will be printed.
func (j Job) Pages() int { return j.Plan.Pages() }

// WritePDF writes the pages, true to scale. The same pattern and choice give
// the same bytes.
func (j Job) WritePDF(w io.Writer) error { return j.WritePages(w, nil) }

// WritePages writes the pages of those names, or all where none is named; the
// error names one that is not there.
func (j Job) WritePages(w io.Writer, pages []string) error {
	o := j.options()
	o.Pages = pages
	return pdf.Write(w, j.Plan, o)
}

func (j Job) options() pdf.Options {
	return pdf.Options{
		Title: j.drawing.Title, Note: j.drawing.Note,
		Regular: assets.LatoRegular, Bold: assets.LatoBold,
	}
}
