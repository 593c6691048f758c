package board

import (
	"fyne.io/fyne/v2"

	"quarterstep/ui/view"
)

// motion is where the pointer went since the last frame. A mouse tells of its
// moves up to a thousand times a second; what they lead to is worked out once a
// frame, just before it is drawn, for where the pointer is then.
type motion struct {
	waiting bool
	asked   bool // for the next frame
	drag    bool // a button is held
	at      view.Px
	onPaper bool
}

// hovers takes up that the pointer moved.
func (b *Board) hovers(at view.Px, onPaper bool) {
	m := &b.motion
	m.at, m.onPaper = at, onPaper
	b.ask()
}

// drags takes up that the pointer moved with a button held.
func (b *Board) drags(at view.Px) {
	m := &b.motion
	if !m.waiting {
		m.onPaper = b.inside
	}
	m.at, m.drag = at, true
	b.ask()
}

// ask has the moves worked out before the next frame.
func (b *Board) ask() {
	m := &b.motion
	m.waiting = true
	if m.asked {
		return
	}
	m.asked = true
	// The toolkit ticks animations after the events and before drawing; one
	// without duration is ticked once.
	fyne.NewAnimation(0, func(float32) {
		m.asked = false
		b.catchUp()
	}).Start()
}

// catchUp works out what the pointer's moves since the last frame lead to.
func (b *Board) catchUp() {
	m := b.motion
	b.motion.waiting, b.motion.drag = false, false
	switch {
	case !m.waiting:
	case m.drag:
		b.draggedTo(m.at, m.onPaper)
	default:
		b.pointedAt(m.at, m.onPaper)
	}
}
