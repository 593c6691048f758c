package board

import (
	"math"
	"testing"

	"quarterstep/ui/scene"
)

// The close-up brings as many sizes into sight as fit, each once, the nearest
// first: the far side of the piece is another line of the same sizes.
func TestNestSpan(t *testing.T) {
	line := func(size string, s float64) scene.Crossing { return scene.Crossing{S: s, Size: size} }
	side := []scene.Crossing{line("34", 60), line("36", 70), line("38", 80), line("48", 100), line("34", 10)}
	for _, c := range []struct{ at, room, low, high float64 }{
		{100, 60, 60, 100},
		{100, 25, 80, 100}, // no room for 36
		{100, 5, 100, 100},
		{65, 60, 60, 100},
	} {
		low, high := nestSpan(side, c.at, c.room)
		if math.Abs(low-c.low) > 1e-9 || math.Abs(high-c.high) > 1e-9 {
			t.Errorf("round %v with room for %v: %v to %v, want %v to %v", c.at, c.room, low, high, c.low, c.high)
		}
	}
	if low, high := nestSpan(nil, 7, 10); low != 7 || high != 7 {
		t.Errorf("without lines: %v to %v", low, high)
	}
}

// Over a grade point the close-up has it and the printed sizes beside it in sight,
// and measures the lines of that piece alone.
func TestCloseUpShowsTheNest(t *testing.T) {
	b := newTable(t)
	b.SetCloseUp(true)
	at := b.pointAt("underarm")
	b.MouseMoved(mouse(at, 0))
	l, w, h := b.parts.lens, float64(lensWidth-8), float64(lensHeight-lensHead-6)
	v := b.view
	v.Scale *= l.zoom()
	v.Origin = b.view.ToMM(b.pointer).Add(v.MM(px(w/2, h/2)).Scale(-1))
	got := l.wholeNest(v, w, h)
	if p := got.ToPx(b.view.ToMM(b.pointer)); p.X < 0 || p.X > w || math.Abs(p.Y-h/2) > 1e-6 {
		t.Errorf("the pointer is at %v of %v x %v", p, w, h)
	}
	before, after := l.crossings(v, w, h/2), l.crossings(got, w, h/2)
	if len(after) < len(before) || len(after) == 0 {
		t.Errorf("%d lines in sight, %d without moving aside", len(after), len(before))
	}
	for _, c := range after {
		if c.Piece != b.hover.Piece {
			t.Errorf("size %s of piece %s is measured over piece %s", c.Size, c.Piece, b.hover.Piece)
		}
	}
}
