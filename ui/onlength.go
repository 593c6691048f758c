package ui

import (
	"math"
	"slices"

	"quarterstep/app"
	"quarterstep/app/edit"
	"quarterstep/app/session"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/ui/board"
	"quarterstep/ui/scene"
)

func (w *Window) connectLength() {
	l := w.length
	l.OnGroup = w.takeGroup
	l.OnLength = func(i int, text string) error {
		groups := edit.LengthGroups(w.doc.Pattern())
		if i >= len(groups) {
			return nil
		}
		mm, err := w.typed(text)
		if err != nil || mm == groups[i].By {
			return err
		}
		return w.doc.Do(w.lengthLabel(groups[i], mm), w.setLength(groups[i].Name, mm))
	}
	l.OnAdd = func() {
		w.adding = true
		w.showStatus()
	}
	l.OnTakeBack = func() {
		w.do(words.T("take all lengthening back"), func(p model.Pattern) (model.Pattern, error) {
			p.Lengths = nil
			return p, nil
		})
	}
	l.OnGrown = w.relaySide
	w.folds["Length"].OnFold = func(bool) { w.relaySide() }
}

// showLength shows the Length panel in its step, and hides it else.
func (w *Window) showLength() {
	f := w.folds["Length"]
	if w.step != stepLength {
		f.Hide()
		return
	}
	p := w.doc.Pattern()
	w.length.SetView(lengthView(p, w.doc.Result(), w.hand))
	f.SetState(lengthLine(p), false)
	f.Show()
}

// lengthens is what the Length step shows on the Table; nil in other steps.
func (w *Window) lengthens(p model.Pattern) *scene.Lengthen {
	if w.step != stepLength {
		return nil
	}
	out := &scene.Lengthen{}
	groups := edit.LengthGroups(p)
	if i := groupInHand(groups, w.hand); i >= 0 {
		out.Hand = groups[i].Lines
	}
	return out
}

// takeGroup takes a group's first line, or its first hem, in hand.
func (w *Window) takeGroup(i int) {
	if at, ok := firstOfGroup(edit.LengthGroups(w.doc.Pattern()), i); ok {
		w.selected(at)
	}
}

func firstOfGroup(groups []edit.LengthGroup, i int) (scene.Ref, bool) {
	switch {
	case i >= len(groups):
	case len(groups[i].Lines) > 0:
		at := groups[i].Lines[0]
		return scene.Ref{Piece: at.Piece, Line: at.Line, Control: scene.LengthHandle}, true
	case len(groups[i].Hems) > 0:
		h := groups[i].Hems[0]
		return scene.Ref{Piece: h.Piece, Edge: h.Edges[0]}, true
	}
	return scene.Ref{}, false
}

// enterLength takes the first lengthen line in hand, where none is.
func (w *Window) enterLength() {
	w.adding = false
	if w.hand.Line != "" {
		return
	}
	if at, ok := firstOfGroup(edit.LengthGroups(w.doc.Pattern()), 0); ok {
		w.hold(at)
	}
}

// setLength makes a group longer by that many mm in all, unless there is not
// that much paper.
func (w *Window) setLength(group string, mm float64) session.Edit {
	return func(p model.Pattern) (model.Pattern, error) {
		out, err := edit.SetLength(group, mm)(p)
		if err != nil {
			return p, err
		}
		r, err := w.doc.Grader().Grade(out)
		if err != nil {
			return p, err
		}
		if err := app.LengthRefused(out, r); err != nil {
			return p, err
		}
		return out, nil
	}
}

// lengthLabel is "lengthen 20 mm above the waist", "shorten 1/2 in at the hem".
func (w *Window) lengthLabel(g edit.LengthGroup, mm float64) string {
	where := words.Small(g.Name)
	if len(g.Hems) > 0 {
		where = words.F("at the %s", where)
	}
	u := w.doc.Pattern().Unit
	switch {
	case mm > 0:
		return words.F("lengthen %s %s", measure.FormatMM(mm, u), where)
	case mm < 0:
		return words.F("shorten %s %s", measure.FormatMM(-mm, u), where)
	}
	return words.F("length as printed %s", where)
}

// lineGroup is the group of a lengthen line, and how far down a piece's grain a
// movement goes, in whole steps of the ruler.
func (w *Window) lineGroup(at scene.Ref, by geom.Vec) (g edit.LengthGroup, down float64, ok bool) {
	p := w.doc.Pattern()
	i := p.PieceIndex(at.Piece)
	groups := edit.LengthGroups(p)
	k := groupInHand(groups, at)
	if i < 0 || k < 0 {
		return g, 0, false
	}
	_, down = p.Pieces[i].AcrossAlong(by)
	return groups[k], down, true
}

// dragLength makes longer what is dragged by a lengthen line's handle.
func (w *Window) dragLength(at scene.Ref, by geom.Vec, ph board.Phase) {
	if ph == board.DragStart {
		g, _, _ := w.lineGroup(at, by)
		w.dragFrom = g.By
	}
	g, down, ok := w.lineGroup(at, by)
	if !ok {
		return
	}
	mm := w.onRuler(w.dragFrom + down)
	if mm == w.dragFrom && ph == board.DragEnd {
		ph = board.DragCancel
	}
	w.drag(w.setLength(g.Name, mm), w.lengthLabel(g, mm), by, ph)
}

// onRuler is the nearest amount on the ruler: whole mm, or sixteenths of an inch.
func (w *Window) onRuler(mm float64) float64 {
	step := 1.0
	if w.doc.Pattern().Unit == model.Inches {
		step = 25.4 / 16
	}
	return math.Round(mm/step) * step
}

// nudgeLength makes what is in hand longer by an arrow key.
func (w *Window) nudgeLength(by geom.Vec) {
	if g, down, ok := w.lineGroup(w.hand, by); ok && down != 0 {
		mm := g.By + down
		w.do(w.lengthLabel(g, mm), w.setLength(g.Name, mm))
	}
}

// addLengthenLine draws a lengthen line where she clicked on a piece, when it was
// asked for; clicking beside the pieces lets go. It is false where none was.
func (w *Window) addLengthenLine(at scene.Ref) bool {
	asked := w.adding
	w.adding = false
	p := w.doc.Pattern()
	i := p.PieceIndex(at.Piece)
	if !asked || i < 0 {
		return false
	}
	q := p.Pieces[i]
	place := w.pointer.Add(q.At.Scale(-1))
	if err := w.doc.Do(words.T("add a lengthen line"), edit.AddLengthenLine(q.ID, w.doc.Result().Pieces[i].Edges, place)); err != nil {
		w.say(err.Error())
		return true
	}
	p = w.doc.Pattern()
	w.selected(scene.Ref{Piece: q.ID, Line: p.Pieces[i].Lines[len(q.Lines)].ID, Control: scene.LengthHandle})
	return true
}

// removeLine takes the lengthen line in hand off, and those that go with it.
func (w *Window) removeLine() {
	if g, _, ok := w.lineGroup(w.hand, geom.Vec{}); ok {
		w.do(words.F("take the lengthen lines %s off", words.Small(g.Name)), edit.RemoveLengthenLines(g.Name))
	}
}

// hasLine reports that a piece has a lengthen line of that ID.
func hasLine(q model.Piece, id string) bool {
	return slices.ContainsFunc(q.Lines, func(l model.Line) bool { return l.ID == id && l.Kind == model.Lengthen })
}
