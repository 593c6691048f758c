package ui

import (
	"cmp"
	"math"

	"quarterstep/app/edit"
	"quarterstep/app/session"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/ui/board"
	"quarterstep/ui/scene"
)

// connectTable turns what the hand does on the Table into edits.
func (w *Window) connectTable() {
	t := w.table
	t.OnSelect = w.selected
	t.OnDragPoint = func(at scene.Ref, by geom.Vec, ph board.Phase) {
		w.hold(at)
		w.dragLine(at, by, ph, edit.MovePoint(at.Piece, at.Point, by), words.F("move %s", w.refName(at)))
	}
	t.OnDragHandle = func(at scene.Ref, by geom.Vec, ph board.Phase) {
		w.hold(at)
		if at.Line != "" {
			w.dragLength(at, by, ph)
			return
		}
		if at.Cut != "" {
			w.drag(moveCutEnd(at, by), words.F("move %s", w.refName(at)), by, ph)
			return
		}
		w.dragLine(at, by, ph, edit.MoveControl(at.Piece, at.Edge, at.Control, by), words.F("shape %s", w.refName(at)))
	}
	t.OnDragEdge = func(at scene.Ref, by geom.Vec, ph board.Phase) {
		w.hold(at)
		w.dragLine(at, by, ph, edit.MoveEdge(at.Piece, at.Edge, by), words.F("move %s", w.refName(at)))
	}
	t.OnDragPiece = w.dragPiece
	t.OnNudge = func(by geom.Vec, _ board.Step) {
		switch {
		case w.step == stepPrint: // pieces move between the pages, the pattern stays
			w.dragPiece(w.hand.Piece, by, board.DragEnd)
		case w.nudgeTaken(by):
		case !w.nudgeTraced(by):
			w.nudge(w.asHeld(by))
		}
	}
	t.OnAddPoint = w.addPoint
	t.OnMenu = w.tableMenu
	t.OnPage = func(name string) { w.print.page = name; w.refresh() }
	t.OnPointer = func(at geom.Point) { w.pointer = at; w.pointed(at); w.showStatus() }
	t.OnHover = func(at scene.Ref) { w.over = at; w.showStatus() }
	t.OnRuler = w.showStatus
	t.OnView = func() { w.tools.SetView(w.toolsView()) }
	t.OnTool = func(board.Tool) { w.tools.SetView(w.toolsView()) }
	t.OnKey = w.key
	t.OnRune = w.rune
	t.OnShortcut = w.shortcut
}

// selected takes a piece, edge or point in hand.
func (w *Window) selected(at scene.Ref) {
	if at == (scene.Ref{}) && w.hand.Piece != "" {
		at.Piece = w.hand.Piece
	}
	if w.linkTo(at, shiftHeld()) || w.dartTo(at) || w.straightenTo(at) || w.addLengthenLine(at) {
		return
	}
	w.hold(at)
	w.refresh()
}

// hold takes at in hand; a grade point at an end of the edge in hand leaves the
// edge in hand too.
func (w *Window) hold(at scene.Ref) {
	p := w.doc.Pattern()
	if i := p.PieceIndex(at.Piece); i >= 0 && at.Point != "" && at.Edge == "" && at.Piece == w.hand.Piece {
		q := p.Pieces[i]
		k, j := q.PointIndex(at.Point), q.EdgeIndex(w.hand.Edge)
		if j >= 0 && (j == k || (j+1)%len(q.Points) == k) {
			at.Edge = w.hand.Edge
		}
	}
	w.hand = at
}

// drag shows a drag while it lasts and keeps it as one step at its end.
func (w *Window) drag(e session.Edit, label string, by geom.Vec, ph board.Phase) {
	switch ph {
	case board.DragStart, board.DragMove:
		if err := w.doc.Preview(e); err != nil {
			w.say(err.Error())
		}
	case board.DragEnd:
		if by.IsZero() {
			w.doc.Cancel()
			w.refresh()
			return
		}
		if err := w.doc.Preview(e); err != nil {
			w.doc.Cancel()
			w.say(err.Error())
			return
		}
		w.doc.Commit(label)
	case board.DragCancel:
		w.doc.Cancel()
		w.refresh()
	}
}

// nudge moves what is in hand by an arrow key.
func (w *Window) nudge(by geom.Vec) {
	i, j, _ := w.inHand(w.doc.Pattern())
	switch {
	case i < 0:
		return
	case w.hand.Line != "":
		w.nudgeLength(by)
	case w.hand.Cut != "":
		w.do(words.F("move %s", w.refName(w.hand)), moveCutEnd(w.hand, by))
	case w.hand.Control > 0 && w.hand.Point == "":
		w.nudgeLine(by, edit.MoveControl(w.hand.Piece, w.hand.Edge, w.hand.Control, by), words.F("shape %s", w.refName(w.hand)))
	case w.hand.Point != "":
		w.nudgeLine(by, edit.MovePoint(w.hand.Piece, w.hand.Point, by), words.F("move %s", w.refName(w.hand)))
	case j >= 0:
		w.nudgeLine(by, edit.MoveEdge(w.hand.Piece, w.hand.Edge, by), words.F("move %s", w.refName(w.hand)))
	default:
		w.do(words.F("lay %s", w.refName(w.hand)), edit.LayPiece(w.hand.Piece, by))
	}
}

// dragPiece moves a piece on the Table, or between the pages at the Print step.
func (w *Window) dragPiece(piece string, by geom.Vec, ph board.Phase) {
	if w.step == stepPrint {
		w.print.dragPiece(piece, by, ph)
		w.showTable(w.doc.Pattern(), w.doc.Result())
		if ph == board.DragEnd {
			w.compare()
			w.refresh()
		}
		return
	}
	w.drag(edit.LayPiece(piece, by), words.F("lay %s", w.refName(scene.Ref{Piece: piece})), by, ph)
}

// addPoint adds a grade point where the sewist clicked on the new line: at the
// same share of the edge in every printed size.
func (w *Window) addPoint(at scene.Ref, place geom.Point) {
	const tol = 0.01
	p := w.doc.Pattern()
	i := p.PieceIndex(at.Piece)
	if i < 0 || len(p.Pieces[i].Nest) == 0 {
		return
	}
	j := p.Pieces[i].EdgeIndex(at.Edge)
	if j < 0 {
		w.say(words.T("Click on an edge to add a grade point."))
		return
	}
	if w.mend(p, i, at, place) {
		return
	}
	line := w.doc.Result().Pieces[i].Edges[j]
	s, _, err := line.NearestS(place, tol)
	if err != nil {
		w.say(err.Error())
		return
	}
	now, err := geom.Measure(line, tol)
	if err != nil {
		w.say(err.Error())
		return
	}
	largest := p.Pieces[i].Nest[len(p.Pieces[i].Nest)-1]
	printed, err := geom.Measure(largest.Edges[j], tol)
	if err != nil {
		w.say(err.Error())
		return
	}
	w.do(words.T("add a grade point"), edit.AddPoint(at.Piece, largest.Size, printed.At(s/now.Length()*printed.Length())))
}

// mendReach is how near the point in hand a click mends its place, mm.
const mendReach = 15.0

// mend moves the grade point in hand along the line of the printed size that is
// shown, where the sewist clicked near it: its corner was found in the wrong
// place. It is false where that is not what the click means.
func (w *Window) mend(p model.Pattern, i int, at scene.Ref, place geom.Point) bool {
	q, r := p.Pieces[i], w.doc.Result().Pieces[i]
	k := q.PointIndex(w.hand.Point)
	if at.Piece != w.hand.Piece || k < 0 || !r.Printed {
		return false
	}
	if r.Edges[k].Start().Dist(place) > mendReach {
		return false
	}
	w.do(words.F("mend a corner of size %s", w.doc.Result().Size), edit.MendPoint(q.ID, q.Points[k].ID, w.doc.Result().Size, place))
	return true
}

// do makes one edit and says why when it cannot.
func (w *Window) do(label string, e session.Edit) {
	if err := w.doc.Do(label, e); err != nil {
		w.say(err.Error())
	}
}

// refName names what a ref means, in small letters: "underarm", "side seam".
func (w *Window) refName(at scene.Ref) string {
	p := w.doc.Pattern()
	i := p.PieceIndex(at.Piece)
	if i < 0 {
		return words.T("piece")
	}
	q := p.Pieces[i]
	if k := dartOf(q, scene.Ref{Dart: at.Dart}); at.Dart != "" && k >= 0 {
		return dartName(q.Darts[k])
	}
	if n := cutIndex(q, at.Cut); n >= 0 {
		return words.F("cut line %d", n+1)
	}
	if at.Line != "" {
		if groups := edit.LengthGroups(p); groupInHand(groups, at) >= 0 {
			return words.Small(groups[groupInHand(groups, at)].Name)
		}
	}
	if k := q.PointIndex(at.Point); k >= 0 {
		if n := q.Points[k].Name; n != "" {
			return n
		}
		return words.F("point %d", k+1)
	}
	if j := q.EdgeIndex(at.Edge); j >= 0 {
		if n := q.Edges[j].Name; n != "" {
			return n
		}
		return words.F("edge %d", j+1)
	}
	return q.Name
}

// say shows a sentence in the status bar until the next thing happens.
func (w *Window) say(sentence string) {
	w.said = sentence
	w.showStatus()
}

// statusParts are where the pointer is and what is in hand.
func (w *Window) statusParts(p model.Pattern) []string {
	if w.tracingNow() {
		return w.traceStatus(p)
	}
	if w.takenNow() {
		return w.takenStatus()
	}
	parts := []string{words.F("Pointer *%s* across, *%s* down", measure.FormatPlace(w.pointer.X, p.Unit), measure.FormatPlace(w.pointer.Y, p.Unit))}
	if page := w.print.pageSay(); w.step == stepPrint && page != "" {
		parts = append(parts, page)
	} else if w.over.Piece != "" {
		parts = append(parts, words.F("Over *%s*", w.refName(w.over)))
		if from, to, ok := w.table.GapUnder(); ok {
			parts = append(parts, words.F("Gap *%s to %s, %s*", from.Size, to.Size, measure.FormatMM(math.Abs(to.S-from.S), p.Unit)))
		}
	} else if w.hand.Piece != "" {
		parts = append(parts, words.F("In hand *%s*", w.refName(w.hand)))
	}
	if w.table.Tool() == board.Measure {
		return append(parts, words.T("Click two places to measure between them, or drag"))
	}
	if w.step == stepPrint {
		return append(parts, words.T("Drag a piece to move it between pages"))
	}
	step := words.T("1 mm")
	if p.Unit == model.Inches {
		step = words.T("1/16 in")
	}
	return append(parts, words.F("Arrow keys move by %s", step))
}

// showStatus says in words what the Table shows.
func (w *Window) showStatus() {
	if w.says = w.said; w.said != "" {
		w.setStatus(w.said)
		w.said = ""
		return
	}
	if ask := cmp.Or(w.askingDart(), w.asking()); ask != "" {
		w.setStatus(ask)
		return
	}
	if w.trues.led.say != "" {
		w.setStatus(w.trues.led.say)
		return
	}
	p := w.doc.Pattern()
	parts := w.table.RulerWords()
	if len(parts) == 0 {
		parts = w.statusParts(p)
	}
	switch {
	case w.doc.Busy():
		parts = append(parts, words.T("Working it out ..."))
	case w.saves.under:
		parts = append(parts, words.T("Saving ..."))
	case w.doc.Dirty():
		parts = append(parts, words.T("Not saved yet"))
	case w.doc.Path() != "":
		parts = append(parts, words.T("Saved"))
	}
	w.setStatus(parts...)
}

// setStatus fills the status bar. That the document is a copy is always with it, and
// what was left out of what was dropped: the photos that came in say more than one
// thing after it.
func (w *Window) setStatus(parts ...string) {
	w.status.Set(append(append([]string{w.copySay()}, parts...), w.leftOut)...)
}
