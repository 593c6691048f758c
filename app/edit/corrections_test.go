package edit

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// front is the blouse's front bodice.
func front(t *testing.T, p model.Pattern) (model.Piece, func(name string) string) {
	t.Helper()
	q := p.Pieces[p.PieceIndex("front")]
	return q, func(name string) string {
		for _, g := range q.Points {
			if g.Name == name {
				return g.ID
			}
		}
		for _, e := range q.Edges {
			if e.Name == name {
				return e.ID
			}
		}
		t.Fatalf("the front has no %s", name)
		return ""
	}
}

func graded(t *testing.T, p model.Pattern) grading.Result {
	t.Helper()
	var g grading.Grader
	r, err := g.Grade(p)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Each correction is said in words and taken back to the very pattern before.
func TestEachCorrectionIsSaidAndTakenBack(t *testing.T) {
	p := made(t, made(t, blouse(t), Unit(model.Inches)), Place(8))
	q, id := front(t, p)
	inch := 25.4
	staged := made(t, p, Stages(true))
	size := p.Chart.Sizes[8].Name
	for _, c := range []struct {
		from model.Pattern
		e    func(model.Pattern) (model.Pattern, error)
		want string
	}{
		{p, MovePoint(q.ID, id("underarm"), q.FromAcrossAlong(inch/8, inch/4)), "Underarm 1/8 in out and 1/4 in down"},
		{p, MovePoint(q.ID, id("underarm"), q.FromAcrossAlong(-inch/8, -inch/4)), "Underarm 1/8 in inward and 1/4 in up"},
		{staged, MovePoint(q.ID, id("underarm"), q.FromAcrossAlong(inch/8, 0)), "Underarm 1/8 in out, at " + size},
		{p, MovePoint(q.ID, id("underarm"), q.FromAcrossAlong(0.1, 0)), "Underarm by a hair"},
		{staged, MoveControl(q.ID, id("armhole"), 1, geom.Vec{Y: inch / 2}), "Armhole bent, handles by up to 1/2 in, at " + size},
		{staged, ShiftEdge(q.ID, id("side seam"), -inch), "Whole side seam 1 in inward, at " + size},
		{p, ShiftEdge(q.ID, id("side seam"), inch), "Whole side seam 1 in out"},
		{p, KeepCurve(q.ID, id("armhole"), model.NearestCurve, ""), "Armhole with the curve of the nearest printed size"},
		{p, KeepCurve(q.ID, id("armhole"), model.PrintedCurve, "36"), "Armhole with the curve of size 36"},
		{p, KeepCurve(q.ID, id("armhole"), model.StraightCurve, ""), "Armhole straight"},
		{p, SmoothThrough(q.ID, id("underarm")), "Line smooth through underarm"},
		{p, Style(NarrowerShoulder, inch/4, graded(t, p)), "Narrower shoulder, 1/4 in"},
	} {
		after := made(t, c.from, c.e)
		all := Corrections(after)
		if len(all) != 1 || all[0].What != c.want {
			t.Errorf("corrections %v, want %q", listed(all), c.want)
			continue
		}
		if written(t, after) == written(t, c.from) {
			t.Errorf("%s: nothing of it is kept", c.want)
		}
		if got := made(t, after, all[0].TakeBack); !reflect.DeepEqual(got, c.from) {
			t.Errorf("%s: taken back, the pattern is not what it was", c.want)
		}
	}
}

func listed(all []Correction) []string {
	var out []string
	for _, c := range all {
		out = append(out, c.What)
	}
	return out
}

// Of many corrections each can be taken back alone, in any order.
func TestCorrectionsAreTakenBackOneByOne(t *testing.T) {
	p := made(t, made(t, blouse(t), Place(8)), Stages(true))
	q, id := front(t, p)
	full := p
	for _, e := range []func(model.Pattern) (model.Pattern, error){
		MovePoint(q.ID, id("underarm"), geom.Vec{X: 3}), Place(9), MovePoint(q.ID, id("underarm"), geom.Vec{X: 2}),
		MoveControl(q.ID, id("armhole"), 2, geom.Vec{X: 1}), ShiftEdge(q.ID, id("hem"), 4), Place(8), ShiftEdge(q.ID, id("hem"), 5),
		KeepCurve(q.ID, id("neckline"), model.PrintedCurve, "38"), SmoothThrough(q.ID, id("facing mark")),
		Style(LowerUnderarm, 10, graded(t, p)), Style(WiderNeckline, 5, graded(t, p)),
	} {
		full = made(t, full, e)
	}
	all := Corrections(full)
	if len(all) != 9 {
		t.Fatalf("corrections %q", listed(all))
	}
	for i, c := range all {
		got := made(t, full, c.TakeBack)
		want := listed(append(slices.Clone(all[:i]), all[i+1:]...))
		if left := listed(Corrections(got)); !reflect.DeepEqual(left, want) {
			t.Errorf("%s taken back leaves %q", c.What, left)
		}
	}
	none := full
	for _, i := range []int{4, 0, 8, 2, 6, 1, 7, 3, 5} {
		none = made(t, none, all[i].TakeBack)
	}
	if !reflect.DeepEqual(none.Pieces, p.Pieces) {
		t.Error("all taken back, the pieces are not what they were")
	}
	rest := made(t, full, TakeBackAll(q.ID))
	for _, c := range Corrections(rest) {
		if c.Piece == q.ID {
			t.Errorf("left: %s", c.What)
		}
	}
	if !strings.Contains(strings.Join(listed(Corrections(rest)), "\n"), "Lower underarm") {
		t.Error("taking back one piece's corrections took the style change of the others")
	}
}
