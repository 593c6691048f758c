package board

import (
	"math"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

// Over an edge the gap to the print is that which the ruler reads there.
func TestGapUnder(t *testing.T) {
	b := newTable(t)
	y := b.in.Pattern.Pieces[0].At.Y + 400
	all := scene.Crossings(b.in, geom.Pt(150, y), geom.Pt(400, y), 1e-3)
	from, to, ok := scene.Reading(all)
	if !ok {
		t.Fatal("no gap there")
	}
	b.MouseMoved(mouse(b.at(geom.Pt(150+to.S, y)), 0))
	a, c, ok := b.GapUnder()
	if !ok || a.Size != from.Size || c.Size != to.Size || math.Abs(math.Abs(c.S-a.S)-math.Abs(to.S-from.S)) > 0.5 {
		t.Errorf("from %s to %s, %.2f mm, %v; the ruler reads %s to %s, %.2f mm", a.Size, c.Size, c.S-a.S, ok, from.Size, to.Size, to.S-from.S)
	}
	b.MouseMoved(mouse(b.at(geom.Pt(-200, -200)), 0))
	if _, _, ok := b.GapUnder(); ok {
		t.Error("beside all pieces there is a gap")
	}
}
