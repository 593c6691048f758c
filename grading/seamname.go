package grading

import (
	"strings"
	"unicode"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/glossary"
)

// archName is what an arched stretch is called: a sleeve's is its cap.
func archName(q model.Piece, s model.Stretch) string {
	for _, id := range s.Edges {
		if j := q.EdgeIndex(id); j >= 0 && strings.Contains(glossary.English(q.Edges[j].Name), "cap") {
			return words.T("cap")
		}
	}
	if strings.Contains(glossary.English(q.Name), "sleeve") {
		return words.T("cap")
	}
	return words.T("curve")
}

// endName is what the end of a stretch is called at which a follower gives way:
// its grade point's name, or the edge it lies on.
func endName(q model.Piece, s model.Stretch, r model.Refit) string {
	start := r == model.StartAcross || r == model.StartAlong
	id := s.Edges[0]
	if !start {
		id = s.Edges[len(s.Edges)-1]
	}
	j := q.EdgeIndex(id)
	if j < 0 {
		return words.T("end")
	}
	k := j
	if start == s.Reverse {
		k = (j + 1) % len(q.Points)
	}
	if q.Points[k].Name != "" {
		return q.Points[k].Name
	}
	if q.Edges[j].Name != "" {
		return words.F("end of the %s", q.Edges[j].Name)
	}
	return words.T("end")
}

// lower is a name within a sentence: only its first letter, and only where the
// word is not all capitals, nor the language one that writes nouns with them.
func lower(name string) string {
	if words.Capitals() {
		return name
	}
	r := []rune(name)
	if len(r) > 1 && unicode.IsUpper(r[1]) {
		return name
	}
	if len(r) > 0 {
		r[0] = unicode.ToLower(r[0])
	}
	return string(r)
}
