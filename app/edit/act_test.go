package edit

import (
	"testing"

	"quarterstep/grading/check"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// What a finding offers is done: afterwards it is no longer found.
func TestWhatIsOfferedHelps(t *testing.T) {
	steps := made(t, made(t, blouse(t), Place(8)), Method(model.BySteps))
	moved := made(t, blouse(t), MovePoint("front", "side-hem", geom.Vec{Y: 10}))
	kinked := made(t, blouse(t), MoveControl("front", "neckline", 1, geom.Vec{X: -4, Y: 12}))
	broken := blouse(t)
	broken.Links = append(broken.Links[:len(broken.Links):len(broken.Links)], model.Link{
		ID: "gone", Kind: model.Sewn,
		Lead:   model.Stretch{Piece: "front", Edges: []string{"gone"}},
		Follow: model.Stretch{Piece: "back", Edges: []string{"armhole"}},
	})
	for _, c := range []struct {
		name, code string
		do         check.Deed
		p          model.Pattern
	}{
		{"by steps", "ease", check.ByChart, steps},
		{"hem let down at the side", "uneven-hem", check.TakeBack, moved},
		{"neckline kinked at the centre", "kink", check.RunSmooth, kinked},
		{"a link to an edge that is gone", "link", check.Unlink, broken},
	} {
		found := findings(t, c.p, c.code)
		if len(found) == 0 || found[0].Action.Do != c.do || found[0].Action.Label == "" {
			t.Errorf("%s: offered %+v", c.name, found)
			continue
		}
		if left := findings(t, made(t, c.p, Act(found[0].Action)), c.code); len(left) != 0 {
			t.Errorf("%s: afterwards %+v", c.name, left)
		}
	}
	if _, err := Act(check.Action{})(steps); err == nil {
		t.Error("to look is no edit")
	}
	if _, err := Act(check.Action{Do: check.Unlink, Link: "gone"})(steps); err == nil {
		t.Error("a link that is not there was taken off")
	}
}

func findings(t *testing.T, p model.Pattern, code string) []check.Finding {
	t.Helper()
	var out []check.Finding
	for _, f := range check.Findings(p, graded(t, p)) {
		if f.Code == code {
			out = append(out, f)
		}
	}
	return out
}
