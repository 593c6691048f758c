package ui

import (
	"fmt"
	"math"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/measure"
	"quarterstep/ui/panel"
)

// linksView is the Links panel.
func linksView(p model.Pattern, r grading.Result) panel.LinksView {
	v := panel.LinksView{Empty: "None yet. Pick two edges, then Link.", Open: -1}
	broken := map[string]string{}
	for _, u := range r.Unlinked {
		broken[u.Link] = u.Why
	}
	for _, l := range p.Links {
		a, b := p.PieceIndex(l.Lead.Piece), p.PieceIndex(l.Follow.Piece)
		if a < 0 || b < 0 {
			v.Links = append(v.Links, panel.LinkView{What: "A link", How: "names a piece that is not there", Look: true})
			continue
		}
		verb := "is sewn to"
		if l.Kind == model.SameLine {
			verb = "follows"
		}
		view := panel.LinkView{What: fmt.Sprintf("%s %s the %s of %s", p.Pieces[b].Name, verb, stretchName(p.Pieces[a], l.Lead), p.Pieces[a].Name)}
		if why, ok := broken[l.ID]; ok {
			view.How, view.Look = why, true
		} else {
			la, lb := stretchLength(p.Pieces[a], r.Pieces[a], l.Lead), stretchLength(p.Pieces[b], r.Pieces[b], l.Follow)
			view.How = measure.FormatPlace(la, p.Unit)
			if math.Abs(la-lb) > 0.05 {
				view.How = fmt.Sprintf("%s and %s on the cutting line", measure.FormatPlace(la, p.Unit), measure.FormatPlace(lb, p.Unit))
			}
		}
		v.Links = append(v.Links, view)
	}
	return v
}

func stretchName(q model.Piece, s model.Stretch) string {
	if len(s.Edges) > 0 {
		if j := q.EdgeIndex(s.Edges[0]); j >= 0 && q.Edges[j].Name != "" {
			return q.Edges[j].Name
		}
	}
	return "edge"
}

func stretchLength(q model.Piece, g grading.Piece, s model.Stretch) float64 {
	const tol = 0.01
	var total float64
	for _, id := range s.Edges {
		if j := q.EdgeIndex(id); j >= 0 {
			if l, err := g.Edges[j].Length(tol); err == nil {
				total += l
			}
		}
	}
	return total
}
