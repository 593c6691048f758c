package ui

import (
	"fmt"
	"slices"

	"quarterstep/app/edit"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/trace/follow"
	"quarterstep/ui/board"
)

// proposal is the next size's line as the sizes traced already let expect it,
// waiting to be confirmed corner by corner.
type proposal struct {
	on     bool
	line   model.TracedSize
	at     int // the corner to confirm
	doubts [][]follow.Doubt
}

// propose works out the line of the size in hand from the sizes traced already,
// where there is none yet and the printed lines are ready.
func (w *Window) propose() {
	t := &w.paper.trace
	t.next = proposal{}
	k, ok := w.tracing()
	ph := w.photo()
	if !ok || ph == nil || ph.lines == nil || t.straight {
		return
	}
	if line, _ := lineOf(k, t.size); len(line.Corners) > 0 {
		return
	}
	corners := w.expectedCorners(k)
	if corners == nil {
		return
	}
	next := proposal{on: true, line: model.TracedSize{Size: t.size, Corners: corners, Closed: true}}
	next.line.Edges = make([]geom.Path, len(corners))
	next.doubts = make([][]follow.Doubt, len(corners))
	for j := range corners {
		w.refollow(k, &next, j)
	}
	t.next = next
}

// refollow follows edge j of a proposal anew.
func (w *Window) refollow(k model.Tracing, next *proposal, j int) {
	n := len(next.line.Corners)
	j = (j + n) % n
	e := w.edgeBetween(k, next.line.Size, j, next.line.Corners[j], next.line.Corners[(j+1)%n], nil)
	next.line.Edges[j], next.doubts[j] = e.Path, e.Doubts
}

// expectedCorners are the corners of the size in hand, from the two traced sizes
// nearest to it by the chart: as far beyond, or between, as its step; each then
// taken to the printed line there. Nil where two are not there or differ in
// their corners.
func (w *Window) expectedCorners(k model.Tracing) []geom.Point {
	p, size := w.doc.Pattern(), w.paper.trace.size
	at, ok := p.Chart.Place(size)
	if !ok {
		return nil
	}
	var done []model.TracedSize
	for _, s := range k.Sizes {
		if s.Closed && s.Size != size {
			done = append(done, s)
		}
	}
	away := func(s model.TracedSize) int {
		place, _ := p.Chart.Place(s.Size)
		return max(place-at, at-place)
	}
	slices.SortStableFunc(done, func(a, b model.TracedSize) int { return away(a) - away(b) })
	if len(done) < 2 || len(done[0].Corners) != len(done[1].Corners) {
		return nil
	}
	a, b := done[0], done[1]
	pa, _ := p.Chart.Place(a.Size)
	pb, _ := p.Chart.Place(b.Size)
	share := float64(at-pa) / float64(pb-pa)
	out := make([]geom.Point, len(a.Corners))
	for i := range out {
		out[i] = w.ontoPrint(a.Corners[i].Lerp(b.Corners[i], share))
	}
	return out
}

// ontoPrint is the crossing, else the line, nearest to a place within 5 mm.
func (w *Window) ontoPrint(at geom.Point) geom.Point {
	const reach = 5
	f := w.photo().lines
	if c, ok := f.Corner(at, reach); ok {
		return c
	}
	if c, ok := f.Snap(at, reach); ok {
		return c
	}
	return at
}

// confirmNext confirms the proposed corner in hand; the last one takes the line.
func (w *Window) confirmNext() {
	t := &w.paper.trace
	t.next.at++
	if t.next.at >= len(t.next.line.Corners) {
		w.takeNext()
		return
	}
	w.refresh()
}

// takeNext takes all of the proposed line.
func (w *Window) takeNext() {
	t := &w.paper.trace
	next := t.next
	if !w.makeTracing("trace size "+t.size, edit.TakeTraced(t.id, next.line)) {
		return
	}
	t.next = proposal{}
	t.doubt(t.size, slices.Concat(next.doubts...))
	w.sizeDone()
	w.refresh()
}

// correctNext is a click while corners are proposed: on the one to confirm it
// confirms, elsewhere it says where that corner is.
func (w *Window) correctNext(at geom.Point) {
	t := &w.paper.trace
	c := t.next.at
	if t.next.line.Corners[c].Dist(at) > w.table.Reach() {
		to, _ := w.aimAt(model.TracedSize{}, at)
		w.moveNext(c, to)
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
	t.next.line.Corners[c] = to
	w.refollow(k, &t.next, c-1)
	w.refollow(k, &t.next, c)
}

// nextWord is the button that takes what is proposed.
func (w *Window) nextWord() string {
	n := w.paper.trace.next
	if !n.on {
		return ""
	}
	return fmt.Sprintf("Confirm corner %d of %d", n.at+1, len(n.line.Corners))
}
