package check_test

import (
	"slices"
	"testing"

	"quarterstep/grading"
	"quarterstep/grading/check"
	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/sizechart"
)

// demoBlouse is the clean blouse, at its largest printed size.
func demoBlouse(t *testing.T) model.Pattern {
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

// lengthOf is what check finds of p with a lengthening.
func lengthOf(t *testing.T, g *grading.Grader, p model.Pattern, put model.Lengthening) []check.Finding {
	t.Helper()
	p.Lengths = []model.Lengthening{put}
	if err := p.Validate(); err != nil {
		t.Fatal(err)
	}
	r, err := g.Grade(p)
	if err != nil {
		t.Fatal(err)
	}
	for _, q := range r.Pieces {
		if q.Unlaid != "" {
			t.Fatal(q.Unlaid)
		}
	}
	return check.Findings(p, r)
}

func atWaist(pieces ...string) (out []model.PieceLine) {
	for _, q := range pieces {
		out = append(out, model.PieceLine{Piece: q, Line: "lengthen-above-the-waist"})
	}
	return out
}

func hem(piece string, edges ...string) model.Stretch {
	return model.Stretch{Piece: piece, Edges: edges}
}

// A length that lacks a linked piece, and a hem that is moved on one piece or in
// one part only, are found and said; the same put in everywhere is not.
func TestLengths(t *testing.T) {
	p := demoBlouse(t)
	var g grading.Grader
	for name, c := range map[string]struct {
		put  model.Lengthening
		code string
		say  string
	}{
		"both pieces":     {model.Lengthening{ID: "a", Name: "Above the waist", By: 20, Lines: atWaist("front", "back")}, "", ""},
		"the front alone": {model.Lengthening{ID: "a", Name: "Above the waist", By: 20, Lines: atWaist("front")}, "length-one-sided", "Front bodice is 20 mm longer above the waist, Back bodice is not."},
		"the back alone":  {model.Lengthening{ID: "a", Name: "Above the waist", By: -20, Lines: atWaist("back")}, "length-one-sided", "Back bodice is 20 mm shorter above the waist, Front bodice is not."},
		"the whole hem":   {model.Lengthening{ID: "a", Name: "Hem", By: 30, Hems: []model.Stretch{hem("front", "hem", "stand-hem"), hem("back", "hem")}}, "", ""},
		"one hem":         {model.Lengthening{ID: "a", Name: "Hem", By: 30, Hems: []model.Stretch{hem("front", "hem", "stand-hem")}}, "uneven-hem", "Front bodice is 30 mm longer at the hem, Back bodice is not."},
		"part of a hem":   {model.Lengthening{ID: "a", Name: "Hem", By: 30, Hems: []model.Stretch{hem("front", "hem"), hem("back", "hem")}}, "uneven-hem", "The hem of Front bodice is 30 mm longer in one part only: the stand hem stays."},
	} {
		found := lengthOf(t, &g, p, c.put)
		mine := slices.DeleteFunc(slices.Clone(found), func(f check.Finding) bool {
			return f.Code != "length-one-sided" && f.Code != "uneven-hem"
		})
		if c.code == "" {
			if len(found) > 0 {
				t.Errorf("%s: found %s: %s", name, found[0].Code, found[0].Say)
			}
			continue
		}
		if len(mine) != 1 || mine[0].Code != c.code || mine[0].Say != c.say || mine[0].Action.Do != check.EvenLength || mine[0].Action.Length != "a" {
			t.Errorf("%s: found %+v", name, mine)
		}
	}
}
