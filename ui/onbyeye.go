package ui

import (
	"strings"

	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/measure"
)

func (w *Window) connectByEye() {
	b := w.byEye
	b.OnFollow = w.chooseFollow
	b.OnCurve = w.chooseCurve
	b.OnSmooth = w.smoothThrough
	b.OnStraighten, b.OnBetween = w.straightenEdge, w.straightenFrom
	b.OnParallel = func(text string) error { return w.shiftEdge(false, text) }
	b.OnInward = func(text string) error { return w.shiftEdge(true, text) }
	b.OnStyle = w.changeStyle
	b.OnStages = w.setStages
	b.OnTakeBack = func(n int) {
		if q, _, _, ok := w.inHandOf(); ok {
			if c := allCorrections(w.doc.Pattern(), q); n < len(c) {
				w.do(words.F("take back %s", words.Small(c[n].What)), c[n].TakeBack)
			}
		}
	}
	b.OnTakeAll = w.takeAllBack
	b.OnGrown = w.relaySide
	w.folds["By eye"].OnFold = func(bool) { w.relaySide() }
}

// inHandOf is the piece, edge and grade point in hand; the point the edge
// starts at where none is.
func (w *Window) inHandOf() (q model.Piece, j, k int, ok bool) {
	p := w.doc.Pattern()
	i, j, k := w.inHand(p)
	if i < 0 || j < 0 {
		return model.Piece{}, 0, 0, false
	}
	return p.Pieces[i], j, pointOrStart(j, k), true
}

// chooseFollow has the point in hand follow choice i of followView.
func (w *Window) chooseFollow(down bool, i int) {
	q, _, k, ok := w.inHandOf()
	if !ok {
		return
	}
	var m model.Measure
	label := words.T("follow as proposed")
	if i > 0 {
		m = followMeasures(w.doc.Pattern().Chart)[i-1]
		label = words.F("follow %s", m.Said())
	}
	w.do(label, edit.Follow(q.ID, q.Points[k].ID, down, m))
}

// chooseCurve gives the edge in hand the curve of choice i of curveChoices.
func (w *Window) chooseCurve(i int) {
	q, j, _, ok := w.inHandOf()
	if !ok {
		return
	}
	edge, name := q.Edges[j].ID, words.Small(edgeName(q, j))
	switch {
	case i == curveTrend:
		w.do(words.F("printed trend for %s", name), func(p model.Pattern) (model.Pattern, error) {
			p, err := edit.TrendCurve(q.ID, edge)(p)
			if err != nil {
				return p, err
			}
			return edit.TakeBackEdge(q.ID, edge)(p)
		})
	case i == curveNearest:
		w.do(words.F("nearest curve for %s", name), edit.KeepCurve(q.ID, edge, model.NearestCurve, ""))
	case i == curveStraight:
		w.do(words.F("straight %s", name), edit.KeepCurve(q.ID, edge, model.StraightCurve, ""))
	case i-curvePrinted < len(q.Nest):
		size := q.Nest[i-curvePrinted].Size
		w.do(words.F("curve of size %s for %s", size, name), edit.KeepCurve(q.ID, edge, model.PrintedCurve, size))
	}
}

// takeAllBack removes all corrections of the piece in hand.
func (w *Window) takeAllBack() {
	p := w.doc.Pattern()
	if i := p.PieceIndex(w.hand.Piece); i >= 0 {
		w.do(words.F("take back all of %s", p.Pieces[i].Name), edit.TakeBackAll(w.hand.Piece))
	}
}

// smoothThrough has the line run smoothly through the point in hand.
func (w *Window) smoothThrough() {
	if q, _, k, ok := w.inHandOf(); ok {
		w.do(words.F("run smoothly through %s", words.Small(pointName(q, k))), edit.SmoothThrough(q.ID, q.Points[k].ID))
	}
}

// shiftEdge moves the edge in hand parallel by what was typed, out of the piece
// or into it.
func (w *Window) shiftEdge(in bool, text string) error {
	q, j, _, ok := w.inHandOf()
	if !ok || strings.TrimSpace(text) == "" {
		return nil
	}
	mm, err := w.typed(text)
	if err != nil || mm == 0 {
		return err
	}
	if in {
		mm = -mm
	}
	return w.doc.Do(words.F("move %s parallel", words.Small(edgeName(q, j))), edit.ShiftEdge(q.ID, q.Edges[j].ID, mm))
}

// changeStyle makes style change i by what was typed.
func (w *Window) changeStyle(i int, text string) error {
	if strings.TrimSpace(text) == "" || i < 0 || i >= len(edit.Styles) {
		return nil
	}
	mm, err := w.typed(text)
	if err != nil {
		return err
	}
	if mm <= 0 {
		return words.Error("type how much, above 0")
	}
	style := edit.Styles[i]
	return w.doc.Do(words.Small(style.Said()), edit.Style(style, mm, w.doc.Result()))
}

// typed is a length as typed, in mm; bare figures are in the pattern's small
// unit.
func (w *Window) typed(text string) (float64, error) {
	l, err := measure.Parse(text, bareUnit(w.doc.Pattern().Unit))
	if err != nil {
		return 0, err
	}
	return l.MM(), nil
}
