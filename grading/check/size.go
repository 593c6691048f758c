package check

import (
	"fmt"
	"math"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/measure"
)

func show(mm float64, p model.Pattern) string { return measure.FormatMM(mm, string(p.Unit)) }

// shortfall says what grading by steps leaves short of the chart.
func shortfall(p model.Pattern, r grading.Result) []Finding {
	const agree = 0.5 // mm of girth that no tape shows
	var out []Finding
	for _, s := range r.Short {
		by := s.Missing()
		if math.Abs(by) < agree {
			continue
		}
		f := Finding{Code: "by-steps", Measure: s.Measure, By: by, Look: p.Target.Method == model.BySteps, Action: easeAction(p.Target)}
		f.What = pick(by > 0, words.T("%s is too tight by steps"), words.T("%s is too wide by steps"), capital(s.Measure.Said()))
		f.Much = fmt.Sprintf("%s %s", show(math.Abs(by), p), wantedFor(p, s.Measure, r.Size))
		if by > 0 {
			f.Say = words.F("By steps the %s is %s too tight %s: the chart's steps grow past size %s.", s.Measure.Said(), show(by, p), wantedFor(p, s.Measure, r.Size), s.From)
		} else {
			f.Say = words.F("By steps the %s is %s too wide %s: the chart's steps shrink past size %s.", s.Measure.Said(), show(-by, p), wantedFor(p, s.Measure, r.Size), s.From)
		}
		f.Help = words.T("Grade by chart.")
		if !f.Look {
			f.Help = words.T("The line goes by chart, so this is taken care of.")
		}
		out = append(out, f)
	}
	return out
}

// wantedFor says what measure m is wanted for: a size, or the wearer's own.
func wantedFor(p model.Pattern, m model.Measure, size string) string {
	if own, ok := p.Target.Body[m]; ok {
		return words.F("for her own %s", measure.FormatPlace(own, p.Unit))
	}
	return words.F("in size %s", size)
}

// wanted is the lowest and the highest place of the chart that anything is
// wanted at.
func wanted(p model.Pattern) (lowest, highest float64) {
	lowest, highest = p.Target.Place, p.Target.Place
	for m := range p.Target.Body {
		t := p.Target.PlaceFor(p.Chart, m)
		lowest, highest = math.Min(lowest, t), math.Max(highest, t)
	}
	return lowest, highest
}

// reach looks how far past its print the pattern is wanted.
func (l *looking) reach() Checked {
	out := Checked{Check: "far"}
	for _, f := range shortfall(l.p, l.r) {
		if !l.told[f.Measure] { // no girth is measured there
			out.Findings = append(out.Findings, f)
		}
	}
	out.Findings = append(out.Findings, reach(l.p, l.r)...)
	past, any := 0.0, false
	lowest, highest := wanted(l.p)
	for _, q := range l.p.Pieces {
		if first, last, ok := span(l.p.Chart, q); ok && !q.OneForAll {
			any, past = true, math.Max(past, math.Max(first-lowest, highest-last))
		}
	}
	switch {
	case !any:
	case past <= 0:
		out.Title, out.Say = words.T("Reach"), words.T("within the printed sizes")
	default:
		out.Title, out.Say = words.T("Reach"), words.F("%s past the printed sizes", steps(past))
	}
	return out
}

// steps is "1 step", "2.5 steps".
func steps(n float64) string {
	if n == 1 {
		return words.T("1 step")
	}
	return words.F("%s steps", words.Digits(n, 3))
}

// reach says how far the pattern goes past its printed sizes, once for all
// pieces, and which pieces could not be graded at all.
func reach(p model.Pattern, r grading.Result) []Finding {
	var out []Finding
	lowest, highest := wanted(p)
	most := LimitOf(p, LimitFar)
	far := Finding{Code: "far", Look: true, What: words.T("Far past the printed sizes"), Help: words.T("Sew a toile, and look at neckline and shoulder first.")}
	for i, q := range p.Pieces {
		first, last, ok := span(p.Chart, q)
		if !ok {
			continue
		}
		if r.Pieces[i].Frozen && (lowest < first || highest > last) {
			out = append(out, Finding{
				Code: "one-size", Piece: q.ID, Look: true,
				Where: r.Pieces[i].Outline().Bounds().Centre(),
				What:  words.F("%s does not grow", q.Name),
				Much:  words.F("printed in size %s only", q.Nest[0].Label()),
				Say:   words.F("%s was printed in size %s only, so it stays as printed.", q.Name, q.Nest[0].Label()),
				Help:  words.T("Type its gaps or lay cut lines, bring in another size of it, or mark it as the same in all sizes."),
			})
			continue
		}
		if steps := math.Max(first-lowest, highest-last); steps > most {
			most = steps
			far.By, far.Much = steps, words.F("%s steps past them", words.Digits(steps, 3))
			far.Say = words.F("Size %s is %s steps past the printed sizes; a neck and shoulders grow less evenly than that.", r.Size, words.Digits(steps, 3))
			if p.Target.Own() {
				far.Say = words.F("Her own measurements are up to %s steps past the printed sizes; a neck and shoulders grow less evenly than that.", words.Digits(steps, 3))
			}
		}
	}
	if far.Say != "" {
		out = append(out, far)
	}
	return out
}

// unlaid says which pieces could not take their cut lines or shifted edges.
func unlaid(p model.Pattern, r grading.Result) []Finding {
	var out []Finding
	for i, q := range r.Pieces {
		if q.Unlaid == "" {
			continue
		}
		out = append(out, Finding{
			Code: "unlaid", Piece: p.Pieces[i].ID, Look: true, Where: q.Outline().Bounds().Centre(),
			What: words.F("%s cannot take a change", q.Name), Much: q.Unlaid,
			Say: sentence(q.Unlaid), Help: words.T("Take it back, or give it less."),
		})
	}
	return out
}

// sentence is words with a capital and a full stop.
func sentence(s string) string {
	if s == "" {
		return s
	}
	s = capital(s)
	if !strings.HasSuffix(s, ".") {
		s += "."
	}
	return s
}

// span is the chart places of the smallest and largest printed size of q.
func span(c model.SizeChart, q model.Piece) (first, last float64, ok bool) {
	for _, o := range q.Nest {
		for _, size := range o.Sizes() {
			place, known := c.Place(size)
			if !known {
				continue
			}
			if !ok || float64(place) < first {
				first = float64(place)
			}
			if !ok || float64(place) > last {
				last = float64(place)
			}
			ok = true
		}
	}
	return first, last, ok
}
