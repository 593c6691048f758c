package scene_test

import (
	"testing"

	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

// The name of a point stands outside its piece, inside where another piece lies
// there, and nowhere where there is room for neither.
func TestPointNamesKeepOffOtherPieces(t *testing.T) {
	in := blouse(t, 4)
	in.Select = scene.Ref{Piece: "front", Edge: "side seam"}
	name := func() (scene.Text, bool) {
		for _, x := range scene.Active(in, []string{"front"}).Texts {
			if x.Words == "Side hem" {
				return x, true
			}
		}
		return scene.Text{}, false
	}
	if x, ok := name(); !ok || x.Anchor != scene.Left {
		t.Errorf("with room: %v, %+v", ok, x)
	}
	i := in.Pattern.PieceIndex("facing")
	hem := in.Edges(0)[7].Start()
	near := in.Edges(i)[0].Bounds()
	in.Placement = map[string]geom.Affine{"facing": geom.Translate(geom.Vec{X: hem.X + 5 - near.Min.X, Y: hem.Y - 30 - near.Min.Y}.Add(in.Pattern.Pieces[i].At))}
	if x, ok := name(); !ok || x.Anchor != scene.Right {
		t.Errorf("beside the facing: %v, %+v", ok, x)
	}
	in.Scale /= 5
	if x, ok := name(); ok {
		t.Errorf("with room for neither: %+v", x)
	}
}
