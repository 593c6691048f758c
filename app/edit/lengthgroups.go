package edit

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/glossary"
)

// LengthGroup is what is made longer or shorter by one amount: the lengthen
// lines, or the hems, of pieces that are sewn together there.
type LengthGroup struct {
	ID     string // of the lengthening in force; empty while nothing is put in
	Name   string // "Above the waist"; no two groups of a pattern have the same
	By     float64
	Lines  []model.PieceLine
	Hems   []model.Stretch
	Pieces []string // piece IDs, in the pattern's order
}

// LengthGroups is what of p can be made longer or shorter: first the lengthen
// lines, those of pieces that are sewn together along edges both lines cross at
// about the same distance from an end as one group, and those of pieces that
// share a line; lines that meet no other go together when they have the same
// name, unless it is only "lengthen or shorten here". Then the hems, those that
// meet at the end of a seam as one group.
func LengthGroups(p model.Pattern) []LengthGroup {
	groups := append(lineGroups(p), hemGroups(p)...)
	tellApart(p, groups)
	for i := range groups {
		groups[i].inForce(p)
	}
	return groups
}

// FindLength is the group with that name, whatever its capitals, or the
// lengthening's ID.
func FindLength(groups []LengthGroup, name string) (LengthGroup, bool) {
	i := slices.IndexFunc(groups, func(g LengthGroup) bool {
		return strings.EqualFold(g.Name, strings.TrimSpace(name)) || g.ID != "" && g.ID == name
	})
	if i < 0 {
		return LengthGroup{}, false
	}
	return groups[i], true
}

func lineGroups(p model.Pattern) []LengthGroup {
	lines := lengthenLines(p)
	sets := newSets(len(lines))
	met := make([]bool, len(lines))
	for i := range lines {
		for k := range i {
			for _, link := range p.Links {
				if lines[i].meet(lines[k], link) && apart(lines, sets, i, k) {
					sets.join(i, k)
					met[i], met[k] = true, true
				}
			}
		}
	}
	for i := range lines {
		for k := range i {
			if !met[i] && !met[k] && ownName(lines[i].line.Name) && strings.EqualFold(lines[i].line.Name, lines[k].line.Name) && apart(lines, sets, i, k) {
				sets.join(i, k)
			}
		}
	}
	var out []LengthGroup
	for _, set := range sets.all() {
		g := LengthGroup{Name: zone(lines[set[0]])}
		for _, i := range set {
			g.Lines = append(g.Lines, lines[i].at)
			if !slices.Contains(g.Pieces, lines[i].q.ID) {
				g.Pieces = append(g.Pieces, lines[i].q.ID)
			}
		}
		out = append(out, g)
	}
	return out
}

// apart reports that no piece has a line in the set of i and one in that of k: a
// piece is not made longer twice by one amount.
func apart(lines []lengthenLine, s sets, i, k int) bool {
	for a := range lines {
		for b := range lines {
			if s.of(a) == s.of(i) && s.of(b) == s.of(k) && a != b && lines[a].q.ID == lines[b].q.ID {
				return false
			}
		}
	}
	return true
}

// ownName reports that a line's name says more than what every lengthen line is
// for.
func ownName(name string) bool {
	for w := range strings.FieldsFuncSeq(glossary.English(name), func(r rune) bool { return !unicode.IsLetter(r) }) {
		if !slices.Contains([]string{"lengthen", "shorten", "or", "and", "here", "line", "the", "at", "this"}, w) {
			return true
		}
	}
	return false
}

// zone says where on the body a line lies by the level lines drawn on its
// piece; without any it is the piece's name.
func zone(l lengthenLine) string {
	o := l.q.Nest[len(l.q.Nest)-1]
	grain := l.q.GrainDir()
	down := func(k model.LineKind) (float64, bool) {
		for _, line := range l.q.Lines {
			if path, ok := drawnIn(line, o); ok && line.Kind == k {
				return path.Start().Lerp(path.End(), 0.5).Sub(l.from.Lerp(l.to, 0.5)).Dot(grain), true
			}
		}
		return 0, false
	}
	hip, hasHip := down(model.HipLine)
	waist, hasWaist := down(model.WaistLine)
	bust, hasBust := down(model.BustLine)
	switch {
	case hasHip && hip < 0:
		return words.T("Below the hip")
	case hasWaist && waist < 0:
		return words.T("Below the waist")
	case hasBust && bust > 0:
		return words.T("Above the bust")
	case hasWaist:
		return words.T("Above the waist")
	case hasHip:
		return words.T("Above the hip")
	case hasBust:
		return words.T("Below the bust")
	}
	return l.q.Name
}

// tellApart gives groups of the same name their pieces' names too, and where
// those are the same a number.
func tellApart(p model.Pattern, groups []LengthGroup) {
	count := map[string]int{}
	for _, g := range groups {
		count[g.Name]++
	}
	taken := map[string]bool{}
	for i, g := range groups {
		name := g.Name
		if q := p.PieceIndex(g.Pieces[0]); count[name] > 1 && p.Pieces[q].Name != name {
			name = fmt.Sprintf("%s, %s", name, lower(p.Pieces[q].Name))
		}
		first := name
		for n := 2; taken[name]; n++ {
			name = fmt.Sprintf("%s %d", first, n)
		}
		taken[name] = true
		groups[i].Name = name
	}
}

// lower is a name inside another, but where names keep their capitals.
func lower(name string) string {
	if words.Capitals() {
		return name
	}
	r, n := utf8.DecodeRuneInString(name)
	return string(unicode.ToLower(r)) + name[n:]
}

// inForce fills in what the pattern already puts in at g, where its lines and
// hems differ the most, and the lengthening that does.
func (g *LengthGroup) inForce(p model.Pattern) {
	put := map[string]float64{}
	for _, l := range p.Lengths {
		if !g.shares(l) {
			continue
		}
		if g.ID == "" {
			g.ID = l.ID
		}
		for _, at := range l.Lines {
			if slices.Contains(g.Lines, at) {
				put[at.Piece] += l.By
			}
		}
		for _, h := range l.Hems {
			if g.hasHem(h) {
				put[h.Piece] += l.By
			}
		}
	}
	for _, id := range g.Pieces {
		if math.Abs(put[id]) > math.Abs(g.By) {
			g.By = put[id]
		}
	}
}

// shares reports that a lengthening is, at least in part, of g.
func (g LengthGroup) shares(l model.Lengthening) bool {
	return slices.ContainsFunc(l.Lines, func(at model.PieceLine) bool { return slices.Contains(g.Lines, at) }) ||
		slices.ContainsFunc(l.Hems, g.hasHem)
}

// hasHem reports that one of s's edges is among g's hems.
func (g LengthGroup) hasHem(s model.Stretch) bool {
	return slices.ContainsFunc(g.Hems, func(h model.Stretch) bool {
		return h.Piece == s.Piece && slices.ContainsFunc(h.Edges, func(e string) bool { return slices.Contains(s.Edges, e) })
	})
}

// sets is numbers 0 to n-1 in sets that are joined.
type sets []int

func newSets(n int) sets {
	s := make(sets, n)
	for i := range s {
		s[i] = i
	}
	return s
}

func (s sets) of(i int) int {
	for s[i] != i {
		i = s[i]
	}
	return i
}

func (s sets) join(i, k int) {
	a, b := s.of(i), s.of(k)
	s[max(a, b)] = min(a, b)
}

// all is the sets, each ascending, in the order of their first numbers.
func (s sets) all() [][]int {
	var out [][]int
	index := map[int]int{}
	for i := range s {
		root := s.of(i)
		k, ok := index[root]
		if !ok {
			k = len(out)
			index[root] = k
			out = append(out, nil)
		}
		out[k] = append(out[k], i)
	}
	return out
}
