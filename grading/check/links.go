package check

import (
	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// links looks at every link, and at followers on their leaders. Links that could
// not be kept come first.
func links(p model.Pattern, r grading.Result, lines *stitching) []Finding {
	var out []Finding
	broken := map[string]bool{}
	for _, u := range r.Unlinked {
		broken[u.Link] = true
		out = append(out, brokenLink(u.Link, u.Why))
	}
	for _, l := range p.Links {
		if broken[l.ID] {
			continue
		}
		a, b, ok := ends(p, l)
		if !ok {
			out = append(out, brokenLink(l.ID, words.T("names a piece or an edge that is not there")))
			continue
		}
		if l.Kind != model.SameLine {
			continue
		}
		if f, found := lines.follower(l, a, b); found {
			f.Link = l.ID
			out = append(out, f)
		}
	}
	return out
}

func brokenLink(link, why string) Finding {
	return Finding{
		Code: "link", Link: link, Look: true, What: words.T("A link cannot be kept"), Much: why,
		Say: words.F("A link %s.", why), Help: words.T("Take the link off, or link the edges anew."),
		Action: Action{Do: Unlink, Label: words.T("Take the link off"), Link: link},
	}
}

// ends is the pieces of a link; false when one of them, or an edge, is gone.
func ends(p model.Pattern, l model.Link) (lead, follow int, ok bool) {
	lead, follow = p.PieceIndex(l.Lead.Piece), p.PieceIndex(l.Follow.Piece)
	return lead, follow, whole(p, l)
}

func has(q model.Piece, s model.Stretch) bool {
	for _, e := range s.Edges {
		if q.EdgeIndex(e) < 0 {
			return false
		}
	}
	return len(s.Edges) > 0
}

// follower looks whether a follower's line is its leader's, wherever on the
// paper it lies.
func (s *stitching) follower(l model.Link, a, b int) (Finding, bool) {
	const samples = 24
	lead, errA := geom.Measure(walk(s.p.Pieces[a], l.Lead, s.r.Pieces[a].Edges), arcTol)
	follow, errB := geom.Measure(walk(s.p.Pieces[b], l.Follow, s.r.Pieces[b].Edges), arcTol)
	if errA != nil || errB != nil {
		return Finding{}, false
	}
	from, to := make([]geom.Point, samples+1), make([]geom.Point, samples+1)
	for i := range from {
		u := float64(i) / samples
		from[i], to[i] = lead.At(u*lead.Length()), follow.At(u*follow.Length())
	}
	lay, _ := geom.RigidFit(from, to)
	var off float64
	var where geom.Point
	for i := range from {
		if d := lay.Apply(from[i]).Dist(to[i]); d > off {
			off, where = d, to[i]
		}
	}
	if off <= followsWithin {
		return Finding{}, false
	}
	return Finding{
		Code: "follower", Piece: l.Follow.Piece, Edge: l.Follow.Edges[0], Where: where, By: off, Look: true,
		What: words.F("%s of %s is off its line", opening(stretchName(s.p.Pieces[b], l.Follow)), s.p.Pieces[b].Name),
		Much: words.F("up to %s mm", words.Digits(off, 2)),
		Say: words.F("The %s of %s lies up to %s mm off the %s of %s that it follows.",
			stretchName(s.p.Pieces[b], l.Follow), s.p.Pieces[b].Name, words.Digits(off, 2), stretchName(s.p.Pieces[a], l.Lead), s.p.Pieces[a].Name),
		Help: words.T("Take the correction off the follower, or take the link off."),
	}, true
}

// walk joins a stretch's edges in the order they are walked.
func walk(q model.Piece, s model.Stretch, edges []geom.Path) geom.Path {
	var out geom.Path
	for _, id := range s.Edges {
		e := edges[q.EdgeIndex(id)]
		if s.Reverse {
			e = e.Reverse()
		}
		out = append(out, e...)
	}
	return out
}

func stretchName(q model.Piece, s model.Stretch) string { return edgeName(q, q.EdgeIndex(s.Edges[0])) }
