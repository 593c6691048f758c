package edit

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"quarterstep/grading/check"
	"quarterstep/model"
	"quarterstep/model/geom"
)

func TestDartsAreTruedAndKept(t *testing.T) {
	p := made(t, blouse(t), Place(9))
	q, _ := front(t, p)
	d := q.Darts[0]
	was := graded(t, p).Pieces[p.PieceIndex("front")].Darts[0]
	trued := made(t, p, TrueDart(q.ID, d.ID, true))
	if g := graded(t, trued).Pieces[p.PieceIndex("front")].Darts[0]; g.Kink > 0.1 || was.Kink < 1 || g.Why != "" {
		t.Errorf("trued, the seam turns by %.2f degrees, before %.2f; %q", g.Kink, was.Kink, g.Why)
	}
	kept := made(t, p, KeepTakeUp(q.ID, d.ID, true))
	largest := q.Nest[len(q.Nest)-1]
	want := largest.Edges[q.PointIndex(d.From)].Start().Dist(largest.Edges[q.PointIndex(d.To)].Start())
	if g := graded(t, kept).Pieces[p.PieceIndex("front")].Darts[0]; math.Abs(g.TakeUp-want) > 0.01 {
		t.Errorf("kept, the dart is %.3f mm wide, printed %.3f, graded %.3f", g.TakeUp, want, was.TakeUp)
	}
	back := made(t, made(t, trued, TrueDart(q.ID, d.ID, false)), KeepTakeUp(q.ID, d.ID, false))
	if !reflect.DeepEqual(back.Pieces, p.Pieces) {
		t.Error("let go again, the pattern is another")
	}
	if &q.Darts[0] != &p.Pieces[p.PieceIndex("front")].Darts[0] || q.Darts[0].Trued {
		t.Error("an edit wrote into the pattern it was given")
	}
}

// A dart is made of what it was printed as: taken away and made again where it
// was, it lies where it lay in every size, within what a click is off.
func TestMakingADart(t *testing.T) {
	p := blouse(t)
	q, _ := front(t, p)
	d, i := q.Darts[0], p.PieceIndex("front")
	size := q.Nest[len(q.Nest)-1].Size
	place, _ := p.Chart.Place(size)
	p = made(t, p, Place(float64(place)))
	without := made(t, p, RemoveDart(q.ID, d.ID))
	if n := len(without.Pieces[i].Darts); n != 0 {
		t.Fatalf("%d darts are left", n)
	}
	apex := d.Apex[len(d.Apex)-1].At
	for _, ends := range [][2]string{{d.From, d.To}, {d.To, d.From}} {
		again := made(t, without, MakeDart(q.ID, ends[0], ends[1], apex, graded(t, without)))
		got := again.Pieces[i].Darts[0]
		if got.From != d.From || got.To != d.To || got.Apex[len(got.Apex)-1].At.Dist(apex) > 1e-9 {
			t.Errorf("made %+v", got)
		}
		if at := graded(t, again).Pieces[i].Darts[0].Apex; at.Dist(apex) > 1e-6 {
			t.Errorf("the point lies %.6f mm from the click", at.Dist(apex))
		}
		if err := again.Validate(); err != nil {
			t.Errorf("made, the pattern is not sound: %v", err)
		}
	}
}

func TestDartsThatCannotBeMade(t *testing.T) {
	p := blouse(t)
	q, id := front(t, p)
	d := q.Darts[0]
	none := made(t, p, RemoveDart(q.ID, d.ID))
	r := graded(t, p)
	inside := d.Apex[0].At
	for _, c := range []struct {
		p    model.Pattern
		e    func(model.Pattern) (model.Pattern, error)
		want string
	}{
		{p, MakeDart(q.ID, d.From, d.To, inside, r), "the bust dart of Front bodice lies there already"},
		{none, MakeDart(q.ID, d.From, d.To, geom.Pt(9e3, 0), r), "inside Front bodice"},
		{none, MakeDart(q.ID, d.From, d.From, inside, r), "two different grade points"},
		{none, MakeDart(q.ID, d.From, id("side hem"), r.Pieces[p.PieceIndex(q.ID)].Edges[q.PointIndex(d.From)].Start().Add(geom.Vec{X: -1}), r), "legs shorter"},
		{p, TrueDart(q.ID, "gone", true), "no such dart"},
		{p, RemoveDart(q.ID, "gone"), "no such dart"},
		{p, KeepTakeUp("gone", d.ID, true), "no piece"},
	} {
		if _, err := c.e(c.p); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("want %q, got %v", c.want, err)
		}
	}
	uneven := p.WithPiece(p.PieceIndex(q.ID), func(q model.Piece) model.Piece {
		q.Edges = append([]model.Edge(nil), q.Edges...)
		q.Edges[q.PointIndex(d.To)].Allowance = 3
		return q
	})
	if _, err := TrueDart(q.ID, d.ID, true)(uneven); err == nil || !strings.Contains(err.Error(), "allowances of 15.0 and 3.0 mm") {
		t.Errorf("trued over two allowances: %v", err)
	}
}

// What the check of darts offers is done: afterwards it finds nothing.
func TestTheOfferToTrueADartHelps(t *testing.T) {
	p := blouse(t)
	q, id := front(t, p)
	bent := made(t, p, MovePoint(q.ID, id("lower dart leg"), geom.Vec{X: 6}))
	found := findings(t, bent, "dart-legs")
	if len(found) != 1 || found[0].Action.Do != check.TrueDart {
		t.Fatalf("found %+v", found)
	}
	if left := findings(t, made(t, bent, Act(found[0].Action)), "dart-legs"); len(left) != 0 {
		t.Errorf("afterwards %+v", left)
	}
}
