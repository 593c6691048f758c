package check

import (
	"fmt"
	"math"
	"strings"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// links looks at every link: followers on their leaders, seams of the length
// they had in print. Links that could not be kept come first.
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
			out = append(out, brokenLink(l.ID, "names a piece or an edge that is not there"))
			continue
		}
		look := lines.seam
		if l.Kind == model.SameLine {
			look = lines.follower
		}
		if f, found := look(l, a, b); found {
			f.Link = l.ID
			out = append(out, f)
		}
	}
	return out
}

func brokenLink(link, why string) Finding {
	return Finding{
		Code: "link", Link: link, Look: true, What: "A link cannot be kept", Much: why,
		Say: fmt.Sprintf("A link %s.", why), Help: "Take the link off, or link the edges anew.",
		Action: Action{Do: Unlink, Label: "Take the link off", Link: link},
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
		What: fmt.Sprintf("%s of %s is off its line", capital(stretchName(s.p.Pieces[b], l.Follow)), s.p.Pieces[b].Name),
		Much: fmt.Sprintf("up to %.2g mm", off),
		Say: fmt.Sprintf("The %s of %s lies up to %.2g mm off the %s of %s that it follows.",
			stretchName(s.p.Pieces[b], l.Follow), s.p.Pieces[b].Name, off, stretchName(s.p.Pieces[a], l.Lead), s.p.Pieces[a].Name),
		Help: "Take the correction off the follower, or take the link off.",
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

// seam compares how much longer the follower's stitching line is than the
// leader's with what it was in print, or was set to.
func (s *stitching) seam(l model.Link, a, b int) (Finding, bool) {
	now, ok := s.ease(l, b, newLine)
	least, most := l.Ease, l.Ease+l.Room
	known := true
	if !l.EaseFixed {
		least, known = s.printedEase(l, a, b)
		most = least
	}
	limit := LimitOf(s.p, LimitSeams)
	if !ok || !known || now >= least-limit && now <= most+limit {
		return Finding{}, false
	}
	word, want := "longer", most
	if now < least {
		word, want = "shorter", least
	}
	q := s.p.Pieces[b]
	return Finding{
		Code: "seam", Piece: q.ID, Edge: l.Follow.Edges[0], By: now - want, Look: true,
		Where: middle(s.r.Pieces[b].Edges[q.EdgeIndex(l.Follow.Edges[0])]),
		What:  fmt.Sprintf("%s is too %s", capital(stretchTitle(s.p, l)), strings.TrimSuffix(word, "er")),
		Much:  fmt.Sprintf("%s %s than it should be", show(math.Abs(now-want), s.p), word),
		Say: fmt.Sprintf("The %s of %s is %s %s than it should be to meet the %s of %s.",
			stretchName(q, l.Follow), q.Name, show(math.Abs(now-want), s.p), word,
			stretchName(s.p.Pieces[a], l.Lead), s.p.Pieces[a].Name),
		Help: "Correct one of the two lines, or ease it in if the cloth lets you.",
	}, true
}

func stretchName(q model.Piece, s model.Stretch) string { return edgeName(q, q.EdgeIndex(s.Edges[0])) }
