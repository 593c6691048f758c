package ui

import (
	"context"
	"math"
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
	w.beside(ph, words.F("Looking for size %s", size), func(ctx context.Context, _ func(float64)) (func(), error) {
		next, found := hand.Propose(ctx, k, chart, size)
		return func() {
			now, _ := w.tracing()
			line, _ := trace.LineOf(now, size)
			if found && t.id == id && t.size == size && len(line.Corners) == 0 && slices.ContainsFunc(now.Sizes, closed) {
				t.next = proposal{Proposal: next, on: true}
				t.next.at, _ = next.Ask()
			}
		}, nil
	})
}

func closed(s model.TracedSize) bool { return s.Closed }

// confirmNext confirms the doubtful corner that is asked for, whose place is then
// beyond doubt; where none is doubtful, it takes all of the line.
func (w *Window) confirmNext() {
	t := &w.paper.trace
	if _, doubtful := t.next.Ask(); !doubtful {
		w.takeNext()
		return
	}
	w.settleNext(t.next.Sure(t.next.at))
}

// settleNext goes on with a proposal in which one more corner is beyond doubt;
// the last one takes the line.
func (w *Window) settleNext(p trace.Proposal) {
	t := &w.paper.trace
	t.next.Proposal = p
	if t.next.at, _ = p.Ask(); t.next.at < 0 {
		w.takeNext()
		return
	}
	w.showCorner(t.next.Line.Corners[t.next.at])
	w.refresh()
}

// showCorner slides the Table where a place of the photo is out of sight.
func (w *Window) showCorner(at geom.Point) {
	w.table.Reveal(w.flatOnTable(at))
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

// correctNext is a click while corners are proposed: right on one it confirms
// that one, elsewhere it says where the one asked for is, or the nearest where
// none is doubtful.
func (w *Window) correctNext(at geom.Point) {
	const right = 0.3 // of the reach: a few px
	t := &w.paper.trace
	c, off := w.nextNear(at)
	if off <= right*w.reach() {
		w.settleNext(t.next.Sure(c))
		return
	}
	if i, doubtful := t.next.Ask(); doubtful {
		c = i
	}
	w.settleNext(t.next.Corrected(c, w.pointing().OntoPrint(at)))
}

// nextNear is the proposed corner nearest to a place, and how far it is in mm.
func (w *Window) nextNear(at geom.Point) (corner int, dist float64) {
	corner, dist = -1, math.Inf(1)
	for i, c := range w.paper.trace.next.Line.Corners {
		if d := c.Dist(at); d < dist {
			corner, dist = i, d
		}
	}
	return corner, dist
}

// dragNext drags a proposed corner; its edges follow once it is let go.
func (w *Window) dragNext(c int, to geom.Point, ph board.Phase) {
	if ph != board.DragEnd {
		return
	}
	w.settleNext(w.paper.trace.next.Corrected(c, to))
}

// nextWord is the button that confirms the corner asked for; empty where none is
// doubtful and the line can be taken.
func (w *Window) nextWord() string {
	n := w.paper.trace.next
	if !n.on {
		return ""
	}
	if _, doubtful := n.Ask(); !doubtful {
		return ""
	}
	return words.F("Confirm corner %d of %d", n.at+1, len(n.Line.Corners))
}

// nextAsk is what is asked of the proposed line.
func (w *Window) nextAsk() string {
	t := w.paper.trace
	if _, doubtful := t.next.Ask(); !doubtful {
		return words.F("*Size %s:* Enter takes it as proposed, a click puts the nearest corner right", t.size)
	}
	return words.F("*Size %s:* Enter if corner %d of %d is right, else click where it is", t.size, t.next.at+1, len(t.next.Line.Corners))
}
