package ui

import (
	"slices"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/glossary"
)

// stretchName is what a stretch's edges are called together: the words they
// share, as "cap" for back and front cap; else the name of the longest in print.
func stretchName(q model.Piece, s model.Stretch) string {
	var names []string
	longest, most := words.T("edge"), -1.0
	for _, id := range s.Edges {
		j := q.EdgeIndex(id)
		if j < 0 || q.Edges[j].Name == "" {
			continue
		}
		names = append(names, q.Edges[j].Name)
		chord := 0.0
		if len(q.Nest) > 0 {
			chord = q.Nest[0].Edges[j].Start().Dist(q.Nest[0].Edges[j].End())
		}
		if chord > most {
			longest, most = q.Edges[j].Name, chord
		}
	}
	if len(names) > 1 {
		if shared := sharedWords(names); shared != "" {
			return shared
		}
	}
	return longest
}

// sharedWords is the words all names begin with, else those all end with.
func sharedWords(names []string) string {
	parts := make([][]string, len(names))
	least := len(strings.Fields(names[0]))
	for i, n := range names {
		parts[i] = strings.Fields(n)
		least = min(least, len(parts[i]))
	}
	first := parts[0]
	same := func(at func(w []string) string) bool {
		return !slices.ContainsFunc(parts, func(w []string) bool { return at(w) != at(first) })
	}
	begins, ends := 0, 0
	for begins < least && same(func(w []string) string { return w[begins] }) {
		begins++
	}
	for ends < least && same(func(w []string) string { return w[len(w)-1-ends] }) {
		ends++
	}
	if begins > 0 {
		return strings.Join(first[:begins], " ")
	}
	return strings.Join(first[len(first)-ends:], " ")
}

// sideName is a stretch with its piece, in small letters: "front shoulder".
func sideName(q model.Piece, s model.Stretch) string {
	name, piece := words.Small(stretchName(q, s)), words.Small(q.Name)
	if strings.Contains(strings.ToLower(name), strings.ToLower(piece)) {
		return name
	}
	return words.F("%s %s", piece, name)
}

// leadName is what the leader's side of a link is called, in small letters:
// with the piece where it is of one piece, without where it is of several.
func leadName(p model.Pattern, l model.Link) string {
	i := p.PieceIndex(l.Lead.Piece)
	if i < 0 {
		return words.T("edge")
	}
	for _, s := range l.And {
		if s.Piece != l.Lead.Piece {
			return words.Small(stretchName(p.Pieces[i], l.Lead))
		}
	}
	return sideName(p.Pieces[i], l.Lead)
}

// followName is what the follower's side of a link is called.
func followName(p model.Pattern, l model.Link) string {
	i := p.PieceIndex(l.Follow.Piece)
	if i < 0 {
		return words.T("edge")
	}
	return sideName(p.Pieces[i], l.Follow)
}

// shortName is a leader's piece in small letters by its first word, where that
// tells it from the link's other pieces.
func shortName(p model.Pattern, l model.Link, piece string) string {
	first := func(id string) string {
		i := p.PieceIndex(id)
		if i < 0 || strings.TrimSpace(p.Pieces[i].Name) == "" {
			return ""
		}
		return words.Small(strings.Fields(p.Pieces[i].Name)[0])
	}
	word := first(piece)
	for _, s := range l.Leads() {
		if s.Piece != piece && first(s.Piece) == word {
			if i := p.PieceIndex(piece); i >= 0 {
				return words.Small(p.Pieces[i].Name)
			}
		}
	}
	return word
}

// linkTitle is a link in words: "Sleeve cap fits the armhole".
func linkTitle(p model.Pattern, l model.Link) string {
	if l.Kind == model.SameLine {
		if i := p.PieceIndex(l.Follow.Piece); i >= 0 {
			return words.F("%s follows the %s", p.Pieces[i].Name, leadName(p, l))
		}
	}
	return words.F("%s fits the %s", capital(followName(p, l)), leadName(p, l))
}

// isSide reports that an edge is called a side seam, or a part of one.
func isSide(name string) bool { return strings.HasPrefix(glossary.English(name), "side") }

// linkWhole reports whether every piece and edge a link names is there.
func linkWhole(p model.Pattern, l model.Link) bool {
	for _, s := range append(l.Leads(), l.Follow) {
		i := p.PieceIndex(s.Piece)
		if i < 0 || len(s.Edges) == 0 {
			return false
		}
		for _, e := range s.Edges {
			if p.Pieces[i].EdgeIndex(e) < 0 {
				return false
			}
		}
	}
	return true
}
