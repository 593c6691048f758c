package app

import (
	"fmt"
	"math"
	"slices"
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
	// WithTarget prints the target beside the Sizes, as the last of them.
	WithTarget bool
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
	markSize    = 3.5
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
		return []grading.Result{r}, []string{p.Target.NameOn(p.Chart)}, err
	}
	names := c.Sizes
	for _, s := range names {
		if _, ok := p.Chart.Place(s); !ok {
			return nil, nil, noSize(p.Chart, s)
		}
	}
	if !c.WithTarget {
		results, err := g.GradeSizes(p, names)
		return results, names, err
	}
	r, err := g.Grade(p)
	if err != nil {
		return nil, nil, err
	}
	last := p.Target.NameOn(p.Chart)
	names = slices.DeleteFunc(slices.Clone(names), func(s string) bool { return s == last })
	results, err := g.GradeSizes(p, names)
	return append(results, r), append(names, last), err
}

func sizeNote(p model.Pattern, names []string) string {
	note := sizesNamed(names)
	if p.Target.Wearer != "" {
		note += ", for " + p.Target.Wearer
	}
	return note
}

// sizesNamed is "size 46, 48, own measures".
func sizesNamed(names []string) string {
	list := strings.Join(names, ", ")
	if strings.HasPrefix(list, model.OwnMeasures) {
		return list
	}
	return "size " + list
}

func drawPiece(p model.Pattern, q model.Piece, i int, results []grading.Result, names []string, c PrintChoice, note string) printing.Piece {
	last := results[len(results)-1].Pieces[i]
	out := printing.Piece{Name: q.Name, Outline: widest(results, i), Grain: q.GrainDir()}
	if c.Nest {
		for k, o := range q.Nest {
			out.Strokes = append(out.Strokes, printing.Stroke{
				Path: geom.Join(o.Edges...), Width: thinWidth, Dash: dashes[k%len(dashes)],
				Ink: printing.Ink{R: 0.45, G: 0.45, B: 0.45}, Layer: "Printed size " + o.Label(),
			})
		}
	}
	for k, r := range results {
		s := printing.Stroke{Path: r.Pieces[i].Outline(), Width: cutWidth}
		if len(results) > 1 {
			s.Layer = capital(sizesNamed(names[k : k+1]))
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
	words := pieceWords(p, q, out, note)
	out.Labels = append(out.Labels, words...)
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

// pieceWords are the lines of text that name a piece, in a block where the
// piece has most room clear of its own marks; the letters shrink to what room
// there is, to half at most.
func pieceWords(p model.Pattern, q model.Piece, drawn printing.Piece, note string) []printing.Label {
	words := []printing.Label{{Text: q.Name, Size: nameSize, Bold: true}}
	add := func(s string) { words = append(words, printing.Label{Text: s, Size: wordSize}) }
	if p.Name != "" {
		add(p.Name)
	}
	add(strings.ToUpper(note[:1]) + note[1:])
	add(cutWords(q))
	half := 0.0
	for _, w := range words {
		half = math.Max(half, halfWidth(w))
	}
	at, room := roomiest(drawn, half, float64(len(words))*lineStep*wordSize)
	k := math.Min(1, math.Max(0.5, 0.95*room/half))
	y := at.Y - k*lineStep*wordSize*float64(len(words)-2)/2
	for i := range words {
		words[i].Size *= k
		words[i].At = geom.Pt(at.X, y)
		y += k * lineStep * wordSize
	}
	return words
}

// cutWords says how many of the piece to cut: "Cut 1 on the fold".
func cutWords(q model.Piece) string {
	cut := fmt.Sprintf("Cut %d", q.Copies())
	if slices.ContainsFunc(q.Edges, func(e model.Edge) bool { return e.Kind == model.Fold }) {
		cut += " on the fold"
	}
	return cut
}

// lineStep is how far apart lines of words stand, in letter heights.
const lineStep = 1.6

// roomiest is the place on a piece that leaves most room to both sides, up to
// half mm, over a block of words high mm tall: clear of the outline and, where
// it can be, of what is drawn inside. It says how much room there is, in mm.
func roomiest(p printing.Piece, half, high float64) (at geom.Point, room float64) {
	const tol, grid = 0.5, 24
	outline := p.Outline.Flatten(tol)
	marks := obstacles(p, tol)
	b := p.Outline.Bounds()
	at, best := b.Centre(), -1.0
	for i := 1; i < grid; i++ {
		for j := 1; j < grid; j++ {
			c := geom.Pt(b.Min.X+b.Width()*float64(i)/grid, b.Min.Y+b.Height()*float64(j)/grid)
			if !insideRing(outline, c) {
				continue
			}
			free := half
			for _, m := range marks {
				free = math.Min(free, sideRoom(m, c, high/2))
			}
			// Of places with as much room, the one nearest the middle.
			if score := free - 0.02*c.Dist(b.Centre()); score > best {
				at, best, room = c, score, free
			}
		}
	}
	return at, room
}

// sideRoom is how far to the side of c the line comes nearest, within high mm
// above and below; infinite where it passes neither side.
func sideRoom(line []geom.Point, c geom.Point, high float64) float64 {
	room := math.Inf(1)
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		lo, hi := math.Min(a.Y, b.Y), math.Max(a.Y, b.Y)
		if hi < c.Y-high || lo > c.Y+high {
			continue
		}
		left, right := math.Min(a.X, b.X)-c.X, math.Max(a.X, b.X)-c.X
		switch {
		case left <= 0 && right >= 0:
			return 0
		case left > 0:
			room = math.Min(room, left)
		default:
			room = math.Min(room, -right)
		}
	}
	return room
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
