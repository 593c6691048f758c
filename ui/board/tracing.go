package board

import (
	"fyne.io/fyne/v2"

	"quarterstep/ui/scene"
	"quarterstep/ui/view"
)

// traceReach is how near, in px, the pointer must be to take hold of something
// traced: less than a handle's reach, for corners of neighbouring sizes lie close.
const traceReach = 11

// SetTrace shows what is being traced, without drawing anew what lies under it.
func (b *Board) SetTrace(t *scene.Trace) {
	b.in.Trace = t
	b.redrawActive()
	b.parts.lens.update()
}

// Reach is how near in mm the pointer must be to something traced.
func (b *Board) Reach() float64 { return traceReach / b.view.Scale }

// grabs reports whether something traced lies under the pointer.
func (b *Board) grabs(at view.Px) bool {
	return (b.tool == Trace || b.tool == Move) && b.OnGrab != nil && b.OnGrab(b.view.ToMM(at), b.Reach())
}

// asksTraced asks for the menu of what is traced under the pointer.
func (b *Board) asksTraced(at view.Px, place fyne.Position) bool {
	return b.OnMenuTraced != nil && b.OnMenuTraced(b.view.ToMM(at), b.Reach(), place)
}

func (b *Board) place(at view.Px) {
	if b.OnPlace != nil {
		b.OnPlace(b.view.ToMM(at))
	}
}
