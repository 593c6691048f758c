package app

import (
	"io"
	"slices"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/exchange"
	"quarterstep/model/geom"
)

// Exports are the ways to hand a pattern on, by name.
var Exports = []string{"svg", "json", "csv", "measures"}

// Export writes what c chooses of p, hand corrections and links in it:
//
//	svg       the pieces true to scale as they lie on the Table, a layer a size,
//	          with marks and words where c wants marks
//	json      the outlines of one size, in the coordinates of the paper the
//	          pieces came on
//	csv       the increments of every grade point
//	measures  finished measures and ease, as a table
//
// Tables give lengths in the pattern's unit. Without sizes it is the target.
// Errors name the size or piece that cannot be had.
func Export(w io.Writer, p model.Pattern, c PrintChoice, as string) error {
	return Watch{}.Export(w, p, c, as)
}

// Export is the function of that name, watched.
func (watch Watch) Export(w io.Writer, p model.Pattern, c PrintChoice, as string) error {
	if !slices.Contains(Exports, as) {
		return words.Errorf("%q is not a way to export; choose %s", as, strings.Join(Exports, ", "))
	}
	chosen, err := c.chosen(p)
	if err != nil {
		return err
	}
	var g grading.Grader
	results, names, err := printResults(watch.ctx(), &g, p, c)
	if err != nil {
		return err
	}
	e := exporter{p: p, c: c, chosen: chosen, results: results, names: names}
	switch as {
	case "json":
		if len(results) != 1 {
			return words.Errorf("json holds one size, not %s", strings.Join(names, ", "))
		}
		return exchange.WriteJSON(w, e.graded(0))
	case "csv":
		return exchange.WriteCSV(w, e.increments(), p.Unit)
	case "measures":
		rows, err := e.measures()
		if err != nil {
			return err
		}
		return exchange.WriteMeasures(w, rows, p.Unit)
	}
	layers, err := e.layers()
	if err != nil {
		return err
	}
	return exchange.WriteSVG(w, layers...)
}

// exporter is a pattern graded for what is to be handed on.
type exporter struct {
	p       model.Pattern
	c       PrintChoice
	chosen  []int // of the pieces
	results []grading.Result
	names   []string // of the sizes
}

// graded is size k.
func (e exporter) graded(k int) exchange.Graded {
	out := exchange.Graded{Size: e.names[k]}
	for _, i := range e.chosen {
		q := e.results[k].Pieces[i]
		g := exchange.GradedPiece{Name: q.Name}
		for j, line := range q.Edges {
			g.Edges = append(g.Edges, exchange.NamedEdge{Name: edgeName(e.p.Pieces[i], j), Path: line})
		}
		out.Pieces = append(out.Pieces, g)
	}
	return out
}

// edgeName is the name of an edge, "edge 3" where it has none.
func edgeName(q model.Piece, j int) string {
	if name := q.Edges[j].Name; name != "" {
		return name
	}
	return words.F("edge %d", j+1)
}

// layers is every size where it lies on the Table, with its marks, and the
// words of each piece in the layer of the last size.
func (e exporter) layers() ([]exchange.Graded, error) {
	var out []exchange.Graded
	for k := range e.results {
		g := e.graded(k)
		for n, i := range e.chosen {
			if err := hasSize(e.results[k].Pieces[i], e.names[k]); err != nil {
				return nil, err
			}
			at := e.p.Pieces[i].At
			if e.c.Marks {
				g.Pieces[n].Lines = markLines(e.results[k].Pieces[i])
			}
			for j := range g.Pieces[n].Edges {
				g.Pieces[n].Edges[j].Path = g.Pieces[n].Edges[j].Path.Move(at)
			}
			for j := range g.Pieces[n].Lines {
				g.Pieces[n].Lines[j].Path = g.Pieces[n].Lines[j].Path.Move(at)
			}
		}
		out = append(out, g)
	}
	if !e.c.Marks {
		return out, nil
	}
	d, err := Drawing(e.p, e.c)
	if err != nil {
		return nil, err
	}
	last := out[len(out)-1]
	for n, i := range e.chosen {
		for _, l := range d.Pieces[n].Labels {
			if l.Layer == "" {
				last.Pieces[n].Words = append(last.Pieces[n].Words, exchange.GradedWords{
					Text: l.Text, At: l.At.Add(e.p.Pieces[i].At), Size: l.Size, Turn: l.Turn, Bold: l.Bold,
				})
			}
		}
	}
	return out, nil
}

// markLines is the lines, notches and darts of a piece, each named by what it
// is.
func markLines(r grading.Piece) []exchange.GradedLine {
	var out []exchange.GradedLine
	for _, l := range r.Lines {
		if len(l.Path) > 0 {
			out = append(out, exchange.GradedLine{Name: string(l.Kind), Path: l.Path})
		}
	}
	for _, n := range r.Notches {
		for _, line := range notchLines(n) {
			out = append(out, exchange.GradedLine{Name: "notch", Path: line})
		}
	}
	for _, d := range r.Darts {
		out = append(out, exchange.GradedLine{Name: "dart", Path: geom.Polyline(d.Leg1, d.Apex, d.Leg2)})
	}
	return out
}

// increments is how far every grade point goes in every size.
func (e exporter) increments() []exchange.Increment {
	var out []exchange.Increment
	for k, r := range e.results {
		for _, i := range e.chosen {
			q := r.Pieces[i]
			for n, inc := range q.Points {
				name := inc.Name
				if name == "" {
					name = words.F("point %d", n+1)
				}
				out = append(out, exchange.Increment{
					Piece: q.Name, Point: name, From: inc.From, To: e.names[k],
					Across: inc.Across.Total + inc.Across.Length, Along: inc.Along.Total + inc.Along.Length,
					FollowsAcross: string(inc.Across.Follows), FollowsAlong: string(inc.Along.Follows),
				})
			}
		}
	}
	return out
}
