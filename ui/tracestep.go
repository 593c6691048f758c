package ui

import (
	"cmp"
	"slices"

	"fyne.io/fyne/v2"

	"quarterstep/app/edit"
	"quarterstep/app/session"
	"quarterstep/app/trace"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/trace/follow"
	"quarterstep/ui/board"
)

// traceStep is what tracing has in hand beyond the document.
type traceStep struct {
	id       string // of the tracing in hand; empty before its first click
	name     string // given before its first click
	cut      int
	size     string // whose line is traced
	from, to int    // one more than the chart places of the printed sizes; 0 while not said
	ways     int    // which of the printed sizes are traced: traceAll, ...
	straight bool   // edges are straight lines, whatever is printed
	idle     bool   // Esc let go: nothing runs to the pointer until the next click

	via    []geom.Point // clicked on the way of the edge under way
	live   lineUnderWay // to the pointer
	aim    geom.Point   // where a click would go
	aiming bool
	doubts map[string][]follow.Doubt // of the edges accepted, by size
	faults []follow.Doubt            // of the lines done, as last looked
	looked int                       // for which state of the document
	next   proposal
	pins   map[string][]geom.Point // laid by hand on the way of edges, by size
	asking bool                    // a line to the pointer is worked out beside the window
	held   grip                    // while the button is down
	picked grip                    // clicked, for the keys
	mark   markMaking
}

// habits is what stays from one piece to the next.
func (t traceStep) habits() traceStep {
	return traceStep{from: t.from, to: t.to, ways: t.ways, straight: t.straight}
}

// doubt adds what is doubtful of an edge accepted for a size.
func (t *traceStep) doubt(size string, more []follow.Doubt) {
	if t.doubts == nil {
		t.doubts = map[string][]follow.Doubt{}
	}
	t.doubts[size] = append(slices.Clone(t.doubts[size]), more...)
}

// doubtAnew puts what is doubtful of edges followed anew in the place of what was
// doubtful of them before.
func (t *traceStep) doubtAnew(size string, was []geom.Path, now []follow.Doubt) {
	left := slices.DeleteFunc(slices.Clone(t.doubts[size]), func(d follow.Doubt) bool { return liesOn(was, d.At) })
	delete(t.doubts, size)
	t.doubt(size, append(left, now...))
}

// liesOn reports whether a doubt's place lies on one of some edges.
func liesOn(edges []geom.Path, at geom.Point) bool {
	const near, tol = 3, 0.1 // mm; a doubt may lie between two lines
	return slices.ContainsFunc(edges, func(e geom.Path) bool {
		if len(e) == 0 {
			return false
		}
		_, _, d := e.Nearest(at, tol)
		return d <= near
	})
}

// allDoubts are the doubtful places of a tracing, of what is proposed and of
// the edge to the pointer. A place whose line is gone, or runs elsewhere now, is
// none.
func (t *traceStep) allDoubts(k model.Tracing) []follow.Doubt {
	const apart = 12 // mm; nearer to one another they are one place to look at
	var out []follow.Doubt
	add := func(ds ...follow.Doubt) {
		for _, d := range ds {
			if !slices.ContainsFunc(out, func(o follow.Doubt) bool { return o.At.Dist(d.At) < apart }) {
				out = append(out, d)
			}
		}
	}
	add(t.live.Doubts...)
	add(t.faults...)
	add(t.next.AllDoubts()...)
	for _, s := range k.Sizes {
		for _, d := range t.doubts[s.Size] {
			if liesOn(s.Edges, d.At) {
				add(d)
			}
		}
	}
	return out
}

// tracing is the tracing in hand, and whether there is one.
func (w *Window) tracing() (model.Tracing, bool) {
	p := w.doc.Pattern()
	if i := p.TracingIndex(w.paper.trace.id); i >= 0 {
		return p.Tracings[i], true
	}
	return model.Tracing{}, false
}

// keepTracing takes up a tracing of the photo in hand where none is, and lets go
// of what is gone.
func (w *Window) keepTracing(p model.Pattern) {
	t := &w.paper.trace
	ph := w.photo()
	if ph == nil {
		return
	}
	defer func() {
		w.dropStale()
		w.lookAtLines(p)
	}()
	if i := p.TracingIndex(t.id); i >= 0 && p.Tracings[i].Picture == ph.id {
		w.keepSize(p, p.Tracings[i])
		return
	}
	t.id = ""
	for _, k := range p.Tracings {
		if k.Picture == ph.id {
			w.takeTracing(k.ID)
			break
		}
	}
	now, _ := w.tracing()
	w.keepSize(p, now)
}

// takeTracing takes a tracing in hand, with the printed sizes as they were.
func (w *Window) takeTracing(id string) {
	t := &w.paper.trace
	*t = t.habits()
	t.id = id
	p := w.doc.Pattern()
	i := p.TracingIndex(id)
	if i < 0 || t.from > 0 || t.to > 0 {
		return
	}
	// One that was opened, or came back after a crash, says its sizes itself.
	place := func(name string) int {
		return 1 + slices.IndexFunc(p.Chart.Sizes, func(s model.ChartSize) bool { return s.Name == name })
	}
	t.from, t.to = place(p.Tracings[i].Printed[0]), place(p.Tracings[i].Printed[1])
}

// dropStale lets go of a proposal whose lines were undone.
func (w *Window) dropStale() {
	t := &w.paper.trace
	if k, _ := w.tracing(); t.next.on && !slices.ContainsFunc(k.Sizes, closed) {
		t.next, t.live, t.aiming = proposal{}, lineUnderWay{}, false
	}
}

// tracingNow reports whether clicks on the Table trace.
func (w *Window) tracingNow() bool {
	return w.step == stepBringIn && (w.showsFlat(w.photo()) || w.tracesTaken(w.photo())) && !w.paper.measure.on && !w.joining(w.photo())
}

// placed is a click of the tool Trace, at a place of the Table.
func (w *Window) placed(at geom.Point) {
	ph := w.photo()
	w.paper.unseen = false
	switch {
	case w.step != stepBringIn || ph == nil:
	case !w.showsFlat(ph) && !w.tracesTaken(ph):
		w.clickTaken(ph, at)
	case !w.showsFlat(ph) && !ph.shows(at):
		w.say(words.T("Click on the photo."))
	case w.paper.trace.mark.kind != "":
		w.clickMark(w.onPhoto(at))
	case w.paper.trace.next.on:
		w.correctNext(w.onPhoto(at))
	case w.table.Tool() != board.Trace:
		w.pick()
	default:
		w.traceClick(w.onPhoto(at))
	}
}

// onPhoto is a place of the Table in mm of the flat picture in hand.
func (w *Window) onPhoto(at geom.Point) geom.Point {
	p, ph := w.doc.Pattern(), w.photo()
	if w.tracesTaken(ph) {
		return ph.flatMM(ph.pixel(at))
	}
	if i := p.PictureIndex(ph.id); i >= 0 {
		return at.Add(p.Pictures[i].At.Scale(-1))
	}
	return at
}

// traceClick sets the next corner of the line in hand, closes it at its first
// corner, or with Shift held sets a point on the way.
func (w *Window) traceClick(at geom.Point) {
	t := &w.paper.trace
	p := w.doc.Pattern()
	if t.size == "" {
		w.say(words.T("Choose the size chart and the printed sizes first, in the Photo panel."))
		return
	}
	k, _ := w.tracing()
	line, _ := trace.LineOf(k, t.size)
	if line.Closed && w.pick() {
		return
	}
	if line.Closed && shiftHeld() {
		if _, j, ok := w.edgeAt(at, w.reach()); ok {
			w.addCurvePoint(j, at)
			return
		}
	}
	if line.Closed {
		w.say(words.F("The line of size %s is done. Choose the next size, or drag a corner.", t.size))
		return
	}
	t.idle = false
	to, closing := w.pointing().Aim(line, at)
	if n := len(line.Corners); n > 0 && !closing {
		if shiftHeld() {
			t.via = append(t.via, to)
			w.showTrace()
			return
		}
		if line.Corners[n-1].Dist(to) < w.reach()/2 {
			return
		}
	}
	edge := w.followed(line, to)
	e := edit.AddCorner(w.tracingID(p), t.size, to, edge.Path)
	label := words.F("a corner of size %s", t.size)
	if closing {
		e, label = edit.CloseSize(t.id, t.size, edge.Path), words.F("close size %s", t.size)
	}
	if w.makeTracing(label, e) {
		t.doubt(t.size, edge.Doubts)
		t.via, t.live = nil, lineUnderWay{}
		if closing {
			w.sizeDone()
		}
		w.refresh()
	}
}

// tracingID is the ID of the tracing in hand, a fresh one before its first
// click.
func (w *Window) tracingID(p model.Pattern) string {
	t := &w.paper.trace
	if t.id == "" {
		t.id = freshID("tracing", func(id string) bool { return p.TracingIndex(id) < 0 })
	}
	return t.id
}

// makeTracing makes one edit of the tracing in hand, which it begins where it is
// not there yet.
func (w *Window) makeTracing(label string, e session.Edit) bool {
	t := w.paper.trace
	ph := w.photo()
	err := w.doc.Do(label, func(p model.Pattern) (model.Pattern, error) {
		if p.TracingIndex(t.id) < 0 {
			var err error
			if p, err = edit.StartTracing(t.id, ph.id, cmp.Or(t.name, freePieceName(p)), max(t.cut, 1))(p); err != nil {
				return p, err
			}
		}
		p, err := e(p)
		if from, to := w.printedFromTo(p); err == nil && from >= 0 && p.TracingIndex(t.id) >= 0 {
			return edit.PrintedSizes(t.id, p.Chart.Sizes[from].Name, p.Chart.Sizes[to].Name)(p)
		}
		return p, err
	})
	if err != nil {
		w.say(err.Error())
	}
	return err == nil
}

// freePieceName is what a piece is called before it is named.
func freePieceName(p model.Pattern) string {
	return words.F("Piece %d", len(p.Pieces)+len(p.Tracings)+1)
}

// tracer is what tracing goes by on the photo in hand.
func (w *Window) tracer() trace.Hand {
	const careful = 0.6 // of the reach: in a nest the next crossing is never far
	return trace.Hand{Lines: w.photo().lines, Reach: careful * w.reach(), Straight: w.paper.trace.straight}
}

// pointing is what a click goes by: with Ctrl held nothing is followed, the edge
// is straight and ends where the pointer is.
func (w *Window) pointing() trace.Hand {
	h := w.tracer()
	h.Straight = h.Straight || keyHeld(fyne.KeyModifierShortcutDefault)
	return h
}

// pointed follows the pointer while a line is under way; at is in mm from where
// the rulers count: of the flat picture, or of the photo as taken on the Table.
func (w *Window) pointed(at geom.Point) {
	t := &w.paper.trace
	if !w.tracingNow() || w.table.Tool() != board.Trace || t.idle || t.next.on || t.mark.kind != "" {
		return
	}
	k, _ := w.tracing()
	line, _ := trace.LineOf(k, t.size)
	if line.Closed || t.size == "" {
		return
	}
	if w.tracesTaken(w.photo()) {
		at = w.onPhoto(at)
	}
	to, _ := w.pointing().Aim(line, at)
	t.aim, t.aiming = to, true
	w.followTo(line, to)
	w.showTrace()
}

// takeSize takes a size's line in hand.
func (w *Window) takeSize(size string) {
	t := &w.paper.trace
	t.size, t.via, t.live, t.next, t.aiming = size, nil, lineUnderWay{}, proposal{}, false
	w.propose()
}

// undoPoint takes back the last point on the way, or the last corner.
func (w *Window) undoPoint() {
	t := &w.paper.trace
	switch {
	case len(t.mark.clicks) > 0:
		t.mark.clicks = t.mark.clicks[:len(t.mark.clicks)-1]
	case t.next.on:
		t.next = proposal{}
	case len(t.via) > 0:
		t.via = t.via[:len(t.via)-1]
	case t.id != "":
		w.do(words.T("take a point back"), edit.UndoPoint(t.id, t.size))
		delete(t.doubts, t.size)
	}
	t.live = lineUnderWay{}
	w.refresh()
}

// traceKey is a key while tracing: Enter ends an edge or confirms, Backspace
// takes a point back, Esc lets go. It is false for another key.
func (w *Window) traceKey(e *fyne.KeyEvent) bool {
	if !w.tracingNow() {
		return false
	}
	t := &w.paper.trace
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		switch {
		case t.next.on:
			w.confirmNext()
		case t.aiming && t.mark.kind == "":
			w.traceClick(t.aim)
		}
	case fyne.KeyBackspace:
		w.undoPoint()
	case fyne.KeyDelete:
		w.removePicked()
	case fyne.KeyEscape:
		t.via, t.live, t.idle, t.aiming, t.next, t.mark, t.picked = nil, lineUnderWay{}, true, false, proposal{}, markMaking{}, grip{}
		w.refresh()
	default:
		return false
	}
	return true
}

// finishSize closes the line in hand along the printed line to its first corner,
// or takes all of what is proposed.
func (w *Window) finishSize() {
	t := &w.paper.trace
	if t.next.on {
		w.takeNext()
		return
	}
	k, ok := w.tracing()
	if !ok {
		return
	}
	line, _ := trace.LineOf(k, t.size)
	if line.Closed || len(line.Corners) < 3 {
		w.say(words.T("A line needs three corners before it can be finished."))
		return
	}
	edge := w.followed(line, line.Corners[0])
	if w.makeTracing(words.F("close size %s", t.size), edit.CloseSize(t.id, t.size, edge.Path)) {
		t.doubt(t.size, edge.Doubts)
		w.sizeDone()
		w.refresh()
	}
}

// shelve makes a piece of what was traced.
func (w *Window) shelve() {
	t := &w.paper.trace
	k, ok := w.tracing()
	if !ok {
		return
	}
	p := w.doc.Pattern()
	id := freshID("piece", func(id string) bool { return p.PieceIndex(id) < 0 })
	if err := w.doc.Do(words.F("put %s on the Shelf", k.Name), edit.FinishTracing(k.ID, id)); err != nil {
		w.say(err.Error())
		return
	}
	*t = t.habits()
	w.hand.Piece, w.hand.Edge, w.hand.Point = id, "", ""
	w.refresh()
	if len(k.Sizes) == 1 {
		w.unfold(foldGrows)
		w.say(words.F("%s is on the Shelf in size %s. Type the gaps to the next size under How it grows.", k.Name, k.Sizes[0].Size))
		return
	}
	w.say(words.F("%s is on the Shelf. Click the first corner of the next piece, or go on to Grade.", k.Name))
}
