package ui

import (
	"fmt"
	"math"

	"quarterstep/app"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/measure"
	"quarterstep/ui/panel"
)

// linksView is the Links panel.
func linksView(p model.Pattern, r grading.Result) panel.LinksView {
	v := panel.LinksView{Empty: "None yet."}
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

// checksView is the Checks panel: what to look at, then what was doubtful when
// the nest was brought in.
func checksView(report app.Report, doubts []string) panel.ChecksView {
	v := panel.ChecksView{Empty: "Nothing to look at."}
	for _, f := range ordered(report) {
		v.Findings = append(v.Findings, panel.FindingView{What: f.Say, Help: f.Help})
	}
	for _, d := range doubts {
		v.Findings = append(v.Findings, panel.FindingView{
			What: d, Help: "Add a grade point with the Point tool, or take the one in hand out with Delete.",
		})
	}
	return v
}

// ordered is the findings that want looking at. What is only said for
// information stays out of the panel, and so does a second word on a girth:
// that the chart outgrows the steps is why its ease is lost.
func ordered(report app.Report) []app.Finding {
	var out []app.Finding
	said := map[string]bool{}
	for _, f := range report.Findings {
		if !f.Look || f.Girth != "" && said[f.Girth] {
			continue
		}
		said[f.Girth] = true
		out = append(out, f)
	}
	return out
}
