package ui

import (
	"maps"
	"strings"

	"quarterstep/app"
	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/measure"
)

// wearerStep is what the window keeps of the Wearer panel.
type wearerStep struct {
	own  bool                      // her own measurements are asked for
	last map[model.Measure]float64 // those she had before going back to the chart
}

func (w *Window) connectWearer() {
	w.wearer.OnName = func(name string) error {
		if name != w.doc.Pattern().Target.Wearer {
			w.do(words.T("name the wearer"), edit.Wearer(name))
		}
		return nil
	}
	w.wearer.OnOwn = w.chooseOwn
	w.wearer.OnMeasure = w.typedMeasure
	w.wearer.OnGrown = w.relaySide
	w.folds["Wearer"].OnFold = func(bool) { w.relaySide() }
}

// chooseOwn goes by the wearer's own measurements, as she last gave them, or by
// the size from the chart.
func (w *Window) chooseOwn(own bool) {
	body := w.doc.Pattern().Target.Body
	w.body.own = own
	switch {
	case own && len(body) == 0 && len(w.body.last) > 0:
		w.do(words.T("own measurements"), edit.OwnMeasures(w.body.last))
	case !own && len(body) > 0:
		w.body.last = maps.Clone(body)
		w.do(words.T("size from the chart"), edit.OwnMeasures(nil))
	default:
		w.refresh()
	}
}

// typedMeasure takes what was typed for a measure of the Wearer panel; nothing
// typed goes back to the chart's.
func (w *Window) typedMeasure(i int, text string) error {
	p := w.doc.Pattern()
	all := app.Wearer(p)
	if i >= len(all) {
		return nil
	}
	m := all[i]
	if strings.TrimSpace(text) == "" {
		if !m.Own {
			return nil
		}
		w.body.own = true
		return w.doc.Do(words.F("leave %s to the chart", m.Measure.Said()), edit.ForgetMeasure(m.Measure))
	}
	mm, err := app.ReadMeasure(p, m.Measure, text)
	if err != nil {
		return err
	}
	if m.Own && mm == m.MM {
		return nil
	}
	return w.doc.Do(words.F("set %s to %s", m.Measure.Said(), measure.FormatPlace(mm, p.Unit)), edit.Measure(m.Measure, mm))
}

// pickSize asks for a size on the Size strip. Beside own measurements it is
// what the rest goes by, which the status bar says.
func (w *Window) pickSize(place float64) {
	p := w.doc.Pattern()
	size := p.Chart.NameAt(place)
	if !p.Target.Own() {
		w.do(words.F("size %s", size), edit.Place(place))
		return
	}
	w.do(words.F("the rest by size %s", size), edit.Place(place))
	w.say(words.F("What is not measured goes by size %s. Her own stay: %s.", size, app.WearerLine(w.doc.Pattern())))
}
