package ui

import (
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/grading/dart"
	"quarterstep/model"
	"quarterstep/model/measure"
	"quarterstep/ui/panel"
	"quarterstep/ui/scene"
)

// dartView is the Dart panel for dart d of piece q, at index i on both.
func dartView(p model.Pattern, q model.Piece, r grading.Piece, i int, closed bool) panel.DartView {
	d, g := q.Darts[i], r.Darts[i]
	v := panel.DartView{
		Name:   words.F("%s of %s", capital(dartName(d)), q.Name),
		Legs:   legsLine(g, p.Unit),
		Width:  widthLine(q, d, measure.FormatMM(g.TakeUp, p.Unit), p.Unit),
		Seam:   words.T("runs on smoothly with the dart closed"),
		Closed: closed, Trued: d.Trued, Kept: d.TakeUpKept,
	}
	if g.Kink >= 0.1 {
		v.Seam = words.F("turns by %s° with the dart closed", words.Figure(g.Kink, 1))
	}
	if g.Why != "" {
		v.Note = words.F("Left as graded: %s.", g.Why)
	}
	return v
}

func dartName(d model.Dart) string {
	if d.Name == "" {
		return words.T("dart")
	}
	return d.Name
}

// legsLine is "141.2 and 141.3 mm", or how long both are.
func legsLine(g grading.Dart, u model.Unit) string {
	a := measure.FormatMM(g.Leg1.Dist(g.Apex), u)
	b := measure.FormatMM(g.Leg2.Dist(g.Apex), u)
	if a == b {
		return words.F("both %s", a)
	}
	return words.F("%s and %s", a, b)
}

// printedWidths says how wide the dart is in print: ", printed 31 to 33 mm".
func widthLine(q model.Piece, d model.Dart, now string, u model.Unit) string {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, o := range q.Nest {
		at, err := dart.Read(q, d, o.Edges[0].Start())
		if err != nil {
			return now
		}
		w := at.TakeUp(o.Edges)
		lo, hi = min(lo, w), max(hi, w)
	}
	a, b := measure.FormatMM(lo, u), measure.FormatMM(hi, u)
	if a == b {
		return words.F("%s, as printed", now)
	}
	return words.F("%s, printed %s to %s", now, a, b)
}

// dartOf is the index of the dart that a ref means on its piece: the dart
// itself, or the one whose cap it is part of or whose leg ends there; -1 for
// none.
func dartOf(q model.Piece, at scene.Ref) int {
	if at.Dart != "" {
		return slices.IndexFunc(q.Darts, func(d model.Dart) bool { return d.ID == at.Dart })
	}
	n := len(q.Points)
	k, j := q.PointIndex(at.Point), q.EdgeIndex(at.Edge)
	return slices.IndexFunc(q.Darts, func(d model.Dart) bool {
		from, to := q.PointIndex(d.From), q.PointIndex(d.To)
		if from < 0 || to < 0 {
			return false
		}
		capEdges := (to - from + n) % n
		return k >= 0 && (k-from+n)%n <= capEdges || k < 0 && j >= 0 && (j-from+n)%n < capEdges
	})
}

// closedDarts is the pieces shown with a dart folded shut.
func (w *Window) closedDarts(p model.Pattern, r grading.Result) map[string]dart.Closed {
	out := map[string]dart.Closed{}
	for piece, id := range w.darts.closed {
		i := p.PieceIndex(piece)
		if i < 0 || i >= len(r.Pieces) || len(r.Pieces[i].Edges) == 0 {
			continue
		}
		k := dartOf(p.Pieces[i], scene.Ref{Dart: id})
		if k < 0 || k >= len(r.Pieces[i].Darts) {
			continue
		}
		at, err := dart.Read(p.Pieces[i], p.Pieces[i].Darts[k], r.Pieces[i].Darts[k].Apex)
		if err != nil {
			continue
		}
		if c, err := at.Close(r.Pieces[i].Edges); err == nil {
			out[piece] = c
		}
	}
	return out
}
