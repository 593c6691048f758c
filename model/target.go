package model

import (
	"quarterstep/assets/words"
)

// PlaceFor is the place on the chart that measure m is wanted at: that of the
// wearer's own measurement where she gave one, else the target's. It may lie
// beyond the chart.
func (t Target) PlaceFor(c SizeChart, m Measure) float64 {
	if v, ok := t.Body[m]; ok {
		if place, ok := c.PlaceOf(m, v); ok {
			return place
		}
	}
	return t.Place
}

// Value is measure m of the person the target is for, in mm: her own where she
// gave it, else the chart's. It is false for a measure neither has.
func (t Target) Value(c SizeChart, m Measure) (float64, bool) {
	if v, ok := t.Body[m]; ok {
		return v, true
	}
	return c.At(t.Place, m)
}

// Own reports that the target rests on the wearer's own measurements.
func (t Target) Own() bool { return len(t.Body) > 0 }

// OwnMeasures is what the size wanted is called, in the language in use, when it
// rests on the wearer's own measurements.
func OwnMeasures() string { return words.T("own measures") }

// NameOn names the size wanted among the sizes of chart c: "48", or OwnMeasures
// where it rests on the wearer's own.
func (t Target) NameOn(c SizeChart) string {
	if t.Own() {
		return OwnMeasures()
	}
	return c.NameAt(t.Place)
}
