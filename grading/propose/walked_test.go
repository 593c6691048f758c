package propose

import (
	"reflect"
	"slices"
	"testing"

	"quarterstep/model"
)

// TestWalkedAsTheDemosDo picks the edges of every link of both demos by hand,
// backwards and without a word of how they are walked, and gets the demo's own
// link: the two sides walked as there, or both the other way.
func TestWalkedAsTheDemosDo(t *testing.T) {
	for name, p := range demos(t) {
		for _, l := range p.Links {
			pick := func(s model.Stretch) model.Stretch {
				out := model.Stretch{Piece: s.Piece, Edges: slices.Clone(s.Edges)}
				slices.Reverse(out.Edges)
				return out
			}
			var leads []model.Stretch
			for _, s := range l.Leads() {
				leads = append(leads, pick(s))
			}
			got, follow := Walked(p, l.Kind, leads, pick(l.Follow))
			if !slices.EqualFunc(got, l.Leads(), alike) || !alike(follow, l.Follow) {
				turned := turnedAll(got, follow)
				if !slices.EqualFunc(turned.leads, l.Leads(), alike) || !alike(turned.follow, l.Follow) {
					t.Errorf("%s, %s: walked %v along %v, want %v along %v", name, l.ID, follow, got, l.Follow, l.Leads())
				}
			}
		}
	}
}

func alike(a, b model.Stretch) bool { return reflect.DeepEqual(a, b) }

type bothSides struct {
	leads  []model.Stretch
	follow model.Stretch
}

func turnedAll(leads []model.Stretch, follow model.Stretch) bothSides {
	turn := func(s model.Stretch) model.Stretch {
		s.Edges, s.Reverse = slices.Clone(s.Edges), !s.Reverse
		slices.Reverse(s.Edges)
		return s
	}
	out := bothSides{follow: turn(follow)}
	for _, s := range slices.Backward(leads) {
		out.leads = append(out.leads, turn(s))
	}
	return out
}

func TestWalkedLeavesWhatIsGone(t *testing.T) {
	gone := model.Stretch{Piece: "gone", Edges: []string{"e"}}
	leads, follow := Walked(model.Pattern{}, model.Sewn, []model.Stretch{gone}, gone)
	if !alike(leads[0], gone) || !alike(follow, gone) {
		t.Errorf("walked %v along %v", follow, leads)
	}
}
