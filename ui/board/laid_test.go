package board

import (
	"fmt"
	"math"
	"testing"

	"quarterstep/model/geom"
)

// TestDraggingOnALaidPiece drags a point of a piece that lies turned over and a
// quarter round: the movement comes out in the piece's own coordinates.
func TestDraggingOnALaidPiece(t *testing.T) {
	b := newTable(t)
	over := geom.Translate(geom.Vec{X: 900, Y: 80}).Mul(geom.Rotate(math.Pi / 2)).Mul(geom.ScaleXY(1, -1))
	b.in.Placement = map[string]geom.Affine{"front": over}
	b.SetScene(b.in)
	b.Fit()
	b.click(b.midEdge("side seam"))
	b.said()
	start := b.pointAt("underarm")
	b.press(start)
	b.drag(move(start, 24, 10))
	b.release(move(start, 24, 10))
	// A quarter round after turning over across: (x, y) on the piece shows at
	// (y, x), so what goes right on the Table goes down on the piece.
	s := b.view.Scale
	b.expect(
		"select front//underarm/0",
		"point underarm 0.00,0.00 phase 0",
		fmt.Sprintf("point underarm %.2f,%.2f phase 1", 10/s, 24/s),
		fmt.Sprintf("point underarm %.2f,%.2f phase 2", 10/s, 24/s),
	)
}

// TestFitKeepsClearOfWhatCovers brings everything into sight between what
// covers the head and the foot of the board.
func TestFitKeepsClearOfWhatCovers(t *testing.T) {
	b := newTable(t)
	b.SetCover(60, 180)
	_, h := b.paperSize()
	box := b.in.Bounds()
	top, low := b.view.ToPx(box.Min).Y, b.view.ToPx(box.Max).Y
	if top < 60 || low > h-180 {
		t.Errorf("the pieces reach from %.0f to %.0f px of %.0f", top, low, h)
	}
	b.SetCover(0, 0)
	if now := b.view.ToPx(box.Max).Y; now < low+60 {
		t.Errorf("with nothing covered they still end at %.0f px", now)
	}
}
