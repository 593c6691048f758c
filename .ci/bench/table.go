package main

import (
	"image"
	"slices"

	"quarterstep/ui/paint"
	"quarterstep/ui/scene"
	"quarterstep/ui/theme/palette"
	"quarterstep/ui/view"
)

// The Table as it is timed: how large it is, and how large the part is that is
// drawn anew while a piece is in hand, in px.
const (
	tableWide, tableHigh = 1600, 900
	handWide, handHigh   = 500, 700
)

// table is a Table with all pieces in sight, as the window's board draws it.
type table struct {
	in      scene.Input
	layer   scene.Layer
	view    view.View
	painter *paint.Painter
	img     *image.RGBA
	hand    *image.RGBA
}

func newTable(b *bench) (*table, error) {
	r, err := b.grader.Grade(b.p)
	if err != nil {
		return nil, err
	}
	t := &table{
		in:   scene.Input{Pattern: b.p, Result: r, Nest: true, Scale: 1},
		img:  image.NewRGBA(image.Rect(0, 0, tableWide, tableHigh)),
		hand: image.NewRGBA(image.Rect(0, 0, handWide, handHigh)),
	}
	t.view = view.Fit(t.in.Bounds(), tableWide, tableHigh, 20)
	t.in.Scale = t.view.Scale
	t.layer = scene.Static(t.in, nil)
	t.painter, err = newPainter()
	return t, err
}

// whole paints all of the Table.
func (t *table) whole() {
	paint.Clear(t.img, palette.Light.Table)
	t.painter.Paint(t.img, paint.Screen{View: t.view, Factor: 1}, t.layer)
}

// drag is all that happens from a move of the pointer to the picture: graded
// again, the pieces that have come to differ found, drawn and painted with the
// one in hand, shown as large as fits its part of the board.
func (t *table) drag(b *bench, i int) error {
	now := t.in
	now.Pattern = moved(b.p, i)
	r, err := b.grader.Grade(now.Pattern)
	if err != nil {
		return err
	}
	now.Result = r
	hand := []string{b.p.Pieces[0].ID}
	for _, id := range scene.Changed(t.in, now) {
		if !slices.Contains(hand, id) {
			hand = append(hand, id)
		}
	}
	now.Select = scene.Ref{Piece: hand[0], Point: "neck-point"}
	v := view.Fit(now.Only(hand[:1]).Bounds(), handWide, handHigh, 20)
	now.Scale = v.Scale
	paint.Clear(t.hand, palette.Light.Table)
	t.painter.Paint(t.hand, paint.Screen{View: v, Factor: 1}, scene.Active(now, hand))
	return nil
}
