package propose

import (
	"math"
	"slices"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/measure"
)

// sayFollows is a same-line link in words.
func sayFollows(p model.Pattern, lead, follow *sheet, l model.Link, misfit float64) (what, how string) {
	return words.F("%s follows the %s of %s", nameOf(follow), edgeNames(lead, l.Lead), nameOf(lead)),
		words.F("within %s in print", fine(misfit, p.Unit))
}

// saySewn is a seam in words, with its ease in print.
func saySewn(p model.Pattern, lead []part, follow part, ease float64) (what, how string) {
	how = easeWords(ease, p.Unit, seamed(lead, follow))
	if len(lead) == 1 && lead[0].s == follow.s {
		return words.F("The %s and the %s of %s are sewn together", lead[0].called(), follow.called(), nameOf(follow.s)), how
	}
	var leads []string
	for _, l := range lead {
		s := words.F("the %s of %s", l.called(), nameOf(l.s))
		if l.called() == follow.called() {
			s = words.F("that of %s", nameOf(l.s))
		}
		if !slices.Contains(leads, s) {
			leads = append(leads, s)
		}
	}
	return words.F("The %s of %s is sewn to %s", follow.called(), nameOf(follow.s), list(leads)), how
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
	return strings.TrimSpace(role.said() + " " + r.where)
}

func edgeName(s *sheet, j int) string {
	if n := s.q.Edges[j].Name; n != "" {
		return n
	}
	return words.F("edge %d", j+1)
}

func nameOf(s *sheet) string {
	if s.q.Name == "" {
		return words.T("a piece without a name")
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
		return words.F("edges from %s to %s", names[0], names[len(names)-1])
	}
	return list(names)
}

// list joins words with commas and "and".
func list(names []string) string {
	last := len(names) - 1
	if last < 1 {
		return strings.Join(names, "")
	}
	return words.F("%s and %s", strings.Join(names[:last], ", "), names[last])
}

// easeWords is ease as one speaks of it, to the mm or 1/16 in: on the stitching
// line, or where the allowances are not known on the cutting line.
func easeWords(ease float64, unit model.Unit, seamed bool) string {
	size := measure.Format(math.Abs(ease), measure.WholeMM)
	shown := size + " mm"
	if unit == model.Inches {
		size = measure.Format(math.Abs(ease), measure.Sixteenths)
		shown = size + " " + measure.Inches.Name()
	}
	switch {
	case size == "0" && seamed:
		return words.T("as long in print")
	case size == "0":
		return words.T("as long on the cutting line")
	case ease > 0 && seamed:
		return words.F("%s longer in print", shown)
	case ease > 0:
		return words.F("%s longer on the cutting line", shown)
	case seamed:
		return words.F("%s shorter in print", shown)
	}
	return words.F("%s shorter on the cutting line", shown)
}

// fine is a small distance, rounded up to 0.1 mm or 1/64 in.
func fine(mm float64, unit model.Unit) string {
	grain, word, step := measure.TenthMM, " mm", 0.1
	if unit == model.Inches {
		grain, word, step = measure.SixtyFourths, " "+measure.Inches.Name(), 25.4/64
	}
	const whole = 1e-9 // a step is not rounded up to two
	return measure.Format(max(1, math.Ceil(mm/step-whole))*step, grain) + word
}
