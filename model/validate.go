package model

import (
	"math"
	"slices"
	"strings"

	"quarterstep/assets/words"
)

// MaxAllowance is the seam allowance in mm an edge must stay below.
const MaxAllowance = 100

// Validate looks for everything in p that cannot be, and returns it as
// Problems, or nil. The rules:
//
//  1. The chart of a pattern with pieces has sizes; no two share a name or
//     second name; body measures are above 0.
//  2. The target lies on the chart; unit and method are known ones; the
//     wearer's measurements are above 0.
//  3. IDs are not empty; pieces' and links' differ in the pattern; those of
//     points, edges, lines, notches and darts each differ in their piece.
//  4. A piece has as many grade points as edges, at least two; cutting counts
//     are not below 0; it lies at ordinary coordinates.
//  5. Edge, line and link kinds are known; allowances are from 0 to below
//     MaxAllowance.
//  6. A piece is printed in at least one size; each size is on the chart, once,
//     smallest first, also where several share a line.
//  7. A printed line has one path per edge, each whole and joined to the next
//     within 1e-6 mm, the last to the first.
//  8. Lines are whole, and drawn once for each size they name, on the chart.
//  9. Notches lie on an edge of the piece, within its printed length and half
//     a millimetre, in at least one size, once for each.
//  10. Darts stand between two different points of the piece and have an apex.
//  11. Hand corrections are of points and edges of the piece, once each (for
//     each stage and style), by ordinary amounts; stages are sizes of the chart.
//  12. Links join edges that are there, each end at least one, with ordinary
//     ease and room for it; only seams go on along further stretches or give way.
//  13. Typed gaps are of points of the piece, once each; cuts have a length, a
//     measure and an ordinary share.
//  14. Lengthenings are of lengthen lines, one to a piece, and edges that are
//     there, by at most MaxLengthening.
//  15. Limits of checks are ordinary and not below 0.
//  16. Pictures have a file and a scale; tracings are of pictures that are there,
//     in sizes of the chart, once each, every edge whole and from corner to
//     corner; their files have plain names.
//  17. There is no more of anything than can be worked with, no name or number
//     is beyond all use, and nothing lies farther away than paper is; where this
//     is broken no other rule is looked at.
func (p Pattern) Validate() error {
	c := checker{p: p}
	if c.sizes() {
		c.chart()
		c.target()
		c.pieces()
		c.links()
		c.lengths()
		c.limits()
		c.pictures()
		c.tracings()
	}
	switch {
	case len(c.found) == 0:
		return nil
	case c.untold > 0:
		c.found = append(c.found, Problem{Rule: c.found[0].Rule, Say: words.F("and %d faults more", c.untold)})
	}
	return c.found
}

// checker gathers problems; piece is the name of the piece being looked at.
type checker struct {
	p      Pattern
	piece  string
	found  Problems
	untold int // found beyond mostTold
}

// mostTold is how many problems are told; nobody reads more.
const mostTold = 50

func (c *checker) add(rule int, size, place, say string) {
	if len(c.found) >= mostTold {
		c.untold++
		return
	}
	c.found = append(c.found, Problem{rule, c.piece, size, place, say})
}

func (c *checker) chart() {
	place := words.T("size chart")
	if len(c.p.Chart.Sizes) == 0 && len(c.p.Pieces) > 0 {
		c.add(1, "", place, words.T("it has no sizes; choose a chart"))
	}
	taken := make(map[string]bool, 2*len(c.p.Chart.Sizes))
	for _, s := range c.p.Chart.Sizes {
		if s.Name == "" {
			c.add(1, "", place, words.T("a size has no name"))
		}
		names := []string{foldName(s.Name), foldName(s.Alt)}
		if names[0] == names[1] {
			names = names[:1]
		}
		for _, n := range names {
			if n != "" && taken[n] {
				c.add(1, s.Name, place, words.F("another size is called %s too", n))
			}
			taken[n] = true
		}
		for _, m := range sortedMeasures(s.Body) {
			if v := s.Body[m]; m == Steps || !ordinary(v) || v <= 0 {
				c.add(1, s.Name, place, words.F("%s cannot be %v mm", m.Said(), v))
			}
		}
	}
}

func sortedMeasures(body map[Measure]float64) []Measure {
	out := make([]Measure, 0, len(body))
	for m := range body {
		out = append(out, m)
	}
	slices.Sort(out)
	return out
}

func (c *checker) target() {
	t := c.p.Target
	if _, ok := c.p.Chart.At(t.Place, Steps); !ok && len(c.p.Chart.Sizes) > 0 {
		c.add(2, "", words.T("size wanted"), words.F("it lies off the chart, at place %v of %d", t.Place, len(c.p.Chart.Sizes)))
	}
	if !slices.Contains([]Method{"", ByChart, BySteps}, t.Method) {
		c.add(2, "", words.T("size wanted"), words.F("there is no way of grading called %q", t.Method))
	}
	for _, m := range sortedMeasures(t.Body) {
		if v := t.Body[m]; m == Steps || m == "" || !ordinary(v) || v <= 0 {
			c.add(2, "", words.T("wearer"), words.F("%s cannot be %v mm", m.Said(), v))
		}
	}
	if !slices.Contains([]Unit{"", Centimetres, Inches}, c.p.Unit) {
		c.add(2, "", words.T("unit"), words.F("lengths cannot be shown in %q", c.p.Unit))
	}
}

func (c *checker) pieces() {
	ids := idSet{}
	for i, q := range c.p.Pieces {
		c.piece = q.Name
		if c.piece == "" {
			c.piece = words.F("piece %d", i+1)
		}
		if why := ids.refuses(q.ID); why != "" {
			c.add(3, "", "", why)
		}
		pc := pieceChecker{checker: c, q: q}
		pc.all()
	}
	c.piece = ""
}

func (c *checker) links() {
	ids := idSet{}
	for i, l := range c.p.Links {
		place := words.F("link %d", i+1)
		if why := ids.refuses(l.ID); why != "" {
			c.add(3, "", place, why)
		}
		if l.Kind != SameLine && l.Kind != Sewn {
			c.add(5, "", place, words.F("%q is no kind of link", l.Kind))
		}
		if !ordinary(l.Ease) || !ordinary(l.Room) || l.Room < 0 {
			c.add(12, "", place, words.T("its ease is no number"))
		}
		if !slices.Contains(Refits, l.Refit) {
			c.add(12, "", place, words.F("nothing gives way by %q", l.Refit))
		}
		if l.Kind == SameLine && (len(l.And) > 0 || l.Refit != NoRefit) {
			c.add(12, "", place, words.T("a line that follows another has one leader and does not give way"))
		}
		for _, s := range append(l.Leads(), l.Follow) {
			c.stretch(12, s, place, words.T("take the link away"))
		}
	}
}

func (c *checker) stretch(rule int, s Stretch, place, remedy string) {
	i := c.p.PieceIndex(s.Piece)
	if i < 0 {
		c.add(rule, "", place, words.F("a piece it joins is not there; %s", remedy))
		return
	}
	if len(s.Edges) == 0 {
		c.add(rule, "", place, words.F("it joins no edge of %s", c.p.Pieces[i].Name))
	}
	for _, e := range s.Edges {
		if c.p.Pieces[i].EdgeIndex(e) < 0 {
			c.add(rule, "", place, words.F("an edge it joins is not on %s; %s", c.p.Pieces[i].Name, remedy))
		}
	}
}

// idSet is the IDs met so far.
type idSet map[string]bool

// refuses takes id in and says what is wrong with it; empty when nothing is.
func (s idSet) refuses(id string) string {
	switch {
	case id == "":
		return words.T("it has no ID")
	case s[id]:
		return words.F("its ID %q is taken", id)
	}
	s[id] = true
	return ""
}

// ordinary reports that a number can be one of a pattern.
func ordinary(x float64) bool { return math.Abs(x) <= farthest }

// foldName is a size's name as SizeChart.Place compares it.
func foldName(s string) string { return strings.ToLower(strings.TrimSpace(s)) }
