package ui

import (
	"testing"

	"quarterstep/assets/words"
	"quarterstep/model/measure"
	"quarterstep/model/trace/straight"
)

// What a photo is said to be fit for tells in every language whether it asks for
// another one.
func TestDoubtIsReadInEveryLanguage(t *testing.T) {
	t.Cleanup(func() { _ = words.Use("en") })
	for _, l := range words.Languages() {
		if err := words.Use(l.Code); err != nil {
			t.Fatal(err)
		}
		for _, c := range []struct {
			say  string
			want bool
		}{
			{straight.Misfit{Worst: 0.2}.Say(measure.Millimetres), false},
			{straight.Misfit{Worst: 1}.Say(measure.Millimetres), false},
			{straight.Misfit{Worst: 9}.Say(measure.Millimetres), true},
			{straight.Sheet{Far: 0.5}.Say(measure.Millimetres), false},
			{straight.Sheet{Far: 9}.Say(measure.Millimetres), true},
			{straight.Sheet{Rough: true}.Say(measure.Millimetres), true},
			{straight.Sheet{Misfit: straight.Misfit{RMS: 9, Worst: 9}}.Say(measure.Millimetres), true},
			{straight.Joined{Refined: true}.Say(measure.Millimetres), false},
			{straight.Joined{Refined: true, Misfit: straight.Misfit{Worst: 9}}.Say(measure.Millimetres), true},
		} {
			if doubtful(c.say) != c.want {
				t.Errorf("%s: of %q it is thought %v", l.Code, c.say, !c.want)
			}
		}
	}
}
