package check

import (
	"fmt"
	"math"

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
		f := Finding{Code: "by-steps", Measure: s.Measure, By: by, Look: p.Target.Method == model.BySteps}
		if by > 0 {
			f.Say = fmt.Sprintf("By steps the %s is %s too tight in size %s: the chart's steps grow past size %s.", s.Measure, show(by, p), r.Size, s.From)
		} else {
			f.Say = fmt.Sprintf("By steps the %s is %s too wide in size %s: the chart's steps shrink past size %s.", s.Measure, show(-by, p), r.Size, s.From)
		}
		f.Help = "Grade by chart."
		if !f.Look {
			f.Help = "The line goes by chart, so this is taken care of."
		}
		out = append(out, f)
	}
	return out
}

// reach says how far the pattern goes past its printed sizes, once for all
// pieces, and which pieces could not be graded at all.
func reach(p model.Pattern, r grading.Result) []Finding {
	var out []Finding
	t := p.Target.Place
	most := float64(farSteps)
	far := Finding{Code: "far", Look: true, Help: "Sew a toile, and look at neckline and shoulder first."}
	for i, q := range p.Pieces {
		first, last, ok := span(p.Chart, q)
		if !ok {
			continue
		}
		if r.Pieces[i].Frozen && math.Abs(t-first) > 1e-9 {
			out = append(out, Finding{
				Code: "one-size", Piece: q.ID, Look: true,
				Where: r.Pieces[i].Outline().Bounds().Centre(),
				Say:   fmt.Sprintf("%s was printed in size %s only, so it stays as printed.", q.Name, q.Nest[0].Label()),
				Help:  "Bring in another size of it, or check that it serves all sizes.",
			})
			continue
		}
		if steps := math.Max(first-t, t-last); steps > most {
			most = steps
			far.Say = fmt.Sprintf("Size %s is %.3g steps past the printed sizes; a neck and shoulders grow less evenly than that.", r.Size, steps)
		}
	}
	if far.Say != "" {
		out = append(out, far)
	}
	return out
}

// span is the chart places of the smallest and largest printed size of q.
func span(c model.SizeChart, q model.Piece) (first, last float64, ok bool) {
	for _, o := range q.Nest {
		place, known := c.Place(o.Size)
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
	return first, last, ok
}
