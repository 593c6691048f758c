package propose

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"quarterstep/model"
	"quarterstep/model/measure"
)

// sayFollows is a same-line link in words.
func sayFollows(p model.Pattern, lead, follow *sheet, l model.Link, misfit float64) (what, how string) {
	return fmt.Sprintf("%s follows the %s of %s", nameOf(follow), edgeNames(lead, l.Lead), nameOf(lead)),
		fmt.Sprintf("within %s in print", fine(misfit, p.Unit))
}

// saySewn is a seam in words, with its ease in print.
func saySewn(p model.Pattern, lead []part, follow part, ease float64) (what, how string) {
	how = easeWords(ease, p.Unit, seamed(lead, follow))
	if len(lead) == 1 && lead[0].s == follow.s {
		return fmt.Sprintf("The %s and the %s of %s are sewn together", lead[0].called(), follow.called(), nameOf(follow.s)), how
	}
	var leads []string
	for _, l := range lead {
		s := fmt.Sprintf("the %s of %s", l.called(), nameOf(l.s))
		if l.called() == follow.called() {
			s = "that of " + nameOf(l.s)
		}
		if !slices.Contains(leads, s) {
			leads = append(leads, s)
		}
	}
	return fmt.Sprintf("The %s of %s is sewn to %s", follow.called(), nameOf(follow.s), list(leads)), how
}

// called is what a run is called: one edge by its name, several by what they
// are together.
func (r run) called() string {
	role := r.s.role[r.edges[0]]
	switch {
	case len(r.edges) == 1 && r.where == "":
		return edgeName(r.s, r.edges[0])
	case role == unknown || role == bandEdge:
		return edgeNames(r.s, r.stretch(false))
	}
	return strings.TrimSpace(string(role) + " " + r.where)
}

func edgeName(s *sheet, j int) string {
	if n := s.q.Edges[j].Name; n != "" {
		return n
	}
	return fmt.Sprintf("edge %d", j+1)
}

func nameOf(s *sheet) string {
	if s.q.Name == "" {
		return "a piece without a name"
	}
	return s.q.Name
}

// edgeNames is the edges of a stretch: one to three by name, more from the
// first to the last.
func edgeNames(s *sheet, of model.Stretch) string {
	var names []string
	for _, id := range of.Edges {
		names = append(names, edgeName(s, s.q.EdgeIndex(id)))
	}
	if len(names) > 3 {
		return "edges from " + names[0] + " to " + names[len(names)-1]
	}
	return list(names)
}

// list joins words with commas and "and".
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

// easeWords is ease as one speaks of it, to the mm or 1/16 in: on the stitching
// line, or where the allowances are not known on the cutting line.
func easeWords(ease float64, unit model.Unit, seamed bool) string {
	grain, word, where := measure.WholeMM, " mm", " in print"
	if unit == model.Inches {
		grain, word = measure.Sixteenths, " in"
	}
	if !seamed {
		where = " on the cutting line"
	}
	size := measure.Format(math.Abs(ease), grain)
	switch {
	case size == "0":
		return "as long" + where
	case ease > 0:
		return size + word + " longer" + where
	}
	return size + word + " shorter" + where
}

// fine is a small distance, rounded up to 0.1 mm or 1/64 in.
func fine(mm float64, unit model.Unit) string {
	grain, word, step := measure.TenthMM, " mm", 0.1
	if unit == model.Inches {
		grain, word, step = measure.SixtyFourths, " in", 25.4/64
	}
	const whole = 1e-9 // a step is not rounded up to two
	return measure.Format(max(1, math.Ceil(mm/step-whole))*step, grain) + word
}
