package board

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"quarterstep/model/geom"
	"quarterstep/ui/scene"
	"quarterstep/ui/view"
)

// How the arrow keys move the cross-hair, in px, and how near to the rim of the
// paper's area it may come before the paper slides on.
const (
	crossStep  = 1
	crossLarge = 10
	crossRim   = 24
	crossArm   = 13 // px of each arm
	crossGap   = 4  // px left free about its middle
)

// crosshair is the pointer of the keyboard while tracing: the arrow keys move
// it, and Enter clicks where it is.
type crosshair struct {
	board *Board
	on    bool
	moved bool // since Enter last clicked
	arms  [4]*canvas.Line
}

func newCrosshair(b *Board) *crosshair {
	c := &crosshair{board: b}
	for i := range c.arms {
		c.arms[i] = canvas.NewLine(nil)
		c.arms[i].StrokeWidth = 2
		c.arms[i].Hide()
	}
	return c
}

func (c *crosshair) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{c.arms[0], c.arms[1], c.arms[2], c.arms[3]}
}

func (c *crosshair) recolour() {
	for _, l := range c.arms {
		l.StrokeColor = c.board.palette.Accent
	}
}

// place draws the cross-hair where it is.
func (c *crosshair) place() {
	at := c.board.pointer
	for i, d := range [4]geom.Vec{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}} {
		l := c.arms[i]
		if !c.on {
			l.Hide()
			continue
		}
		l.Position1 = pos(at.X+crossGap*d.X, at.Y+crossGap*d.Y)
		l.Position2 = pos(at.X+crossArm*d.X, at.Y+crossArm*d.Y)
		l.Show()
		l.Refresh()
	}
}

// drop puts the cross-hair away: the mouse points again.
func (c *crosshair) drop() {
	if c.on {
		c.on, c.moved = false, false
		c.place()
	}
}

// crossing reports whether the arrow keys move the cross-hair: with Trace in the
// hand, as long as no point that was picked wants moving.
func (b *Board) crossing() bool {
	if b.tool != Trace {
		return false
	}
	return b.parts.cross.on || !b.picked()
}

// picked reports whether a traced point was picked, to be moved by keys.
func (b *Board) picked() bool {
	t := b.in.Trace
	return t != nil && !b.asked() && (b.clickPicked() || slices.ContainsFunc(t.Corners, func(c scene.TraceCorner) bool { return c.Selected }))
}

// clickPicked reports whether a place clicked on a photo was picked.
func (b *Board) clickPicked() bool {
	t := b.in.Trace
	return t != nil && slices.ContainsFunc(t.Targets, func(k scene.TraceTarget) bool { return k.Picked })
}

// asked reports whether a line is proposed, to be confirmed by Enter.
func (b *Board) asked() bool {
	t := b.in.Trace
	return t != nil && slices.ContainsFunc(t.Lines, func(l scene.TracedLine) bool { return l.Asked })
}

// cross moves the cross-hair; at the rim of what is seen the paper slides.
func (b *Board) cross(by geom.Vec) {
	w, h := b.paperSize()
	at := b.pointer
	if !b.parts.cross.on && !b.inside {
		at = view.Px{X: w / 2, Y: h / 2}
	}
	at = px(at.X+by.X, at.Y+by.Y)
	b.crossTo(at)
}

// crossTo brings the cross-hair to a place of the paper's area, in px, which
// slides where that lies outside.
func (b *Board) crossTo(at view.Px) {
	w, h := b.paperSize()
	in := px(min(max(at.X, crossRim), w-crossRim), min(max(at.Y, crossRim), h-crossRim))
	if in != at {
		mm := b.view.ToMM(at)
		v := b.view
		v.Origin = v.Origin.Add(v.MM(at.Sub(in)))
		b.setView(v)
		at = b.view.ToPx(mm)
	}
	c := b.parts.cross
	c.on, c.moved = true, true
	b.pointedAt(at, true)
	c.place()
}

// crossEnter clicks where the cross-hair is; a second Enter there confirms what
// is proposed, else does nothing. It is false where Enter means something else.
func (b *Board) crossEnter() bool {
	c := b.parts.cross
	if !c.on || b.tool != Trace {
		return false
	}
	if !c.moved {
		return !b.asked()
	}
	c.moved = false
	b.grabs(b.pointer)
	b.place(b.pointer)
	if b.clickPicked() {
		c.drop()
	}
	return true
}

// crossNext brings the cross-hair to the next or the previous place that is
// traced or was clicked; false where there is none.
func (b *Board) crossNext(back bool) bool {
	spots := b.crossSpots()
	n := len(spots)
	if n == 0 || b.tool != Trace {
		return false
	}
	const same = 1.5 // px
	next, from := 0, -1
	for i, s := range spots {
		if b.view.ToPx(s).Sub(b.pointer).Len() < same {
			from = i
		}
	}
	switch {
	case from < 0 && back:
		next = n - 1
	case from >= 0 && back:
		next = (from + n - 1) % n
	case from >= 0:
		next = (from + 1) % n
	}
	b.crossTo(b.view.ToPx(spots[next]))
	return true
}

// crossSpots are the places that Tab goes to.
func (b *Board) crossSpots() []geom.Point {
	var out []geom.Point
	if t := b.in.Trace; t != nil {
		for _, c := range t.Corners {
			out = append(out, c.At)
		}
		out = append(out, t.Next...)
		for _, c := range t.Targets {
			out = append(out, c.At)
		}
	}
	return out
}

// crossSteps is how far an arrow key moves the cross-hair, in px.
func crossSteps(key fyne.KeyName, large bool) geom.Vec {
	if large {
		return arrows[key].Scale(crossLarge)
	}
	return arrows[key].Scale(crossStep)
}
