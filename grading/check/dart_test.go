package check_test

import (
	"strings"
	"testing"

	"quarterstep/grading"
	"quarterstep/grading/check"
	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
)

// dartFindings are the findings about darts in size place of p.
func dartFindings(t *testing.T, p model.Pattern, place float64) []check.Finding {
	t.Helper()
	p.Target.Place = place
	var g grading.Grader
	r, err := g.Grade(p)
	if err != nil {
		t.Fatal(err)
	}
	var out []check.Finding
	for _, f := range check.Findings(p, r) {
		if strings.HasPrefix(f.Code, "dart-") {
			out = append(out, f)
		}
	}
	return out
}

func dartBlouse(t *testing.T) model.Pattern {
	t.Helper()
	c, ok := sizechart.ByID("en13402-women")
	if !ok {
		t.Fatal("no chart")
	}
	p, err := draft.Blouse(c, []string{"34", "36", "38", "40"})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestSoundDartsAreLetBe(t *testing.T) {
	p := dartBlouse(t)
	for place := 0.0; place <= 12; place += 0.5 { // 34 to 40 are at 1 to 4
		if f := dartFindings(t, p, place); len(f) > 0 {
			t.Errorf("place %g: %+v", place, f)
		}
	}
}

// A leg end moved along its leg makes the legs differ by as much, beside the 0.1
// mm that they differ by in print on the stitching line, and is said from 1/16 in
// on. A handle moved beside it kinks the seam.
func TestFaultsOfDarts(t *testing.T) {
	p := dartBlouse(t)
	i := p.PieceIndex("front")
	q := p.Pieces[i]
	o := q.Nest[3]
	low := q.PointIndex(q.Darts[0].To)
	leg := o.Edges[low].Start().Sub(q.Darts[0].Apex[3].At).Unit()
	for _, c := range []struct {
		name string
		by   geom.Vec
		code string
		say  string
	}{
		{"lower leg 1.4 mm longer", leg.Scale(1.4), "", ""},
		{"lower leg 2.2 mm longer", leg.Scale(2.2), "dart-legs", "The lower leg of the bust dart of Front bodice is 2.3 mm longer than the upper."},
		{"lower leg 3 mm shorter", leg.Scale(-3), "dart-legs", "The upper leg of the bust dart of Front bodice is 2.9 mm longer than the lower."},
	} {
		moved := p.WithPiece(i, func(q model.Piece) model.Piece {
			q.Hand.Moves = []model.PointMove{{Point: q.Darts[0].To, By: c.by}}
			return q
		})
		f := dartFindings(t, moved, 4)
		if c.code == "" && len(f) > 0 || c.code != "" && (len(f) != 1 || f[0].Code != c.code || f[0].Say != c.say || !f[0].Look) {
			t.Errorf("%s: %+v", c.name, f)
		}
	}
	kinked := p.WithPiece(i, func(q model.Piece) model.Piece {
		q.Hand.Shapes = []model.EdgeShape{{Edge: q.Edges[low].ID, By: []geom.Vec{{X: 12}}}}
		return q
	})
	f := dartFindings(t, kinked, 4)
	if len(f) != 1 || f[0].Code != "dart-kink" || f[0].Action.Do != check.TrueDart {
		t.Errorf("kinked: %+v", f)
	}
	kinked.Limits = map[string]float64{check.LimitKink: 60}
	if f := dartFindings(t, kinked, 4); len(f) != 0 {
		t.Errorf("let go, it is found all the same: %+v", f)
	}
}
