package check

import (
	"fmt"
	"math"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// links looks at every link: followers on their leaders, seams of the length
// they had in print.
func links(p model.Pattern, r grading.Result) []Finding {
	var out []Finding
	for _, u := range r.Unlinked {
		out = append(out, Finding{
			Code: "link", Look: true, Say: fmt.Sprintf("A link %s.", u.Why), Help: "Take the link off, or link the edges anew.",
		})
	}
	for _, l := range p.Links {
		if l.Kind == model.Sewn {
			if f, ok := seam(p, r, l); ok {
				out = append(out, f)
			}
		}
	}
	return out
}

// seam compares how much longer the follower's stitching line is than the
// leader's with what it was in print.
func seam(p model.Pattern, r grading.Result, l model.Link) (Finding, bool) {
	a, b := p.PieceIndex(l.Lead.Piece), p.PieceIndex(l.Follow.Piece)
	if a < 0 || b < 0 {
		return Finding{Code: "link", Look: true, Say: "A link names a piece that is not there.", Help: "Take the link off."}, true
	}
	now, err := ease(p, l, r.Pieces[a].Edges, r.Pieces[b].Edges)
	if err != nil {
		return Finding{}, false // too narrow to sew: the crossing check speaks of it
	}
	want, ok := printedEase(p, l, a, b)
	if l.EaseFixed {
		want, ok = l.Ease, true
	}
	if !ok || math.Abs(now-want) <= seamsDiffer {
		return Finding{}, false
	}
	f := Finding{
		Code: "seam", Piece: l.Follow.Piece, By: now - want, Look: true,
		Where: r.Pieces[b].Outline().Bounds().Centre(),
		Help:  "Correct one of the two lines, or ease it in if the cloth lets you.",
	}
	if j := p.Pieces[b].EdgeIndex(l.Follow.Edges[0]); j >= 0 {
		f.Edge, f.Where = l.Follow.Edges[0], middle(r.Pieces[b].Edges[j])
	}
	word := "longer"
	if now < want {
		word = "shorter"
	}
	f.Say = fmt.Sprintf("The %s of %s is %s %s than it should be to meet the %s of %s.",
		stretchName(p.Pieces[b], l.Follow), p.Pieces[b].Name, show(math.Abs(now-want), p), word,
		stretchName(p.Pieces[a], l.Lead), p.Pieces[a].Name)
	return f, true
}

func stretchName(q model.Piece, s model.Stretch) string {
	if j := q.EdgeIndex(s.Edges[0]); j >= 0 {
		return edgeName(q, j)
	}
	return "edge"
}

// printedEase is the mean ease of the printed sizes that both pieces have.
func printedEase(p model.Pattern, l model.Link, a, b int) (float64, bool) {
	var sum float64
	count := 0
	for _, o := range p.Pieces[a].Nest {
		f, ok := p.Pieces[b].Printed(o.Size)
		if !ok {
			continue
		}
		if e, err := ease(p, l, o.Edges, f.Edges); err == nil {
			sum += e
			count++
		}
	}
	return sum / float64(max(1, count)), count > 0
}

// ease is the follower's stitching length less the leader's, in mm.
func ease(p model.Pattern, l model.Link, lead, follow []geom.Path) (float64, error) {
	a, err := sewnLength(p.Pieces[p.PieceIndex(l.Lead.Piece)], l.Lead, lead)
	if err != nil {
		return 0, err
	}
	b, err := sewnLength(p.Pieces[p.PieceIndex(l.Follow.Piece)], l.Follow, follow)
	return b - a, err
}

// sewnLength is the length of a stretch on the stitching line, in mm.
func sewnLength(q model.Piece, s model.Stretch, edges []geom.Path) (float64, error) {
	in := make([]float64, len(q.Edges))
	seamed := false
	for j, e := range q.Edges {
		in[j] = -e.Allowance
		seamed = seamed || e.Allowance > 0
	}
	if seamed {
		var err error
		if edges, err = geom.OffsetOutline(edges, in, arcTol); err != nil {
			return 0, err
		}
	}
	var total float64
	for _, id := range s.Edges {
		j := q.EdgeIndex(id)
		if j < 0 {
			return 0, fmt.Errorf("%s has no such edge", q.Name)
		}
		l, err := edges[j].Length(arcTol)
		if err != nil {
			return 0, err
		}
		total += l
	}
	return total, nil
}
