package app

import (
	"context"
	"slices"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/printing"
)

// PrintChoice is what of a pattern goes on paper.
type PrintChoice struct {
	// Pieces are the IDs of the pieces to print, in any order; empty prints all.
	Pieces []string
	// Sizes are chart sizes to print; empty prints the target alone, with the
	// hand corrections in either case.
	Sizes []string
	// WithTarget prints the target beside the Sizes, as the last of them.
	WithTarget bool
	// Nest adds the printed sizes, thin and dashed.
	Nest bool
	// Stitching adds the stitching line where the piece has an allowance.
	Stitching bool
	// Marks adds notches, grain, darts and lines.
	Marks bool
	// Date is written on every piece as it is given; empty writes none.
	Date string
}

// line widths and marks on paper, mm. Common practice: lines of 0.25 to 0.35,
// the line to cut a little stronger.
const (
	cutWidth    = 0.45
	thinWidth   = 0.25
	notchLength = 6.0
	notchGap    = 5.0 // between the two of a double notch
	lengthenGap = 4.0
	arrowHead   = 7.0
	foldDeep    = 12.0 // of the bracket at a fold
	markSize    = 3.5  // letter height of words on lines
)

// dashes tell sizes apart on a printer without colour; the last size of a job
// is solid.
var dashes = [][]float64{{1.8, 2.4}, {5, 2.5}, {9, 2.5, 1.5, 2.5}, {16, 2.5}, {9, 2, 1, 2, 1, 2}, {24, 4, 2, 4}, {3, 4}, {12, 6}}

// Drawing lays out what to print of p: one drawing of every piece chosen in the
// chosen sizes, in the piece's own coordinates and the pattern's order. The
// error names the piece that is not there, or the size that cannot be graded.
func Drawing(p model.Pattern, c PrintChoice) (printing.Drawing, error) {
	return drawing(context.Background(), p, c)
}

// drawing is Drawing until ctx ends.
func drawing(ctx context.Context, p model.Pattern, c PrintChoice) (printing.Drawing, error) {
	chosen, err := c.chosen(p)
	if err != nil {
		return printing.Drawing{}, err
	}
	var g grading.Grader
	results, names, err := printResults(ctx, &g, p, c)
	if err != nil {
		return printing.Drawing{}, err
	}
	out := printing.Drawing{Title: p.Name, Note: sizeNote(p, names)}
	for _, i := range chosen {
		if err := ctx.Err(); err != nil {
			return printing.Drawing{}, err
		}
		d := drawer{p: p, q: p.Pieces[i], names: names, c: c}
		for k, r := range results {
			if err := hasSize(r.Pieces[i], names[k]); err != nil {
				return printing.Drawing{}, err
			}
			d.in = append(d.in, r.Pieces[i])
		}
		out.Pieces = append(out.Pieces, d.draw(out.Note))
	}
	return out, ctx.Err()
}

// hasSize refuses a piece that nobody could cut out, or whose line is no number.
func hasSize(r grading.Piece, size string) error {
	const least = 1.0 // mm each way
	if b := r.Outline().Bounds(); !(b.Width() >= least && b.Height() >= least) {
		return words.Errorf("%s, size %s, has no size to be cut in: it is %s x %s mm; check its lines", r.Name, size, words.Digits(b.Width(), 3), words.Digits(b.Height(), 3))
	}
	return nil
}

// PrintedPieces are the IDs of the pieces that c prints of p, in the order in
// which Drawing and Plan have them. The error names one that is not there.
func PrintedPieces(p model.Pattern, c PrintChoice) ([]string, error) {
	chosen, err := c.chosen(p)
	ids := make([]string, len(chosen))
	for k, i := range chosen {
		ids[k] = p.Pieces[i].ID
	}
	return ids, err
}

// chosen is the indices of the pieces to print.
func (c PrintChoice) chosen(p model.Pattern) ([]int, error) {
	for _, id := range c.Pieces {
		if p.PieceIndex(id) < 0 {
			return nil, words.Errorf("the pattern has no piece %q", id)
		}
	}
	var out []int
	for i, q := range p.Pieces {
		if len(c.Pieces) == 0 || slices.Contains(c.Pieces, q.ID) {
			out = append(out, i)
		}
	}
	return out, nil
}

func printResults(ctx context.Context, g *grading.Grader, p model.Pattern, c PrintChoice) ([]grading.Result, []string, error) {
	if len(c.Sizes) == 0 {
		r, err := g.GradeUntil(ctx, p)
		return []grading.Result{r}, []string{p.Target.NameOn(p.Chart)}, err
	}
	names := c.Sizes
	for _, s := range names {
		if _, ok := p.Chart.Place(s); !ok {
			return nil, nil, noSize(p.Chart, s)
		}
	}
	if !c.WithTarget {
		results, err := g.GradeSizesUntil(ctx, p, names)
		return results, names, err
	}
	r, err := g.GradeUntil(ctx, p)
	if err != nil {
		return nil, nil, err
	}
	last := p.Target.NameOn(p.Chart)
	names = slices.DeleteFunc(slices.Clone(names), func(s string) bool { return s == last })
	results, err := g.GradeSizesUntil(ctx, p, names)
	return append(results, r), append(names, last), err
}

func sizeNote(p model.Pattern, names []string) string {
	note := sizesNamed(names)
	if p.Target.Wearer != "" {
		note = words.F("%s, for %s", note, p.Target.Wearer)
	}
	return note
}

// sizesNamed is "size 46, 48, own measures".
func sizesNamed(names []string) string {
	list := strings.Join(names, ", ")
	if strings.HasPrefix(list, model.OwnMeasures()) {
		return list
	}
	return words.F("size %s", list)
}

// drawer draws one piece in the sizes to print.
type drawer struct {
	p     model.Pattern
	q     model.Piece
	in    []grading.Piece // by size
	names []string        // of the sizes
	c     PrintChoice
	out   printing.Piece
}

// draw draws the piece: the printed nest behind, then every size with its
// stitching line and marks, then words where there is room for them.
func (d *drawer) draw(note string) printing.Piece {
	if d.sameInAll() {
		d.in, d.names = d.in[len(d.in)-1:], d.names[len(d.names)-1:]
	}
	d.out = printing.Piece{Name: d.q.Name, Outline: widest(d.in), Grain: d.q.GrainDir()}
	if d.c.Nest {
		d.nest()
	}
	last := len(d.in) - 1
	for k, r := range d.in {
		d.out.Strokes = append(d.out.Strokes, printing.Stroke{Path: r.Outline(), Width: cutWidth, Dash: d.dash(k), Layer: d.layer(k), Cut: true})
		if d.c.Stitching {
			d.stitching(k)
		}
	}
	if d.c.Marks {
		for k, r := range d.in {
			m := marks{piece: &d.out, q: d.q, r: r, layer: d.layer(k)}
			m.draw(k == last)
		}
	}
	d.sizeNames()
	d.out.Labels = append(d.out.Labels, pieceWords(d.out, blocks(d.p, d.q, note, d.c.Date))...)
	return d.out
}

// sameInAll reports that the piece has one line for all the sizes to print.
func (d *drawer) sameInAll() bool {
	last := d.in[len(d.in)-1].Outline()
	return !slices.ContainsFunc(d.in, func(r grading.Piece) bool { return !sameLine(r.Outline(), last) })
}

// sameLine reports that two lines are drawn alike, within a hundredth of a
// millimetre.
func sameLine(a, b geom.Path) bool {
	const same = 0.01
	return slices.EqualFunc(a.Controls(), b.Controls(), func(p, q geom.Point) bool { return p.Dist(q) <= same })
}

// layer is the layer of size k: none where one size is printed.
func (d *drawer) layer(k int) string {
	if len(d.in) == 1 {
		return ""
	}
	return capital(sizesNamed(d.names[k : k+1]))
}

// dash is how the line of size k is broken: the last is solid.
func (d *drawer) dash(k int) []float64 {
	if k == len(d.in)-1 {
		return nil
	}
	return dashes[k%len(dashes)]
}

// nest draws the printed sizes.
func (d *drawer) nest() {
	for k, o := range d.q.Nest {
		if d.drawn(o) {
			continue
		}
		d.out.Strokes = append(d.out.Strokes, printing.Stroke{
			Path: geom.Join(o.Edges...), Width: thinWidth, Dash: dashes[k%len(dashes)], Ink: nestInk, Layer: nestLayer(o),
		})
	}
}

// drawn reports that a printed size is among the sizes to print, as it was
// printed: it is not drawn twice.
func (d *drawer) drawn(o model.Outline) bool {
	line := geom.Join(o.Edges...)
	return slices.ContainsFunc(d.in, func(r grading.Piece) bool { return sameLine(r.Outline(), line) })
}

func nestLayer(o model.Outline) string { return words.F("Printed size %s", o.Label()) }

// nestInk is the grey of the printed sizes.
var nestInk = printing.Ink{R: 0.45, G: 0.45, B: 0.45}

// widest is the outline with the largest box: the one that needs most paper.
func widest(in []grading.Piece) geom.Path {
	var best geom.Path
	area := -1.0
	for _, r := range in {
		o := r.Outline()
		if b := o.Bounds(); b.Width()*b.Height() > area {
			best, area = o, b.Width()*b.Height()
		}
	}
	return best
}

// stitching draws the line to sew on in size k, where the printed line has an
// allowance.
func (d *drawer) stitching(k int) {
	sewn, err := StitchingLine(d.q, d.in[k])
	if err != nil {
		return // too narrow for its allowance: the cutting line alone is printed
	}
	for j, e := range sewn {
		if d.q.Edges[j].Allowance > 0 {
			d.out.Strokes = append(d.out.Strokes, printing.Stroke{Path: e, Width: thinWidth, Dash: []float64{3, 2}, Layer: d.layer(k)})
		}
	}
}

// StitchingLine is the graded outline less the seam allowance of each edge.
// It fails where the piece is too narrow for its allowances; the error names
// the piece.
func StitchingLine(q model.Piece, r grading.Piece) ([]geom.Path, error) {
	in := make([]float64, len(q.Edges))
	for j, e := range q.Edges {
		in[j] = -e.Allowance
	}
	edges := r.Edges
	sewn, err := geom.OffsetOutline(edges, in, 0.005)
	if err != nil {
		return nil, words.Errorf("drawing the stitching line of %s: %w", q.Name, err)
	}
	return sewn, nil
}
