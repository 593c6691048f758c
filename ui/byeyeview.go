package ui

import (
	"cmp"
	"slices"

	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/measure"
	"quarterstep/ui/panel"
)

// byEyeView is the By eye panel for edge j and point k of piece i; where no
// point is in hand it speaks of the one the edge starts at.
func byEyeView(p model.Pattern, r grading.Result, i, j, k int) panel.ByEyeView {
	if i < 0 || i >= len(p.Pieces) || j < 0 || j >= len(p.Pieces[i].Edges) {
		return panel.ByEyeView{Empty: words.T("Pick an edge on the Table.")}
	}
	q, g := p.Pieces[i], r.Pieces[i]
	k = pointOrStart(j, k)
	v := panel.ByEyeView{
		Point: words.F("%s follows", pointName(q, k)), Edge: edgeName(q, j), Unit: smallUnit(p.Unit),
		Stages: p.Target.Stages,
	}
	for a, s := range []grading.Share{g.Points[k].Across, g.Points[k].Along} {
		v.Follows[a] = followView(p, q.Points[k], s, a == 1)
	}
	v.Curves, v.Curve = curveChoices(q, j)
	for _, s := range edit.Styles {
		v.Styles = append(v.Styles, words.Text(s).String())
	}
	if g.Unlaid != "" && len(q.Hand.Shifts) > 0 {
		v.Unlaid = words.F("%s. Take it back, or give it less.", capital(g.Unlaid))
	}
	v.Stage = stageLine(p, q)
	for _, c := range allCorrections(p, q) {
		what := c.What
		if o := p.PieceIndex(c.Piece); o >= 0 && o != i {
			what = p.Pieces[o].Name + ": " + what
		}
		v.Hand = append(v.Hand, what)
	}
	if !q.Hand.IsZero() {
		v.All = words.F("Take back all of %s", q.Name)
	}
	return v
}

// stageLine says what a correction made now will hold for.
func stageLine(p model.Pattern, q model.Piece) string {
	if !p.Target.Stages {
		return words.T("Off: a correction holds at every size.")
	}
	size := edit.StageAt(p, q)
	if size == "" {
		return words.F("%s is printed in this size: a correction made now holds at every size.", q.Name)
	}
	return words.F("A correction made now belongs to size %s: sizes beyond go on from it, and the printed sizes keep their line.", size)
}

func pointOrStart(j, k int) int {
	if k < 0 {
		return j
	}
	return k
}

// followView lists what a point can follow, the proposal first, and says how
// well the print agrees with what it does follow.
func followView(p model.Pattern, g model.GradePoint, s grading.Share, down bool) panel.FollowView {
	named := g.Across
	if down {
		named = g.Along
	}
	v := panel.FollowView{Options: []string{words.F("as proposed: %s", s.Proposed.Said())}}
	if s.Proposed == "" {
		v.Options[0] = words.T("as proposed")
	}
	fit := fitting(s)
	all := len(fit) == len(s.Fits)
	for _, m := range followMeasures(p.Chart) {
		if named == m {
			v.Chosen = len(v.Options)
		}
		name := capital(m.Said())
		if slices.Contains(fit, m) && !all {
			name = words.F("%s, fits the print", name)
		}
		v.Options = append(v.Options, name)
	}
	k := slices.IndexFunc(s.Fits, func(f grading.Fits) bool { return f.Measure == s.Follows })
	if k >= 0 {
		v.Fit = words.F("Printed gaps follow %s within %s.", s.Follows.Said(), fine(s.Residual, p.Unit))
		if best := s.Fits[0]; best.Residual < s.Residual/2 && s.Residual > 0.5 {
			v.Fit += " " + words.F("%s fits within %s.", capital(best.Measure.Said()), fine(best.Residual, p.Unit))
		}
		if all {
			v.Fit += " " + words.T("They fit every other measure as well.")
		}
	}
	return v
}

// fitting lists the measures that the print follows as near as it does the
// proposal.
func fitting(s grading.Share) []model.Measure {
	const even = 0.01 // mm
	at := slices.IndexFunc(s.Fits, func(f grading.Fits) bool { return f.Measure == s.Proposed })
	if at < 0 {
		return nil
	}
	var out []model.Measure
	for _, f := range s.Fits {
		if f.Residual <= s.Fits[at].Residual+even {
			out = append(out, f.Measure)
		}
	}
	return out
}

// followMeasures is steps and every measure of the chart, as followView lists
// them.
func followMeasures(c model.SizeChart) []model.Measure {
	out := []model.Measure{model.Steps}
	for _, m := range c.Measures {
		if c.Has(m) {
			out = append(out, m)
		}
	}
	return out
}

// fine is a small length to a tenth of a millimetre or a 64th of an inch, at
// least one of them.
func fine(mm float64, u model.Unit) string {
	if u == model.Inches {
		return measure.Format(max(mm, 25.4/64), measure.SixtyFourths) + " " + smallUnit(u)
	}
	return measure.Format(max(mm, 0.1), measure.TenthMM) + " " + smallUnit(u)
}

// The curves an edge can have, as curveChoices lists them; printed sizes follow.
const (
	curveTrend = iota
	curveNearest
	curveStraight
	curvePrinted
)

// curveChoices lists where edge j can take its curve from, and where it does.
// Her own shaping of it stands at the end while there is any.
func curveChoices(q model.Piece, j int) ([]string, int) {
	out := []string{words.T("Printed trend"), words.T("As the nearest size"), words.C("a curve", "Straight")}
	chosen := curveTrend
	id := q.Edges[j].ID
	kept := slices.IndexFunc(q.Hand.Curves, func(c model.EdgeCurve) bool { return c.Edge == id })
	for n, o := range q.Nest {
		out = append(out, words.F("As size %s", o.Label()))
		if kept >= 0 && q.Hand.Curves[kept].Kind == model.PrintedCurve && q.Hand.Curves[kept].Size == o.Size {
			chosen = curvePrinted + n
		}
	}
	if kept >= 0 {
		switch q.Hand.Curves[kept].Kind {
		case model.NearestCurve:
			chosen = curveNearest
		case model.StraightCurve:
			chosen = curveStraight
		}
	}
	if slices.ContainsFunc(q.Hand.Shapes, func(s model.EdgeShape) bool { return s.Edge == id }) {
		chosen = len(out)
		out = append(out, words.T("By eye"))
	}
	return out, chosen
}

// correctedLine is the folded state of the By eye panel.
func correctedLine(p model.Pattern) string {
	n := len(edit.Corrections(p))
	if n == 0 {
		return words.T("no corrections")
	}
	return count(n, "correction")
}

// allCorrections is every correction of a pattern: those of piece q first, then
// style changes over all pieces, then those of the others.
func allCorrections(p model.Pattern, q model.Piece) []edit.Correction {
	all := edit.Corrections(p)
	rank := func(c edit.Correction) int {
		switch c.Piece {
		case q.ID:
			return 0
		case "":
			return 1
		}
		return 2
	}
	slices.SortStableFunc(all, func(a, b edit.Correction) int { return cmp.Compare(rank(a), rank(b)) })
	return all
}
