package app

import (
	"fmt"
	"math"
	"strings"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/printing"
)

// PrintChoice is what of a pattern goes on paper.
type PrintChoice struct {
	// Sizes are chart sizes to print; empty prints the target alone, with the
	// hand corrections in either case.
	Sizes []string
	// Nest adds the printed sizes, thin and dashed.
	Nest bool
	// Stitching adds the stitching line where the piece has an allowance.
	Stitching bool
	// Marks adds notches, grain, darts and lines.
	Marks bool
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
	nameSize    = 7.0 // letter height
	wordSize    = 4.5
)

// dashes tell sizes apart on a printer without colour; the last size of a job
// is solid.
var dashes = [][]float64{{1.8, 2.4}, {5, 2.5}, {9, 2.5, 1.5, 2.5}, {16, 2.5}, {9, 2, 1, 2, 1, 2}, {24, 4, 2, 4}, {3, 4}, {12, 6}}

// Drawing lays out what to print of p: one drawing of every piece in the
// chosen sizes, in the piece's own coordinates. The error names the size that
// cannot be graded.
func Drawing(p model.Pattern, c PrintChoice) (printing.Drawing, error) {
	var g grading.Grader
	results, names, err := printResults(&g, p, c)
	if err != nil {
		return printing.Drawing{}, err
	}
	out := printing.Drawing{Title: p.Name, Note: sizeNote(p, names)}
	for i, q := range p.Pieces {
		out.Pieces = append(out.Pieces, drawPiece(p, q, i, results, names, c, out.Note))
	}
	return out, nil
}

func printResults(g *grading.Grader, p model.Pattern, c PrintChoice) ([]grading.Result, []string, error) {
	if len(c.Sizes) == 0 {
		r, err := g.Grade(p)
		return []grading.Result{r}, []string{r.Size}, err
	}
	results, err := g.GradeSizes(p, c.Sizes)
	return results, c.Sizes, err
}

func sizeNote(p model.Pattern, names []string) string {
	note := "size " + strings.Join(names, ", ")
	if p.Target.Wearer != "" {
		note += ", for " + p.Target.Wearer
	}
	return note
}

func drawPiece(p model.Pattern, q model.Piece, i int, results []grading.Result, names []string, c PrintChoice, note string) printing.Piece {
	last := results[len(results)-1].Pieces[i]
	out := printing.Piece{Name: q.Name, Outline: widest(results, i), Grain: q.GrainDir()}
	if c.Nest {
		for k, o := range q.Nest {
			out.Strokes = append(out.Strokes, printing.Stroke{
				Path: geom.Join(o.Edges...), Width: thinWidth, Dash: dashes[k%len(dashes)],
				Ink: printing.Ink{R: 0.45, G: 0.45, B: 0.45}, Layer: "Printed size " + o.Size,
			})
		}
	}
	for k, r := range results {
		s := printing.Stroke{Path: r.Pieces[i].Outline(), Width: cutWidth}
		if len(results) > 1 {
			s.Layer = "Size " + names[k]
			if k < len(results)-1 {
				s.Dash = dashes[k%len(dashes)]
			}
		}
		out.Strokes = append(out.Strokes, s)
	}
	if c.Stitching {
		out.Strokes = append(out.Strokes, stitching(q, last)...)
	}
	if c.Marks {
		m := marks{piece: &out, q: q, r: last}
		m.draw()
	}
	out.Labels = append(out.Labels, pieceWords(p, q, last, note)...)
	return out
}

// widest is the outline with the largest box: the one that needs most paper.
func widest(results []grading.Result, i int) geom.Path {
	var best geom.Path
	area := -1.0
	for _, r := range results {
		o := r.Pieces[i].Outline()
		if b := o.Bounds(); b.Width()*b.Height() > area {
			best, area = o, b.Width()*b.Height()
		}
	}
	return best
}

// stitching is the line to sew on, where the printed line has an allowance.
func stitching(q model.Piece, r grading.Piece) []printing.Stroke {
	sewn, err := StitchingLine(q, r)
	if err != nil {
		return nil // too narrow for its allowance: the cutting line alone is printed
	}
	var out []printing.Stroke
	for j, e := range sewn {
		if q.Edges[j].Allowance > 0 {
			out = append(out, printing.Stroke{Path: e, Width: thinWidth, Dash: []float64{3, 2}})
		}
	}
	return out
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
		return nil, fmt.Errorf("drawing the stitching line of %s: %w", q.Name, err)
	}
	return sewn, nil
}

// pieceWords are the lines of text in the middle of the piece.
func pieceWords(p model.Pattern, q model.Piece, r grading.Piece, note string) []printing.Label {
	at := Middle(r.Outline())
	words := []printing.Label{{Text: q.Name, Size: nameSize, Bold: true}}
	add := func(s string) { words = append(words, printing.Label{Text: s, Size: wordSize}) }
	if p.Name != "" {
		add(p.Name)
	}
	add(strings.ToUpper(note[:1]) + note[1:])
	cut := fmt.Sprintf("Cut %d", q.Copies())
	for _, e := range q.Edges {
		if e.Kind == model.Fold {
			cut += " on the fold"
			break
		}
	}
	add(cut)
	y := at.Y - float64(len(words)-1)*wordSize*0.8
	for k := range words {
		words[k].At = geom.Pt(at.X, y)
		y += wordSize * 1.6
	}
	return words
}

// Middle is a place well inside a closed outline, in mm: the centre of its box
// where that lies inside and clear of the line, else the best place of a grid.
func Middle(outline geom.Path) geom.Point {
	const tol, grid = 0.5, 15
	pts := outline.Flatten(tol)
	b := outline.Bounds()
	best, clear := b.Centre(), -1.0
	try := func(at geom.Point, bonus float64) {
		if !insideRing(pts, at) {
			return
		}
		// Words run across, so room to the sides counts more than room above.
		room := math.Inf(1)
		for i := range pts {
			d := pts[i].Sub(at)
			room = math.Min(room, math.Hypot(d.X*0.5, d.Y))
		}
		if room+bonus > clear {
			best, clear = at, room+bonus
		}
	}
	try(b.Centre(), 10)
	for i := 1; i < grid; i++ {
		for j := 1; j < grid; j++ {
			try(geom.Pt(b.Min.X+b.Width()*float64(i)/grid, b.Min.Y+b.Height()*float64(j)/grid), 0)
		}
	}
	return best
}

func insideRing(pts []geom.Point, at geom.Point) bool {
	in := false
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		if (a.Y > at.Y) != (b.Y > at.Y) && at.X < a.X+(at.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}
