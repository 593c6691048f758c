package ui

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"quarterstep/app"
	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/measure"
	"quarterstep/ui/panel"
)

// stripView is the Size strip. charts are the size charts to choose from; the
// pattern's own is added when it is not among them.
func stripView(p model.Pattern, r grading.Result, charts []model.SizeChart) panel.StripView {
	v := panel.StripView{Chart: -1, Target: p.Target.Place, Shown: len(p.Pieces) > 0}
	for i, c := range withOwn(p, charts) {
		v.Charts = append(v.Charts, c.Name)
		if sameChart(c, p.Chart) {
			v.Chart = i
		}
	}
	printed := printedPlaces(p)
	for i, s := range p.Chart.Sizes {
		v.Sizes = append(v.Sizes, panel.SizeView{Name: s.Name, Printed: slices.Contains(printed, i)})
	}
	v.Handle = r.Size
	if p.Target.Wearer != "" {
		v.Handle = p.Target.Wearer + " · " + r.Size
	}
	if len(p.Chart.Sizes) == 0 {
		v.Empty = words.T("The other sizes appear here when you choose a size chart.")
	}
	v.Note = stepsNote(p, r, printed)
	if p.Target.Own() {
		v.Note = words.T("for the rest")
		v.Pins = ownPins(p)
	}
	return v
}

// ownPins are the wearer's own measurements on the Size strip.
func ownPins(p model.Pattern) []panel.PinView {
	var out []panel.PinView
	for _, m := range app.Wearer(p) {
		if !m.Own || !m.Placed {
			continue
		}
		pin := panel.PinView{Name: m.Measure.Said(), Place: m.Place}
		if m.Off {
			pin.Beyond = measure.FormatPlace(m.By, p.Unit)
		}
		out = append(out, pin)
	}
	return out
}

// withOwn is charts with the pattern's own chart first when it is none of them.
func withOwn(p model.Pattern, charts []model.SizeChart) []model.SizeChart {
	if len(p.Chart.Sizes) == 0 || slices.ContainsFunc(charts, func(c model.SizeChart) bool {
		return sameChart(c, p.Chart)
	}) {
		return charts
	}
	return append([]model.SizeChart{p.Chart}, charts...)
}

// sameChart reports that two charts are one, whatever language they were named
// in.
func sameChart(a, b model.SizeChart) bool {
	return a.ID == b.ID && slices.EqualFunc(a.Sizes, b.Sizes, func(x, y model.ChartSize) bool {
		return x.Name == y.Name && x.Alt == y.Alt && maps.Equal(x.Body, y.Body)
	})
}

// stepsNote is "4 steps, or 4 1/2 by bust".
func stepsNote(p model.Pattern, r grading.Result, printed []int) string {
	if len(printed) == 0 {
		return ""
	}
	t := p.Target.Place
	steps := math.Max(float64(printed[0])-t, t-float64(printed[len(printed)-1]))
	if steps <= 0 {
		if slices.Contains(printed, int(t)) && t == math.Trunc(t) {
			return words.T("a printed size")
		}
		return words.T("between printed sizes")
	}
	note := words.F("%s steps", halves(steps))
	if steps == 1 {
		note = words.T("1 step")
	}
	for _, s := range r.Short {
		if s.Measure == model.Bust && math.Abs(math.Abs(s.EqSteps)-steps) > 0.05 {
			note = words.F("%s, or %s by bust", note, halves(math.Abs(s.EqSteps)))
		}
	}
	return note
}

// halves writes a count of steps to the nearest quarter: "4", "4 1/2".
func halves(v float64) string {
	q := int(math.Round(v * 4))
	whole, part := q/4, [...]string{"", "1/4", "1/2", "3/4"}[q%4]
	switch {
	case part == "":
		return fmt.Sprint(whole)
	case whole == 0:
		return part
	}
	return fmt.Sprintf("%d %s", whole, part)
}
