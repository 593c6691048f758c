package edit

import (
	"maps"
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/measure"
)

// A measurement outside these shares of the chart's smallest and largest is
// taken for a slip of the unit. Common sense, not a standard: an inch is two
// and a half centimetres, so that one typed for the other falls outside.
const (
	leastShare = 2.0 / 3
	mostShare  = 2.0
)

// What a measurement the chart does not have may be, and an example of one, mm.
const (
	leastMeasure = 20.0
	usualMeasure = 400.0
	mostMeasure  = 3000.0
)

// telling lists the girths that say most about a size, the most telling first.
var telling = []model.Measure{model.Bust, model.Hip, model.Waist}

// Measure sets one of the wearer's own measurements, in mm. When it is the most
// telling she gave, the target goes to the chart size nearest to it: what she
// did not measure goes by that. A measurement no body has is refused with the
// sentence of HowToType.
func Measure(m model.Measure, mm float64) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		if !plausible(p.Chart, m, mm) {
			return p, HowToType(p, m)
		}
		body := maps.Clone(p.Target.Body)
		if body == nil {
			body = map[model.Measure]float64{}
		}
		body[m] = mm
		p.Target.Body = body
		if lead, _ := mostTelling(p.Chart, body); lead == m {
			p.Target.Place = restPlace(p)
		}
		return p, nil
	}
}

// ForgetMeasure takes one of the wearer's own measurements away again; the
// chart's takes its place. When it was the most telling, the target goes by the
// next one.
func ForgetMeasure(m model.Measure) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		lead, _ := mostTelling(p.Chart, p.Target.Body)
		body := maps.Clone(p.Target.Body)
		delete(body, m)
		p.Target.Body = body
		if lead == m {
			p.Target.Place = restPlace(p)
		}
		return p, nil
	}
}

// OwnMeasures sets all of the wearer's own measurements at once, in mm; none
// goes back to the size from the chart.
func OwnMeasures(body map[model.Measure]float64) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		for _, m := range slices.Sorted(maps.Keys(body)) {
			if !plausible(p.Chart, m, body[m]) {
				return p, HowToType(p, m)
			}
		}
		p.Target.Body = maps.Clone(body)
		p.Target.Place = restPlace(p)
		return p, nil
	}
}

// HowToType is an error that says how measurement m is typed, with an example
// of about the size to be expected.
func HowToType(p model.Pattern, m model.Measure) error {
	mm, ok := p.Chart.At(p.Target.Place, m)
	if !ok {
		mm = usualMeasure
	}
	round := 10.0
	if p.Unit == model.Inches {
		round = 25.4
	}
	mm = math.Round(mm/round) * round
	return words.Errorf("type %s as cm or inches, for example %s", m, measure.FormatPlace(mm, p.Unit))
}

// plausible reports that a body by chart c, or a good way beyond it, may
// measure mm at m.
func plausible(c model.SizeChart, m model.Measure, mm float64) bool {
	least, most := leastMeasure, mostMeasure
	if len(c.Sizes) > 0 && c.Has(m) {
		least, most = math.Inf(1), 0
		for _, s := range c.Sizes {
			least, most = min(least, leastShare*s.Body[m]), max(most, mostShare*s.Body[m])
		}
	}
	return m != model.Steps && m != "" && mm >= least && mm <= most
}

// mostTelling is the measurement of a body that says most about its size, and
// its place on the chart; "" when the chart places none.
func mostTelling(c model.SizeChart, body map[model.Measure]float64) (model.Measure, float64) {
	for _, m := range slices.Concat(telling, c.Measures) {
		if mm, own := body[m]; own {
			if place, ok := c.PlaceOf(m, mm); ok {
				return m, place
			}
		}
	}
	return "", 0
}

// restPlace is the chart size nearest to the most telling measurement; the
// place p has now when there is none.
func restPlace(p model.Pattern) float64 {
	m, place := mostTelling(p.Chart, p.Target.Body)
	if m == "" {
		return p.Target.Place
	}
	return min(max(math.Round(place), 0), float64(len(p.Chart.Sizes)-1))
}
