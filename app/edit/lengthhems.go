package edit

import (
	"math"
	"slices"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/glossary"
)

// hemGroups is the hems of p, those that meet at the end of a seam, or share
// their line, as one group. An edge sewn to another is no hem.
func hemGroups(p model.Pattern) []LengthGroup {
	var hems []model.Stretch
	for _, q := range p.Pieces {
		if edges := hemOf(p, q); len(edges) > 0 {
			hems = append(hems, model.Stretch{Piece: q.ID, Edges: edges})
		}
	}
	sets := newSets(len(hems))
	for i := range hems {
		for k := range i {
			if hemsMeet(p, hems[i], hems[k]) {
				sets.join(i, k)
			}
		}
	}
	var out []LengthGroup
	for _, set := range sets.all() {
		g := LengthGroup{Name: words.T("Hem")}
		for _, i := range set {
			g.Hems = append(g.Hems, hems[i])
			g.Pieces = append(g.Pieces, hems[i].Piece)
		}
		out = append(out, g)
	}
	return out
}

// hemOf is the IDs of the hem edges of q in outline order: those of that kind
// or with that name, and what runs on from them across the grain to a fold or
// centre edge.
func hemOf(p model.Pattern, q model.Piece) []string {
	if len(q.Nest) == 0 {
		return nil
	}
	n := len(q.Edges)
	hem := make([]bool, n)
	for j, e := range q.Edges {
		hem[j] = (e.Kind == model.Hem || slices.Contains(strings.Fields(glossary.English(e.Name)), "hem")) && !sewnEdge(p, q.ID, e.ID)
	}
	for _, step := range [2]int{1, n - 1} {
		for j := range n {
			if hem[j] && !hem[(j+step)%n] {
				runOn(p, q, hem, j, step)
			}
		}
	}
	var out []string
	for j, is := range hem {
		if is {
			out = append(out, q.Edges[j].ID)
		}
	}
	return out
}

// runOn counts in the edges that go on from hem edge j, where they end at a
// fold or centre edge and run across the grain all the way.
func runOn(p model.Pattern, q model.Piece, hem []bool, j, step int) {
	var on []int
	for k := (j + step) % len(hem); k != j; k = (k + step) % len(hem) {
		e := q.Edges[k]
		if e.Kind == model.Fold || e.Kind == model.Centre {
			for _, m := range on {
				hem[m] = true
			}
			return
		}
		line := q.Nest[0].Edges[k]
		across, along := q.AcrossAlong(line.End().Sub(line.Start()))
		if hem[k] || e.Kind != model.Plain || math.Abs(across) <= math.Abs(along) || sewnEdge(p, q.ID, e.ID) {
			return
		}
		on = append(on, k)
	}
}

// sewnEdge reports that an edge is sewn to another.
func sewnEdge(p model.Pattern, piece, edge string) bool {
	return slices.ContainsFunc(p.Links, func(l model.Link) bool {
		return l.Kind == model.Sewn && slices.ContainsFunc(append(l.Leads(), l.Follow), func(s model.Stretch) bool {
			return s.Piece == piece && slices.Contains(s.Edges, edge)
		})
	})
}

// hemsMeet reports that two hems meet at an end of a seam, or that the one has
// the other's line.
func hemsMeet(p model.Pattern, a, b model.Stretch) bool {
	for _, l := range p.Links {
		if l.Kind == model.SameLine && (overlap(l.Lead, a) && overlap(l.Follow, b) || overlap(l.Lead, b) && overlap(l.Follow, a)) {
			return true
		}
		if l.Kind != model.Sewn {
			continue
		}
		lead := l.Leads()
		for _, x := range [2][2]model.Stretch{{a, b}, {b, a}} {
			starts := ends(p, x[0], lead[0], true) && ends(p, x[1], l.Follow, true)
			stops := ends(p, x[0], lead[len(lead)-1], false) && ends(p, x[1], l.Follow, false)
			if starts || stops {
				return true
			}
		}
	}
	return false
}

func overlap(a, b model.Stretch) bool {
	return a.Piece == b.Piece && slices.ContainsFunc(a.Edges, func(e string) bool { return slices.Contains(b.Edges, e) })
}

// ends reports that the hem lies at the start of a stretch as walked, or at its
// end.
func ends(p model.Pattern, hem, s model.Stretch, start bool) bool {
	i := p.PieceIndex(s.Piece)
	if s.Piece != hem.Piece || i < 0 || len(s.Edges) == 0 {
		return false
	}
	q := p.Pieces[i]
	n := len(q.Edges)
	edge := s.Edges[len(s.Edges)-1]
	if start {
		edge = s.Edges[0]
	}
	j := q.EdgeIndex(edge)
	if j < 0 {
		return false
	}
	beside := (j + 1) % n
	if start != s.Reverse {
		beside = (j + n - 1) % n
	}
	return slices.Contains(hem.Edges, q.Edges[beside].ID)
}
