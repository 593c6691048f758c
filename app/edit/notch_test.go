package edit_test

import (
	"math"
	"slices"
	"testing"

	"quarterstep/app/edit"
	"quarterstep/grading"
	"quarterstep/model"
)

// The demo's cap notches, drafted as far from the underarm as the armhole's,
// taken off and put back by the armhole's come to the same places.
func TestNotchAndItsMate(t *testing.T) {
	p := linkedBlouse(t)
	i := p.PieceIndex("front")
	front := p.Pieces[i]
	k := slices.IndexFunc(front.Notches, func(n model.Notch) bool { return n.Edge == "armhole" })
	if k < 0 {
		t.Fatal("the front's armhole has no notch")
	}
	was := front.Notches[k]
	bare := done(t, p, edit.RemoveNotch("front", was.ID))
	if n := len(bare.Pieces[p.PieceIndex("sleeve")].Notches); n != len(p.Pieces[p.PieceIndex("sleeve")].Notches)-1 {
		t.Fatalf("with the armhole's notch gone the sleeve has %d", n)
	}
	long, err := front.Nest[0].Edges[front.EdgeIndex("armhole")].Length(1e-6)
	if err != nil {
		t.Fatal(err)
	}
	got := done(t, bare, edit.AddNotch("front", "armhole", was.Spots[0].S/long))
	sleeve, old := got.Pieces[p.PieceIndex("sleeve")], p.Pieces[p.PieceIndex("sleeve")]
	added := sleeve.Notches[len(sleeve.Notches)-1]
	j := slices.IndexFunc(old.Notches, func(n model.Notch) bool { return n.Edge == added.Edge })
	if added.Edge != "front-cap" || added.Double || j < 0 {
		t.Fatalf("the mate is %+v", added)
	}
	if d := math.Abs(added.Spots[0].S - old.Notches[j].Spots[0].S); d > 0.02 {
		t.Errorf("the mate lies %.3f mm from where it was drafted", d)
	}
	back := done(t, p, edit.AddNotch("back", "armhole", 0.2))
	if n := back.Pieces[p.PieceIndex("back")].Notches; !n[len(n)-1].Double {
		t.Error("a notch of the back is not double")
	}
	// Graded, a pair of notches meets in every size.
	var g grading.Grader
	for _, place := range []float64{0, 3, 8, 11} {
		got.Target.Place = place
		r, err := g.Grade(got)
		if err != nil {
			t.Fatal(err)
		}
		w, err := grading.Walk(got, r, got.Links[slices.IndexFunc(got.Links, func(l model.Link) bool { return l.ID == "cap" })])
		if err != nil {
			t.Fatal(err)
		}
		if len(w.Parts) != 4 || math.Abs(w.Parts[3].Over()) > 0.02 {
			t.Errorf("place %g: the parts are %+v", place, w.Parts)
		}
	}
}

func TestNotchesThatCannotBe(t *testing.T) {
	p := linkedBlouse(t)
	for _, f := range []func(model.Pattern) (model.Pattern, error){
		edit.AddNotch("gone", "armhole", 0.5), edit.AddNotch("front", "gone", 0.5),
		edit.RemoveNotch("front", "gone"), edit.RemoveNotch("gone", "n"),
	} {
		if _, err := f(p); err == nil {
			t.Error("a notch that cannot be was taken")
		}
	}
}
