package app

import (
	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/measure"
)

// Retarget is p with another size wanted, by the chart alone: the wearer's own
// measurements are left out. The error names the chart's sizes when it has none
// of that name.
func Retarget(p model.Pattern, size string, method model.Method) (model.Pattern, error) {
	place, ok := p.Chart.Place(size)
	if !ok {
		return p, noSize(p.Chart, size)
	}
	p.Target.Place, p.Target.Method, p.Target.Body = float64(place), method, nil
	return p, nil
}

func noSize(c model.SizeChart, size string) error {
	if len(c.Sizes) == 0 {
		return words.Error("the pattern has no size chart")
	}
	return words.Errorf("the chart %s has no size %q; it goes from %s to %s",
		c.Name, size, c.Sizes[0].Name, c.Sizes[len(c.Sizes)-1].Name)
}

// Grade works out p at its target.
func Grade(p model.Pattern) (grading.Result, error) {
	var g grading.Grader
	return g.Grade(p)
}

// ShortText says, a sentence per girth, what repeating the printed gap would
// leave short at r's target. Empty where the two agree within half a
// millimetre.
func ShortText(p model.Pattern, r grading.Result) []string {
	const agree = 0.5
	var out []string
	for _, s := range r.Short {
		if s.Missing() < agree && s.Missing() > -agree {
			continue
		}
		to := r.Size
		if own, ok := p.Target.Body[s.Measure]; ok {
			to = measure.FormatPlace(own, p.Unit)
		}
		long := func(mm float64) string { return Length(mm, p.Unit) }
		name, by, chart, steps := s.Measure.Said(), s.Missing(), s.ByChart, s.BySteps
		shrinks := chart < 0 && steps <= 0
		switch {
		case shrinks && by < 0:
			out = append(out, words.F("By steps the %s would be %s too wide: the chart shrinks %s from %s to %s, the printed steps %s.", name, long(-by), long(-chart), s.From, to, long(-steps)))
		case shrinks:
			out = append(out, words.F("By steps the %s would be %s short: the chart shrinks %s from %s to %s, the printed steps %s.", name, long(by), long(-chart), s.From, to, long(-steps)))
		case by < 0:
			out = append(out, words.F("By steps the %s would be %s too wide: the chart grows %s from %s to %s, the printed steps %s.", name, long(-by), long(chart), s.From, to, long(steps)))
		default:
			out = append(out, words.F("By steps the %s would be %s short: the chart grows %s from %s to %s, the printed steps %s.", name, long(by), long(chart), s.From, to, long(steps)))
		}
	}
	return out
}

// Length shows mm in the pattern's unit: "1 1/2 in", "42.9 mm".
func Length(mm float64, u model.Unit) string {
	return measure.FormatMM(mm, string(u))
}
