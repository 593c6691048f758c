package ui

import (
	"slices"
	"time"

	"fyne.io/fyne/v2"

	"quarterstep/app/trace"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/trace/follow"
)

// lineUnderWay is the line from the last corner to the pointer, and what it is the
// answer to; the zero lineUnderWay is none.
type lineUnderWay struct {
	follow.Edge
	of lineWanted
}

// lineWanted is what a line under way goes by: the same is followed the same.
type lineWanted struct {
	serial   int // of the document
	id, size string
	corners  int // the line has so far
	via      int // points on the way
	to       geom.Point
	straight bool
}

// soon is how long the window waits for the line to the pointer, which then comes
// in the same frame: most take a few ms.
const soon = 8 * time.Millisecond

// followTo has the line from the last corner to a place followed. One that takes
// longer than a moment, as over much print or where none leads there, is followed
// beside the window; until it is there, the last one stays.
func (w *Window) followTo(line model.TracedSize, to geom.Point) {
	t := &w.paper.trace
	of := w.wantedTo(line, to)
	switch {
	case len(line.Corners) == 0:
		t.live = lineUnderWay{}
		return
	case t.asking || t.live.of == of:
		return
	}
	done := make(chan lineUnderWay, 1)
	work := w.following(line, to, w.pointing())
	straight := w.following(line, to, trace.Hand{})
	besideWindow(func() {
		got := lineUnderWay{of: of}
		if err := guarded(func() error { got.Edge = work(); return nil }); err != nil {
			got.Edge = straight()
		}
		done <- got
	})
	select {
	case t.live = <-done:
	case <-time.After(soon):
		t.asking = true
		besideWindow(func() {
			got := <-done
			fyne.Do(func() { w.lineCame(got) })
		})
	}
}

// lineCame takes a line that was followed beside the window, unless another corner
// was set meanwhile, and asks for the one to where the pointer is now.
func (w *Window) lineCame(got lineUnderWay) {
	t := &w.paper.trace
	t.asking = false
	k, _ := w.tracing()
	line, _ := trace.LineOf(k, t.size)
	if !w.tracingNow() || !t.aiming || t.idle || t.next.on || line.Closed || len(line.Corners) == 0 {
		return
	}
	now := w.wantedTo(line, t.aim)
	if got.of.as(now) {
		t.live = got
	}
	w.followTo(line, t.aim)
	w.showTrace()
}

// as reports that both are lines from the same corner by the same way.
func (a lineWanted) as(b lineWanted) bool {
	a.to = b.to
	return a == b
}

func (w *Window) wantedTo(line model.TracedSize, to geom.Point) lineWanted {
	t := w.paper.trace
	return lineWanted{w.docSerial, t.id, t.size, len(line.Corners), len(t.via), to, w.pointing().Straight}
}

// following is the work of following from the last corner of a line to a place,
// by what h goes by.
func (w *Window) following(line model.TracedSize, to geom.Point, h trace.Hand) func() follow.Edge {
	k, _ := w.tracing()
	via := slices.Clone(w.paper.trace.via)
	return func() follow.Edge { return h.Edge(k, line, len(line.Corners)-1, to, via) }
}

// followed is the edge from the last corner of a line to a place: the one shown,
// where it leads there.
func (w *Window) followed(line model.TracedSize, to geom.Point) follow.Edge {
	if len(line.Corners) == 0 {
		return follow.Edge{}
	}
	if live := w.paper.trace.live; live.of == w.wantedTo(line, to) {
		return live.Edge
	}
	return w.following(line, to, w.pointing())()
}
