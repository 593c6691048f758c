package board

import (
	"slices"

	"quarterstep/model/geom"
	"quarterstep/ui/scene"
	"quarterstep/ui/stopwatch"
)

// redraw draws all layers anew.
func (b *Board) redraw() {
	b.hand = nil
	if b.in.Select.Piece != "" {
		b.hand = []string{b.in.Select.Piece}
	}
	if b.gesture.dragging() && b.gesture.ref.Piece != "" {
		b.hand = []string{b.gesture.ref.Piece}
	}
	b.redrawStatic()
	b.redrawActive()
	b.parts.follow()
}

// redrawHand draws the pieces in hand anew, and takes along those that have
// come to differ from what the static layer shows.
func (b *Board) redrawHand() {
	grew := false
	for _, id := range scene.Changed(b.drawn, b.in) {
		if !slices.Contains(b.hand, id) {
			b.hand = append(b.hand, id)
			grew = true
		}
	}
	if grew {
		b.redrawStatic()
	}
	b.redrawActive()
	b.parts.follow()
}

func (b *Board) redrawStatic() {
	defer stopwatch.Lap("scene")()
	b.drawn = b.in
	w, h := b.paperSize()
	room := geom.Box{
		Min: b.view.ToMM(px(-slack, -slack)),
		Max: b.view.ToMM(px(w+slack, h+slack)),
	}
	b.parts.static.draw(
		box{-slack, -slack, w + 2*slack, h + 2*slack},
		b.grid(b.view.Scale, room),
		scene.Static(b.in, b.hand),
	)
}

// grid is the grid of the paper; none where there is no scale.
func (b *Board) grid(scale float64, room geom.Box) scene.Layer {
	if b.in.Unscaled != "" {
		return scene.Layer{}
	}
	return scene.Grid(b.unit, scale, b.in.Zero, room)
}

func (b *Board) redrawActive() {
	defer stopwatch.Lap("hand")()
	layer := scene.Active(b.in, b.hand)
	w, h := b.paperSize()
	lo, hi := b.view.ToPx(layer.Bounds(b.view.Scale).Min), b.view.ToPx(layer.Bounds(b.view.Scale).Max)
	part := box{lo.X, lo.Y, hi.X - lo.X, hi.Y - lo.Y}.within(box{-slack, -slack, w + 2*slack, h + 2*slack})
	b.parts.active.draw(part, layer)
}
