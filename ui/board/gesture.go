package board

import (
	"fyne.io/fyne/v2/driver/desktop"

	"quarterstep/model/geom"
	"quarterstep/ui/scene"
	"quarterstep/ui/stopwatch"
	"quarterstep/ui/view"
)

// kind is what a press of a mouse button has begun.
type kind uint8

const (
	idle kind = iota
	sliding
	pointDrag  // a grade point
	handleDrag // a handle that shapes an edge
	edgeDrag   // an edge as a whole
	pieceDrag
	measuringDrag
	rulerDrag
	rulerTurn
	placing    // a click of Trace, or sliding where it turns out a drag
	tracedDrag // of something traced
)

// gesture is a press of a mouse button and what follows until its release. The
// zero gesture is none.
type gesture struct {
	kind    kind
	ref     scene.Ref
	button  desktop.MouseButton
	from    view.Px
	last    view.Px
	start   geom.Point // where the handle lay on the Table
	moved   bool
	bare    bool // began on the bare Table: a click lets go of everything
	spurned bool // another button was let go: the toolkit's next end of drag is none
}

// dragging reports whether the sewist is changing something, rather than
// looking about or measuring.
func (g gesture) dragging() bool {
	switch g.kind {
	case pointDrag, handleDrag, edgeDrag, pieceDrag, tracedDrag:
		return g.moved
	}
	return false
}

// report tells the owner of the board about the drag under way.
func (b *Board) report(phase Phase) {
	g := b.gesture
	by := b.view.MM(g.last.Sub(g.from))
	switch g.kind {
	case pointDrag:
		if b.OnDragPoint != nil {
			b.OnDragPoint(g.ref, b.ofPiece(g.ref, by), phase)
		}
	case handleDrag:
		if b.OnDragHandle != nil {
			b.OnDragHandle(g.ref, b.ofPiece(g.ref, by), phase)
		}
	case edgeDrag:
		b.OnDragEdge(g.ref, b.ofPiece(g.ref, by), phase)
	case pieceDrag:
		if b.OnDragPiece != nil {
			b.OnDragPiece(g.ref.Piece, by, phase)
		}
	case tracedDrag:
		if b.OnDragTraced != nil {
			b.OnDragTraced(by, phase)
		}
	}
}

// ofPiece is a movement on the Table in the coordinates of a piece, where its
// edge or grade point lies.
func (b *Board) ofPiece(at scene.Ref, by geom.Vec) geom.Vec {
	if inv, err := b.in.PlaceOf(at).Inverse(); err == nil {
		return inv.ApplyVec(by)
	}
	return by
}

// movedTo goes on with the gesture under way.
func (b *Board) movedTo(at view.Px) {
	g := &b.gesture
	step := at.Sub(g.last)
	first := !g.moved
	g.moved = true
	switch g.kind {
	case sliding, placing:
		g.last = at
		b.setView(b.view.Slide(step))
	case measuringDrag:
		g.last = at
		b.parts.measure.to(at)
	case rulerDrag:
		g.last = at
		b.parts.ruler.shift(step)
	case rulerTurn:
		g.last = at
		b.parts.ruler.turn(at)
	case pointDrag, handleDrag, edgeDrag, pieceDrag, tracedDrag:
		if first {
			g.last = g.from
			b.redraw()
			b.report(DragStart)
		}
		g.last = at
		b.report(DragMove)
		b.showMovement()
	}
}

// showMovement writes beside the handle how far it has been dragged.
func (b *Board) showMovement() {
	g := b.gesture
	if g.kind == idle || g.kind == pieceDrag {
		b.parts.moved.hide()
		return
	}
	by := b.view.MM(g.last.Sub(g.from))
	b.parts.moved.show(by.Len(), b.asGone(by), g.last.X+24, g.last.Y-80)
}

// finish ends the gesture under way as the button is let go.
func (b *Board) finish() {
	defer stopwatch.Lap("release")()
	g := b.gesture
	if g.kind == idle {
		return
	}
	if g.dragging() {
		b.report(DragEnd)
	}
	b.gesture = gesture{}
	b.parts.moved.hide()
	switch {
	case g.kind == placing && !g.moved, g.kind == tracedDrag && !g.moved:
		b.place(g.from)
	case g.bare && !g.moved:
		b.selected(scene.Ref{})
	case g.kind == measuringDrag:
		const shaking = 4 // px that a hand moves in a click
		b.parts.measure.release(g.last.Sub(g.from).Len() > shaking)
	case g.dragging() || (g.kind == sliding || g.kind == placing) && g.moved:
		b.redraw()
	}
	b.follow(b.pointer)
}

// cancel lets go without changing anything.
func (b *Board) cancel() {
	b.motion.drag = false
	if b.gesture.kind == idle {
		return
	}
	if b.gesture.dragging() {
		b.report(DragCancel)
	}
	b.gesture = gesture{}
	b.parts.moved.hide()
	b.redraw()
}

func (b *Board) selected(r scene.Ref) {
	if b.OnSelect != nil {
		b.OnSelect(r)
	}
}
