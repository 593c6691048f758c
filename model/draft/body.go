package draft

import (
	"quarterstep/assets/words"
	"quarterstep/model"
)

// The body the drafts are drawn round: the figures in the drafting rules hold
// at this place of the chart and with this back waist length.
const (
	basePlace     = 3
	baseBackWaist = 412.75 // mm, 16 1/4 in
	backWaistStep = 6.35   // mm, 1/4 in: one step of US home-sewing charts
)

// body is what a draft needs of one place on a chart.
type body struct {
	step             float64 // chart steps from basePlace
	down             float64 // steps in length: of back waist length where the chart has it
	bust, waist, hip float64 // a quarter of each girth, mm
}

// bodyAt reads a chart at a place; places between two sizes lie between them.
func bodyAt(chart model.SizeChart, place float64) (body, error) {
	b := body{step: place - basePlace, down: place - basePlace}
	for _, m := range []struct {
		of   model.Measure
		into *float64
	}{{model.Bust, &b.bust}, {model.Waist, &b.waist}, {model.Hip, &b.hip}} {
		v, ok := chart.At(place, m.of)
		if !ok {
			return body{}, words.Errorf("the chart %s has no %s at place %g; choose a chart with bust, waist and hip", chart.Name, m.of, place)
		}
		*m.into = v / 4
	}
	if lengthMeasure(chart) == model.BackWaist {
		v, _ := chart.At(place, model.BackWaist)
		b.down = (v - baseBackWaist) / backWaistStep
	}
	return b, nil
}

// lengthMeasure is what lengths follow on this chart.
func lengthMeasure(chart model.SizeChart) model.Measure {
	if chart.Has(model.BackWaist) {
		return model.BackWaist
	}
	return model.Steps
}
