package ui

import (
	"math"
	"slices"
	"strings"

	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/ui/panel"
	"quarterstep/ui/scene"
)

// lengthView is the Length panel.
func lengthView(p model.Pattern, r grading.Result, hand scene.Ref) panel.LengthView {
	groups := edit.LengthGroups(p)
	v := panel.LengthView{
		Say:  words.T("How much longer, with a minus sign shorter. Or drag a double line on the Table by its handle."),
		Unit: smallUnit(p.Unit), Hand: groupInHand(groups, hand), Undo: len(p.Lengths) > 0,
	}
	if !slices.ContainsFunc(groups, func(g edit.LengthGroup) bool { return len(g.Lines) > 0 }) {
		v.Say = words.T("The pieces have no line to lengthen or shorten at. Press Add a line, then click on a piece where it is to lie.")
	}
	for _, g := range groups {
		v.Groups = append(v.Groups, panel.LengthGroupView{Name: g.Name, Field: amount(g.By, p.Unit), Pieces: putRows(p, r, g)})
		if why := refusedOf(p, r, g); why != "" {
			v.Note = why
		}
	}
	if v.Paper = paperRows(p, r, groups); len(v.Paper) > 0 {
		v.Title = words.T("Lengths on paper, allowances included")
	}
	return v
}

// groupInHand is the index of the group that what is in hand belongs to, or -1.
func groupInHand(groups []edit.LengthGroup, hand scene.Ref) int {
	return slices.IndexFunc(groups, func(g edit.LengthGroup) bool {
		return slices.Contains(g.Lines, model.PieceLine{Piece: hand.Piece, Line: hand.Line}) ||
			slices.ContainsFunc(g.Hems, func(h model.Stretch) bool { return h.Piece == hand.Piece && slices.Contains(h.Edges, hand.Edge) })
	})
}

// putRows is the pieces of a group with what the group puts into each.
func putRows(p model.Pattern, r grading.Result, g edit.LengthGroup) []panel.FigureView {
	out := make([]panel.FigureView, len(g.Pieces))
	for i, id := range g.Pieces {
		k := p.PieceIndex(id)
		out[i] = panel.FigureView{Name: p.Pieces[k].Name, Figure: longerWords(putByGroup(p, r.Pieces[k], g), p.Unit)}
	}
	return out
}

// putByGroup is by how many mm a piece is longer by the lengthenings of a group.
func putByGroup(p model.Pattern, q grading.Piece, g edit.LengthGroup) (mm float64) {
	for _, x := range q.Put {
		hem := x.Line == "" && len(g.Hems) > 0
		if hem || slices.Contains(g.Lines, model.PieceLine{Piece: q.ID, Line: x.Line}) {
			mm += x.By
		}
	}
	return mm
}

// longerWords is "20 mm longer", "3/8 in shorter" or "as printed".
func longerWords(mm float64, u model.Unit) string {
	switch {
	case mm > 0:
		return words.F("%s longer", measure.FormatMM(mm, u))
	case mm < 0:
		return words.F("%s shorter", measure.FormatMM(-mm, u))
	}
	return words.T("as printed")
}

// refusedOf says why a group's amount is not in one of its pieces; "" where it
// is.
func refusedOf(p model.Pattern, r grading.Result, g edit.LengthGroup) string {
	for _, id := range g.Pieces {
		if q := r.Pieces[p.PieceIndex(id)]; g.By != 0 && q.Put == nil && q.Unlaid != "" {
			return capital(q.Unlaid) + "."
		}
	}
	return ""
}

// paperRows is the lengths that tell most: of each piece that can be made
// longer its centre line or fold, and its side; of one with neither the longest
// edge along the grain.
func paperRows(p model.Pattern, r grading.Result, groups []edit.LengthGroup) []panel.FigureView {
	var out []panel.FigureView
	for i, q := range p.Pieces {
		if !slices.ContainsFunc(groups, func(g edit.LengthGroup) bool { return slices.Contains(g.Pieces, q.ID) }) {
			continue
		}
		for _, e := range tellingEdges(q, r.Pieces[i]) {
			was, is := lengthOf(r.Pieces[i].Unlengthened(), e), lengthOf(r.Pieces[i].Edges, e)
			row := panel.FigureView{Name: capital(edgesName(q, e)), Figure: measure.FormatPlace(is, p.Unit)}
			same := func(x panel.FigureView) bool { return x.Name == row.Name }
			if isSide(row.Name) || slices.ContainsFunc(out, same) {
				row.Name += ", " + words.Small(q.Name)
			}
			if math.Abs(is-was) > 0.05 {
				before := measure.FormatPlace(was, p.Unit)
				row.Figure = words.F("%s, now %s", before[:strings.LastIndex(before, " ")], row.Figure)
			}
			out = append(out, row)
		}
	}
	return out
}

// tellingEdges is the edges, by index, that together make each telling length.
func tellingEdges(q model.Piece, r grading.Piece) [][]int {
	var centre, side []int
	longest := -1
	for j, e := range q.Edges {
		switch {
		case e.Kind == model.Fold || e.Kind == model.Centre:
			centre = append(centre, j)
		case isSide(e.Name):
			side = append(side, j)
		}
		if longest < 0 || downGrain(q, r.Edges[j]) > downGrain(q, r.Edges[longest]) {
			longest = j
		}
	}
	var out [][]int
	for _, edges := range [][]int{centre, side} {
		if len(edges) > 0 {
			out = append(out, edges)
		}
	}
	if len(out) == 0 && longest >= 0 {
		out = append(out, []int{longest})
	}
	return out
}

// downGrain is how far an edge runs along the grain, mm.
func downGrain(q model.Piece, e geom.Path) float64 {
	_, along := q.AcrossAlong(e.End().Sub(e.Start()))
	return math.Abs(along)
}

func lengthOf(edges []geom.Path, which []int) (sum float64) {
	const tol = 0.01
	for _, j := range which {
		if l, err := edges[j].Length(tol); err == nil {
			sum += l
		}
	}
	return sum
}

// edgesName is what edges that make one length are called: "centre back",
// "side".
func edgesName(q model.Piece, edges []int) string {
	if len(edges) > 1 {
		return words.T("side")
	}
	return words.Small(edgeName(q, edges[0]))
}

// lengthLine is the Length step's one-line state: "as printed", "20 mm longer".
func lengthLine(p model.Pattern) string {
	switch len(p.Lengths) {
	case 0:
		return words.T("as printed")
	case 1:
		return longerWords(p.Lengths[0].By, p.Unit)
	}
	return count(len(p.Lengths), "change")
}
