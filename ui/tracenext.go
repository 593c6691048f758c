package ui

import (
	"context"
	"slices"

	"quarterstep/app/edit"
	"quarterstep/app/trace"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/board"
)

// proposal is the next size's line as the sizes traced already let expect it,
// waiting to be confirmed corner by corner.
type proposal struct {
	trace.Proposal
	on bool
	at int // the corner to confirm
}

// propose works out, beside the window, the line of the size in hand from the
// sizes traced already, where there is none yet and the printed lines are ready.
func (w *Window) propose() {
	t := &w.paper.trace
	t.next = proposal{}
	k, ok := w.tracing()
	ph := w.photo()
	if !ok || ph == nil || ph.lines == nil || t.straight || !slices.ContainsFunc(k.Sizes, closed) {
		return
	}
	if line, _ := trace.LineOf(k, t.size); len(line.Corners) > 0 {
		return
	}
	hand, chart, id, size := w.tracer(), w.doc.Pattern().Chart, t.id, t.size
	w.beside(ph, words.F("Looking for size %s", size), func(context.Context, func(float64)) (func(), error) {
		next, found := hand.Propose(k, chart, size)
		return func() {
			now, _ := w.tracing()
			line, _ := trace.LineOf(now, size)
			if found && t.id == id && t.size == size && len(line.Corners) == 0 {
				t.next = proposal{Proposal: next, on: true}
			}
		}, nil
	})
}

func closed(s model.TracedSize) bool { return s.Closed }

// confirmNext confirms the proposed corner in hand, whose place is then beyond
// doubt; the last one takes the line.
func (w *Window) confirmNext() {
	t := &w.paper.trace
	t.next.Proposal = t.next.Sure(t.next.at)
	t.next.at++
	if t.next.at >= len(t.next.Line.Corners) {
		w.takeNext()
		return
	}
	w.showCorner(t.next.Line.Corners[t.next.at])
	w.refresh()
}

// showCorner slides the Table where a place of the photo is out of sight.
func (w *Window) showCorner(at geom.Point) {
	p := w.doc.Pattern()
	if i := p.PictureIndex(w.photo().id); i >= 0 {
		w.table.Reveal(at.Add(p.Pictures[i].At))
	}
}

// takeNext takes all of the proposed line.
func (w *Window) takeNext() {
	t := &w.paper.trace
	next := t.next
	if !w.makeTracing(words.F("trace size %s", t.size), edit.TakeTraced(t.id, next.Line)) {
		return
	}
	t.next = proposal{}
	t.doubt(t.size, next.AllDoubts())
	w.sizeDone()
	w.refresh()
}

// correctNext is a click while corners are proposed: right on the one to confirm
// it confirms, elsewhere it says where that corner is.
func (w *Window) correctNext(at geom.Point) {
	const right = 0.3 // of the reach: a few px
	t := &w.paper.trace
	c := t.next.at
	if t.next.Line.Corners[c].Dist(at) > right*w.table.Reach() {
		w.moveNext(c, w.pointing().OntoPrint(at))
	}
	w.confirmNext()
}

// dragNext drags a proposed corner; its edges follow once it is let go.
func (w *Window) dragNext(c int, to geom.Point, ph board.Phase) {
	if ph != board.DragEnd {
		return
	}
	w.moveNext(c, to)
	w.refresh()
}

func (w *Window) moveNext(c int, to geom.Point) {
	t := &w.paper.trace
	k, _ := w.tracing()
	t.next.Proposal = w.tracer().Corrected(k, t.next.Proposal, c, to)
}

// nextWord is the button that takes what is proposed.
func (w *Window) nextWord() string {
	n := w.paper.trace.next
	if !n.on {
		return ""
	}
	return words.F("Confirm corner %d of %d", n.at+1, len(n.Line.Corners))
}
