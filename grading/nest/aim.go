package nest

import "quarterstep/model"

// aim is the size wanted as one piece sees it: the place of the chart each of
// its measures is wanted at.
type aim struct {
	place  float64
	method model.Method
	own    map[model.Measure]float64 // places of the wearer's own measures
}

func (fit *Fit) aim(t model.Target) aim {
	w := aim{place: t.Place, method: t.Method}
	if t.Own() {
		w.own = make(map[model.Measure]float64, len(t.Body))
		for m := range t.Body {
			w.own[m] = t.PlaceFor(fit.print.chart, m)
		}
	}
	return w
}

// at is the place wanted of measure m.
func (w aim) at(m model.Measure) float64 {
	if t, ok := w.own[m]; ok {
		return t
	}
	return w.place
}
