package app

import (
	"fmt"
	"io"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/exchange"
)

// Export writes p in one size of its chart, or at its own target where size is
// empty, as "svg", "json" or "csv" (the increments of every grade point). Hand corrections and links are in it. JSON
// keeps the coordinates of the paper the pieces came on; SVG lays the pieces
// as they lie on the Table.
func Export(w io.Writer, p model.Pattern, size, as string) error {
	if size != "" {
		var err error
		if p, err = Retarget(p, size, p.Target.Method); err != nil {
			return err
		}
	}
	r, err := Grade(p)
	if err != nil {
		return err
	}
	switch as {
	case "svg":
		return exchange.WriteSVG(w, onTable(p, gradedOf(p, r)))
	case "json":
		return exchange.WriteJSON(w, gradedOf(p, r))
	case "csv":
		return exchange.WriteCSV(w, rowsOf(p, r))
	}
	return fmt.Errorf("%q is not a way to export; choose svg, json or csv", as)
}

func gradedOf(p model.Pattern, r grading.Result) exchange.Graded {
	out := exchange.Graded{Size: p.Target.NameOn(p.Chart)}
	for i, q := range r.Pieces {
		g := exchange.GradedPiece{Name: q.Name}
		for j, e := range q.Edges {
			name := p.Pieces[i].Edges[j].Name
			if name == "" {
				name = fmt.Sprintf("edge %d", j+1)
			}
			g.Edges = append(g.Edges, exchange.NamedEdge{Name: name, Path: e})
		}
		for _, l := range q.Lines {
			if len(l.Path) > 0 {
				g.Lines = append(g.Lines, exchange.GradedLine{Name: string(l.Kind), Path: l.Path})
			}
		}
		out.Pieces = append(out.Pieces, g)
	}
	return out
}

// onTable moves every piece to where it lies on the Table.
func onTable(p model.Pattern, g exchange.Graded) exchange.Graded {
	for i := range g.Pieces {
		for j := range g.Pieces[i].Edges {
			g.Pieces[i].Edges[j].Path = g.Pieces[i].Edges[j].Path.Move(p.Pieces[i].At)
		}
		for j := range g.Pieces[i].Lines {
			g.Pieces[i].Lines[j].Path = g.Pieces[i].Lines[j].Path.Move(p.Pieces[i].At)
		}
	}
	return g
}

// rowsOf is the increments of every grade point of r.
func rowsOf(p model.Pattern, r grading.Result) []exchange.Increment {
	var out []exchange.Increment
	for _, q := range r.Pieces {
		for k, inc := range q.Points {
			name := inc.Name
			if name == "" {
				name = fmt.Sprintf("point %d", k+1)
			}
			out = append(out, exchange.Increment{
				Piece: q.Name, Point: name, From: inc.From, To: p.Target.NameOn(p.Chart),
				Across: inc.Across.Total + inc.Across.Length, Along: inc.Along.Total + inc.Along.Length,
				FollowsAcross: string(inc.Across.Follows), FollowsAlong: string(inc.Along.Follows),
			})
		}
	}
	return out
}
