package board

import (
	"fyne.io/fyne/v2"

	"quarterstep/model/geom"
	"quarterstep/ui/scene"
	"quarterstep/ui/view"
)

// enter does with the tool in hand, by Enter, what a click would do at the
// handle or the edge in hand. It is false where the tool does nothing there.
func (b *Board) enter() bool {
	switch b.tool {
	case Measure:
		h, ok := b.inHand()
		if ok {
			b.parts.measure.begin(h.At)
		}
		return ok
	case AddPoint:
		return b.addMidway()
	}
	return false
}

// inHand is the handle that is selected.
func (b *Board) inHand() (scene.Handle, bool) {
	for _, h := range b.handles() {
		if same(h.Ref, b.in.Select) {
			return h, true
		}
	}
	return scene.Handle{}, false
}

// measureTo ends a measure that Enter began at the handle in hand.
func (b *Board) measureTo() {
	if h, ok := b.inHand(); ok && b.tool == Measure && b.parts.measure.taken {
		b.parts.measure.end(h.At)
	}
}

// placeInHand is where on the Table the handle in hand lies, or the middle of the
// edge.
func (b *Board) placeInHand() (geom.Point, bool) {
	if in, ok := b.inHand(); ok {
		return in.At, true
	}
	m, ok := b.edgeInHand()
	if !ok {
		return geom.Point{}, false
	}
	return b.in.PlaceOf(b.in.Select).Apply(m.At(m.Length() / 2)), true
}

// addMidway asks for a grade point in the middle of the edge in hand; it can be
// moved from there.
func (b *Board) addMidway() bool {
	m, ok := b.edgeInHand()
	if !ok || b.OnAddPoint == nil {
		return false
	}
	b.OnAddPoint(b.in.Select, m.At(m.Length()/2))
	return true
}

// edgeInHand is the edge in hand, measured.
func (b *Board) edgeInHand() (geom.Measured, bool) {
	const tol = 0.01
	r := b.in.Select
	i := b.in.Pattern.PieceIndex(r.Piece)
	if i < 0 || i >= len(b.in.Result.Pieces) {
		return geom.Measured{}, false
	}
	j := b.in.Pattern.Pieces[i].EdgeIndex(r.Edge)
	if j < 0 {
		return geom.Measured{}, false
	}
	m, err := geom.Measure(b.in.Result.Pieces[i].Edges[j], tol)
	return m, err == nil
}

// slides is how far an arrow key slides the paper, px.
const slides = 60

// slideBy slides the paper by an arrow key.
func (b *Board) slideBy(key fyne.KeyName) {
	by := arrows[key].Scale(slides)
	v := b.view
	v.Origin = v.Origin.Add(v.MM(view.Px{X: by.X, Y: by.Y}))
	b.setView(v)
}

// InHandAt is where on the window's canvas what is selected lies: its handle,
// else the middle of the piece, else the Table's.
func (b *Board) InHandAt() fyne.Position {
	w, h := b.paperSize()
	at := view.Px{X: w / 2, Y: h / 2}
	if in, ok := b.inHand(); ok {
		at = b.view.ToPx(in.At)
	} else if i := b.in.Pattern.PieceIndex(b.in.Select.Piece); i >= 0 {
		box := b.in.Result.Pieces[i].Outline().Bounds()
		at = b.view.ToPx(b.in.Place(b.in.Select.Piece).Apply(box.Centre()))
	}
	at.X, at.Y = min(max(at.X, 0), w), min(max(at.Y, 0), h)
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(b).Add(pos(at.X+rulerLeft, at.Y+rulerTop))
}
