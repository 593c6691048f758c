package scene

import (
	"slices"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// Static is all that holds still while the pieces named are in hand.
func Static(in Input, inHand []string) Layer {
	l := Layer{Photos: in.Photos}
	l.sheets(in)
	l.pieces(in, func(id string) bool { return !slices.Contains(inHand, id) })
	return l
}

// Active is the pieces in hand, the handles of the piece selected, and the
// threads that lead from it.
func Active(in Input, inHand []string) Layer {
	var l Layer
	l.pieces(in, func(id string) bool { return slices.Contains(inHand, id) })
	if i := in.Pattern.PieceIndex(in.Select.Piece); i >= 0 && len(in.Sheets) == 0 {
		l.threads(in, i)
		l.handles(in, i)
		l.pointNames(in, i)
	}
	if len(inHand) > 0 {
		l.sheetNames(in)
	}
	if in.Trace != nil {
		l.trace(in, *in.Trace)
	}
	return l
}

func (l *Layer) pieces(in Input, wanted func(id string) bool) {
	in.reckonOnce()
	for i, q := range in.Pattern.Pieces {
		if wanted(q.ID) {
			l.piece(in, i)
		}
	}
}

// piece draws piece i from the bottom up: its paper, the printed nest, the
// lines on it, the computed line, its words.
func (l *Layer) piece(in Input, i int) {
	q := in.Pattern.Pieces[i]
	m := in.place(q)
	r, graded := in.graded(i)
	edges := in.Edges(i)
	if len(edges) == 0 {
		return
	}
	if c, ok := in.Closed[q.ID]; ok && graded {
		l.closedPiece(in, q, r, c, edges)
		return
	}
	paper := Fill{Outline: geom.Join(edges...), Ink: InkAccent, Alpha: 0.045}
	l.Fills = append(l.Fills, paper)
	if in.Nest || !graded {
		l.nest(q, m)
	}
	if graded {
		l.marks(in, q, r, m)
		l.look(in, q, edges)
		l.ghost(in, q, m)
		l.guides(in, q, m)
		if in.Seam {
			l.seam(in.Sewn, q, r, m)
		}
		l.computed(in, q, edges)
		l.notches(r, m)
		l.cuts(in, q, r, m)
	}
	if in.Nest || !graded {
		l.sizeNumbers(in, q, m)
	}
	l.runNames(in, q, edges)
	l.label(in, q, edges)
}

// nest draws the printed sizes of q and their darts.
func (l *Layer) nest(q model.Piece, m geom.Affine) {
	for i, o := range q.Nest {
		p := nestPen(i, len(q.Nest))
		ink := NestInk(i, len(q.Nest))
		l.Lines = append(l.Lines, Line{
			Path: geom.Join(o.Edges...).Transform(m), Width: p.width, Dash: p.dash, Ink: ink, Alpha: 1,
		})
		for _, d := range q.Darts {
			if legs := printedDart(q, o, d); legs != nil {
				l.Lines = append(l.Lines, Line{
					Path: legs.Transform(m), Width: 1, Dash: p.dash, Ink: ink, Alpha: 1,
				})
			}
		}
	}
}

// printedDart is the two legs of d in size o; nil where it was not printed.
func printedDart(q model.Piece, o model.Outline, d model.Dart) geom.Path {
	from, to := q.PointIndex(d.From), q.PointIndex(d.To)
	if from < 0 || to < 0 || from >= len(o.Edges) || to >= len(o.Edges) {
		return nil
	}
	for _, a := range d.Apex {
		if a.Size == o.Size || a.Size == "" {
			return geom.Polyline(o.Edges[from].Start(), a.At, o.Edges[to].Start())
		}
	}
	return nil
}

// ghost draws what the other method would give, for the piece in hand.
func (l *Layer) ghost(in Input, q model.Piece, m geom.Affine) {
	if q.ID != in.Select.Piece {
		return
	}
	for _, e := range in.Ghost[q.ID] {
		l.Lines = append(l.Lines, Line{
			Path: e.Transform(m), Width: 1.3, Dash: []float64{2, 4}, Round: true, Ink: InkAccent, Alpha: 1,
		})
	}
}

// computed draws the new line over a halo, edge by edge: linked edges double,
// the edge in hand in a band, folds with a dash-dot line inside.
func (l *Layer) computed(in Input, q model.Piece, edges []geom.Path) {
	inside := 1.0
	if geom.Join(edges...).Area() < 0 {
		inside = -1
	}
	l.Lines = append(l.Lines, Line{
		Path: geom.Join(edges...), Width: 6, Round: true, Ink: in.ground(), Alpha: 0.85,
	})
	linked, runs := sameLineEdges(in.Pattern, q.ID), in.runEdges(q.ID)
	for k, e := range edges {
		ref := Ref{Piece: q.ID, Edge: q.Edges[k].ID}
		line := Line{Path: e, Width: 2.6, Round: true, Ink: InkAccent, Alpha: 1}
		inHand := in.Select.Piece == ref.Piece && in.Select.Edge == ref.Edge
		switch {
		case in.folded(q.ID, k):
			line.Width, line.Dash = 1.3, []float64{3, 4}
			l.Lines = append(l.Lines, line)
		case len(in.Runs) > 0 && !inHand && !runs[ref.Edge]:
			line.Width, line.Alpha = 2, 0.4
			l.Lines = append(l.Lines, line)
		case inHand || runs[ref.Edge]:
			l.Lines = append(l.Lines, Line{Path: e, Width: 11, Round: true, Ink: InkAccent, Alpha: 0.2})
			line.Width = 4
			l.Lines = append(l.Lines, line)
		case linked[ref.Edge]:
			line.Width = 6
			core := Line{Path: e, Width: 2, Round: true, Ink: in.ground(), Alpha: 1}
			l.Lines = append(l.Lines, line, core)
		default:
			l.Lines = append(l.Lines, line)
		}
		if kind := q.Edges[k].Kind; kind == model.Fold || kind == model.Centre {
			l.Lines = append(l.Lines, Line{
				Path: e, Width: 1.1, Dash: foldDash, Ink: InkSoft, Alpha: 1, Shift: 6 * inside,
			})
		}
	}
}

var foldDash = []float64{14, 4, 2, 4}

// sameLineEdges is the set of edges of a piece that share their line with
// another piece.
func sameLineEdges(p model.Pattern, piece string) map[string]bool {
	out := map[string]bool{}
	for _, k := range p.Links {
		if k.Kind != model.SameLine {
			continue
		}
		for _, s := range []model.Stretch{k.Lead, k.Follow} {
			if s.Piece != piece {
				continue
			}
			for _, e := range s.Edges {
				out[e] = true
			}
		}
	}
	return out
}
