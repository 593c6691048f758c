package app

import (
	"context"
	"fmt"
	"io"
	"math"
	"slices"

	"quarterstep/assets"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/printing"
	"quarterstep/printing/pdf"
	"quarterstep/printing/svg"
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
	if err := readLengths(typedLength{words.C("of a page", "margin"), margin, &s.Margin}, typedLength{words.C("of a page", "overlap"), overlap, &s.Overlap}); err != nil {
		return s, err
	}
	return s, s.Validate()
}

// ProjectorSetup is s with how a page for a projector looks: white on black with
// dark, lines as wide as line says and squares of square to set the projector by
// ("1", "2 in"; empty for lines as they are and for none). Errors are sentences
// for the sewist.
func ProjectorSetup(s tile.Setup, dark bool, line, square string) (tile.Setup, error) {
	s.Projector.Dark = dark
	if err := readLengths(typedLength{words.C("of a page", "line"), line, &s.Projector.Line}, typedLength{words.C("of a page", "square"), square, &s.Projector.Square}); err != nil {
		return s, err
	}
	return s, s.Validate()
}

// typedLength is a length as typed and where it goes, in mm; empty leaves that
// as it is.
type typedLength struct {
	name, text string
	to         *float64
}

func readLengths(all ...typedLength) error {
	for _, l := range all {
		if l.text == "" {
			continue
		}
		v, err := measure.Parse(l.text, measure.Millimetres)
		if err != nil {
			return fmt.Errorf("%s: %w", l.name, err)
		}
		*l.to = v.MM()
	}
	return nil
}

// Job is a pattern laid over sheets, ready to be written.
type Job struct {
	Plan    tile.Plan
	drawing printing.Drawing
	ids     []string             // of the pieces, in the plan's order
	words   [][][]printing.Label // that may name each piece; see blocks
	asked   tile.Setup           // before a free page had its length
	date    string               // as written on the pieces
}

// Pieces are the IDs of the pieces, in the plan's order.
func (j Job) Pieces() []string { return slices.Clone(j.ids) }

// Plan draws p as chosen and lays it over few sheets.
func Plan(p model.Pattern, c PrintChoice, s tile.Setup) (Job, error) {
	job, err := newJob(context.Background(), p, c, s)
	if err != nil {
		return Job{}, err
	}
	return job.arrange()
}

// newJob draws p as chosen; its pieces are not laid yet.
func newJob(ctx context.Context, p model.Pattern, c PrintChoice, s tile.Setup) (Job, error) {
	ids, err := PrintedPieces(p, c)
	if err != nil {
		return Job{}, err
	}
	j := Job{ids: ids, asked: s, date: c.Date}
	if j.drawing, err = drawing(ctx, p, c); err != nil {
		return Job{}, err
	}
	for _, id := range ids {
		j.words = append(j.words, blocks(p, p.Pieces[p.PieceIndex(id)], j.drawing.Note, c.Date))
	}
	return j, nil
}

// arrange lays the job's pieces over few sheets.
func (j Job) arrange() (Job, error) {
	placed, err := tile.Arrange(j.drawing.Pieces, j.asked)
	if err != nil {
		return Job{}, err
	}
	return j.lay(wordsUpright(placed), j.asked)
}

// wordsUpright turns the words of the pieces that lie the other way up.
func wordsUpright(placed []tile.Placed) []tile.Placed {
	for i := range placed {
		if placed[i].At.A < 0 {
			placed[i].Piece.Labels = upright(placed[i].Piece.Labels)
		}
	}
	return placed
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
	if moved, ok := j.wordsOffJoins(plan); ok {
		if plan, err = tile.Layout(moved, s); err != nil {
			return Job{}, err
		}
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
func (j Job) WritePages(w io.Writer, pages []string) error { return Watch{}.WritePages(j, w, pages) }

// WritePages is Job.WritePages, watched: it ends before the next page.
func (w Watch) WritePages(j Job, to io.Writer, pages []string) error {
	o := j.options()
	o.Pages = pages
	o.Each = w.each
	return pdf.Write(to, j.Plan, o)
}

func (j Job) options() pdf.Options {
	return pdf.Options{
		Title: j.drawing.Title, Note: j.drawing.Note,
		Regular: assets.LatoRegular, Bold: assets.LatoBold,
	}
}

// WriteSVG writes all pieces where they lie as one drawing true to scale,
// without sheets and their marks, for machines that cut and shops that plot.
func (j Job) WriteSVG(w io.Writer) error {
	return svg.Write(w, j.Plan.Pieces, svg.Options{Title: j.drawing.Title, Layer: capital(j.drawing.Note)})
}
