package check

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/glossary"
	"quarterstep/model/measure"
)

// seams looks at every link: a row for each seam, one for all stretches that
// follow a line.
func (l *looking) seams() []Checked {
	byLink := map[string][]Finding{}
	for _, f := range links(l.p, l.r, l.lines) {
		byLink[f.Link] = append(byLink[f.Link], f)
	}
	var rows []seamRow
	follow := Checked{Check: "link"}
	kept := 0
	for _, k := range l.p.Links {
		found := byLink[k.ID]
		if l.brokenLink(k) {
			found = nil
		}
		if k.Kind == model.SameLine {
			follow.Findings = append(follow.Findings, found...)
			follow.Title = words.T("Lines that follow")
			if len(found) == 0 && !l.brokenLink(k) {
				kept++
			}
			continue
		}
		if s, ok := l.seamOf(k); ok && !l.brokenLink(k) {
			found = append(found, l.offSeam(k, s)...)
		}
		rows = addRow(rows, l.seamRow(k, found))
	}
	follow.Say = words.F("%d on their leaders' lines", kept)
	var out []Checked
	for _, r := range rows {
		out = append(out, Checked{"link", r.link, capital(r.title), r.say(l.p), r.findings})
	}
	if follow.Title != "" {
		out = append(out, follow)
	}
	return out
}

// seamRow is one seam, or several of one name between the same pieces.
type seamRow struct {
	link, title        string
	leadName           string // what the leader's figure is called
	followName         string
	lead, follow       float64 // stitched lengths, mm
	least, most        float64 // the ease that is right, mm
	measured, asWanted bool
	findings           []Finding
}

func (l *looking) seamRow(k model.Link, found []Finding) seamRow {
	row := seamRow{link: k.ID, title: words.T("link"), findings: found}
	if !whole(l.p, k) {
		return row
	}
	row.title = stretchTitle(l.p, k)
	row.leadName, row.followName = sides(l.p, k)
	s, ok := l.seamOf(k)
	row.lead, row.follow, row.measured = s.Lead, s.Follow, ok && !l.brokenLink(k)
	row.least, row.most, row.asWanted = s.Wanted.Low, s.Wanted.High, k.EaseFixed
	return row
}

// seamOf is a sewn link as graded; false where it could not be walked.
func (l *looking) seamOf(k model.Link) (grading.Seam, bool) {
	i := slices.IndexFunc(l.r.Seams, func(s grading.Seam) bool { return s.Link == k.ID })
	if i < 0 {
		return grading.Seam{}, false
	}
	return l.r.Seams[i], true
}

// addRow adds a seam to the rows, to that of the same name and pieces where
// there is one.
func addRow(rows []seamRow, add seamRow) []seamRow {
	i := slices.IndexFunc(rows, func(r seamRow) bool {
		return add.measured && r.measured && r.title == add.title && r.leadName == add.leadName && r.followName == add.followName
	})
	if i < 0 {
		return append(rows, add)
	}
	r := &rows[i]
	r.lead, r.follow, r.least, r.most = r.lead+add.lead, r.follow+add.follow, r.least+add.least, r.most+add.most
	r.asWanted = r.asWanted && add.asWanted
	r.findings = append(r.findings, add.findings...)
	return rows
}

// say is "front 316.0, back 316.8 mm", or by how much one is longer where it is
// meant to be.
func (r seamRow) say(p model.Pattern) string {
	if !r.measured {
		return words.T("waits for the outline")
	}
	ease := r.follow - r.lead
	switch {
	case r.most > r.least:
		return words.F("%s of ease, %s to %s wanted", show(ease, p), show(r.least, p), show(r.most, p))
	case math.Abs(r.least) <= sixteenth:
		return exactly(p, r.leadName, r.lead, r.followName, r.follow)
	}
	longer := r.followName
	if ease < 0 {
		longer = r.leadName
	}
	return pick(r.asWanted, words.T("%s %s longer, as wanted"), words.T("%s %s longer, as printed"), longer, show(math.Abs(ease), p))
}

// exactly is two lengths so close that tenths of a millimetre count.
func exactly(p model.Pattern, nameA string, a float64, nameB string, b float64) string {
	shownA, shownB := measure.FormatMM(a, p.Unit), measure.FormatMM(b, p.Unit)
	if shownA == shownB {
		return words.F("both %s", shownA)
	}
	if p.Unit == model.Inches {
		return fmt.Sprintf("%s %s, %s %s", nameA, shownA, nameB, shownB)
	}
	return fmt.Sprintf("%s %s, %s %s mm", nameA, words.Figure(a, 1), nameB, words.Figure(b, 1))
}

// sides is what the two sides of a seam are called: by their pieces, or within
// one piece by their edges.
func sides(p model.Pattern, k model.Link) (lead, follow string) {
	q := p.Pieces[p.PieceIndex(k.Lead.Piece)]
	f := p.Pieces[p.PieceIndex(k.Follow.Piece)]
	if q.ID == f.ID {
		return stretchName(q, k.Lead), stretchName(f, k.Follow)
	}
	return q.Name, f.Name
}

// stretchTitle is what a seam is called: by the words all its edges share, as
// in "sleeve seam", else by its follower and what that is sewn to.
func stretchTitle(p model.Pattern, k model.Link) string {
	title, _ := sharedTitle(p, k)
	return title
}

// sharedTitle is stretchTitle; shared is false where it names one piece on an
// edge of another.
func sharedTitle(p model.Pattern, k model.Link) (title string, shared bool) {
	var names [][]string
	for _, s := range append(k.Leads(), k.Follow) {
		q := p.Pieces[p.PieceIndex(s.Piece)]
		for _, id := range s.Edges {
			names = append(names, strings.Fields(edgeName(q, q.EdgeIndex(id))))
		}
	}
	if name := sharedStart(names); name != "" {
		if !strings.Contains(glossary.English(name), "seam") {
			name = words.F("%s seam", name)
		}
		return name, true
	}
	lead, follow := p.Pieces[p.PieceIndex(k.Lead.Piece)], p.Pieces[p.PieceIndex(k.Follow.Piece)]
	if lead.ID == follow.ID {
		return stretchName(follow, k.Follow), true
	}
	return words.F("%s on the %s", follow.Name, stretchName(lead, k.Lead)), false
}

// sharedStart is the words all names start with, or else end with.
func sharedStart(names [][]string) string {
	turned := make([][]string, len(names))
	for i, n := range names {
		turned[i] = slices.Clone(n)
		slices.Reverse(turned[i])
	}
	if first := prefix(names); len(first) > 0 {
		return strings.Join(first, " ")
	}
	last := prefix(turned)
	slices.Reverse(last)
	return strings.Join(last, " ")
}

func prefix(names [][]string) []string {
	out := slices.Clone(names[0])
	for _, n := range names[1:] {
		k := 0
		for k < len(out) && k < len(n) && out[k] == n[k] {
			k++
		}
		out = out[:k]
	}
	return out
}
