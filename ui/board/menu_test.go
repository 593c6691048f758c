package board

import (
	"testing"

	"fyne.io/fyne/v2"

	"quarterstep/ui/scene"
)

// A right click names the grade point, the edge or the piece under it, and where
// its menu is to open; a drag under way and the bare Table have none.
func TestRightClickAsksForAMenu(t *testing.T) {
	b := newTable(t)
	var got []scene.Ref
	b.OnMenu = func(at scene.Ref, place fyne.Position) {
		got = append(got, at)
		if place != fyne.NewPos(700, 500) {
			t.Errorf("the menu opens at %v", place)
		}
	}
	right := func(p fyne.Position) {
		b.TappedSecondary(&fyne.PointEvent{Position: p, AbsolutePosition: fyne.NewPos(700, 500)})
	}
	inside := b.at(b.in.Edges(0)[0].Bounds().Union(b.in.Edges(0)[3].Bounds()).Centre())
	b.click(b.midEdge("side seam"))
	for _, c := range []struct {
		name string
		at   fyne.Position
		want scene.Ref
	}{
		{"a grade point", b.pointAt("underarm"), scene.Ref{Piece: "front", Point: "underarm"}},
		{"an edge", b.midEdge("side seam"), scene.Ref{Piece: "front", Edge: "side seam"}},
		{"a piece", inside, scene.Ref{Piece: "front"}},
	} {
		got = nil
		right(c.at)
		if len(got) != 1 || got[0] != c.want {
			t.Errorf("a right click on %s names %v", c.name, got)
		}
	}
	got = nil
	right(fyne.NewPos(2, 2))
	b.press(b.pointAt("underarm"))
	right(b.midEdge("side seam"))
	if len(got) != 0 {
		t.Errorf("a menu opens for %v", got)
	}
}
