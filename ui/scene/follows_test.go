package scene_test

import (
	"strings"
	"testing"

	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

// A piece that follows another says which, and how long the line is; that both match
// is not said of one whose line came out longer.
func TestAFollowerSaysWhetherItMatches(t *testing.T) {
	in := blouse(t, 4)
	said := func() (follows, match bool) {
		for _, x := range scene.Static(in, nil).Texts {
			follows = follows || x.Sign == scene.LinkSign && x.Words == "follows Front bodice"
			match = match || x.Sign == scene.MatchSign && strings.HasSuffix(x.Words, "in, both edges match")
		}
		return follows, match
	}
	if follows, match := said(); !follows || !match {
		t.Errorf("of the facing as drawn: follows %v, matches %v", follows, match)
	}
	i := in.Pattern.PieceIndex("facing")
	for k := range in.Result.Pieces[i].Edges { // 1 % longer than its leader
		in.Result.Pieces[i].Edges[k] = in.Result.Pieces[i].Edges[k].Transform(geom.ScaleXY(1.01, 1.01))
	}
	if follows, match := said(); !follows || match {
		t.Errorf("of a facing that is longer: follows %v, matches %v", follows, match)
	}
}
