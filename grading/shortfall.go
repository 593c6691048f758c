package grading

import (
	"math"

	"quarterstep/model"
)

// shortfalls compares steps and chart for the girths of p's chart that are
// wanted outside the printed sizes.
func shortfalls(p model.Pattern) []Shortfall {
	first, last, ok := printedRange(p)
	if !ok {
		return nil
	}
	var out []Shortfall
	for _, m := range []model.Measure{model.Bust, model.Waist, model.Hip} {
		t := p.Target.PlaceFor(p.Chart, m)
		if !p.Chart.Has(m) || t >= first && t <= last {
			continue
		}
		from := last
		if t < first {
			from = first
		}
		at := func(place float64) float64 { v, _ := p.Chart.Beyond(place, m); return v }
		s := Shortfall{
			Measure: m, From: p.Chart.Sizes[int(from)].Name,
			Per: (at(last) - at(first)) / (last - first), ByChart: at(t) - at(from),
		}
		s.BySteps = s.Per * (t - from)
		if s.Per != 0 {
			s.EqSteps = s.ByChart / s.Per
		}
		out = append(out, s)
	}
	return out
}

// printedRange is the places of the smallest and the largest size any piece is
// printed in; false where there are not two.
func printedRange(p model.Pattern) (first, last float64, ok bool) {
	first, last = math.Inf(1), math.Inf(-1)
	for _, q := range p.Pieces {
		for _, o := range q.Nest {
			for _, size := range o.Sizes() {
				if place, on := p.Chart.Place(size); on {
					first, last = math.Min(first, float64(place)), math.Max(last, float64(place))
				}
			}
		}
	}
	return first, last, first < last
}
