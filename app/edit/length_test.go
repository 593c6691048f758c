package edit_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"quarterstep/app"
	"quarterstep/app/edit"
	"quarterstep/grading/check"
	"quarterstep/model"
)

func demoPatterns(t *testing.T) (blouse, waistcoat model.Pattern) {
	t.Helper()
	blouse, err := app.DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	if waistcoat, err = app.DemoWaistcoat(); err != nil {
		t.Fatal(err)
	}
	return blouse, waistcoat
}

// The lines of front, back and facing that one amount must go in at are one
// group; the sleeve, which is sewn along no edge they cross, is its own.
func TestWhichPiecesAreLengthenedTogether(t *testing.T) {
	blouse, waistcoat := demoPatterns(t)
	for name, c := range map[string]struct {
		p    model.Pattern
		want string
	}{
		"blouse":    {blouse, "Above the waist: front back; Below the waist: front back; Sleeve: sleeve; Hem: front back"},
		"waistcoat": {waistcoat, "Above the waist: front back front-facing; Hem: front back front-facing"},
	} {
		var got []string
		for _, g := range edit.LengthGroups(c.p) {
			got = append(got, g.Name+": "+strings.Join(g.Pieces, " "))
		}
		if s := strings.Join(got, "; "); s != c.want {
			t.Errorf("%s:\n got %s\nwant %s", name, s, c.want)
		}
	}
}

// Without its links the lines go together by their names; a name that says only
// what every such line is for joins nothing.
func TestLinesOfUnlinkedPiecesGoByName(t *testing.T) {
	p, _ := demoPatterns(t)
	p.Links = nil
	groups := edit.LengthGroups(p)
	if len(groups) != 6 || len(groups[0].Lines) != 2 || len(groups[1].Lines) != 2 {
		t.Fatalf("got %v", groups)
	}
	for i := range p.Pieces {
		p.Pieces[i].Lines = slices.Clone(p.Pieces[i].Lines)
		for k := range p.Pieces[i].Lines {
			p.Pieces[i].Lines[k].Name = "Lengthen or shorten here"
		}
	}
	var names []string
	for _, g := range edit.LengthGroups(p)[:5] {
		names = append(names, g.Name)
	}
	want := "[Above the waist, front bodice Below the waist, front bodice Above the waist, back bodice Below the waist, back bodice Sleeve]"
	if got := fmt.Sprint(names); got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
}

func TestSettingALength(t *testing.T) {
	p, _ := demoPatterns(t)
	longer := with(t, p, edit.SetLength("above the waist", 20))
	longer = with(t, longer, edit.SetLength("Hem", 30))
	if err := longer.Validate(); err != nil {
		t.Fatal(err)
	}
	if len(longer.Lengths) != 2 || len(longer.Lengths[0].Lines) != 2 || len(longer.Lengths[1].Hems) != 2 || len(p.Lengths) != 0 {
		t.Fatalf("got %+v", longer.Lengths)
	}
	again := with(t, longer, edit.SetLength(longer.Lengths[0].ID, -5))
	if g, _ := edit.FindLength(edit.LengthGroups(again), "Above the waist"); g.By != -5 || len(again.Lengths) != 2 {
		t.Errorf("set again it is %g mm, of %d", g.By, len(again.Lengths))
	}
	back := with(t, with(t, again, edit.SetLength("Hem", 0)), edit.SetLength("Above the waist", 0))
	if len(back.Lengths) != 0 {
		t.Errorf("taken back there is %+v left", back.Lengths)
	}
	for _, e := range []func(model.Pattern) (model.Pattern, error){edit.SetLength("Knee", 3), edit.SetLength("Hem", 1001)} {
		if _, err := e(p); err == nil {
			t.Error("it was taken")
		}
	}
}

// A lengthening that lacks a linked piece is made whole when it is set anew.
func TestSettingALengthTakesTheLinkedPiecesIn(t *testing.T) {
	p, _ := demoPatterns(t)
	p = with(t, p, edit.SetLength("Above the waist", 20))
	p.Lengths = []model.Lengthening{p.Lengths[0]}
	p.Lengths[0].Lines = p.Lengths[0].Lines[:1]
	if g, _ := edit.FindLength(edit.LengthGroups(p), "Above the waist"); g.By != 20 || len(g.Lines) != 2 {
		t.Fatalf("it stands at %g mm on %d pieces", g.By, len(g.Lines))
	}
	p = with(t, p, edit.SetLength("Above the waist", 15))
	if len(p.Lengths) != 1 || len(p.Lengths[0].Lines) != 2 || p.Lengths[0].By != 15 {
		t.Errorf("got %+v", p.Lengths)
	}
}

func BenchmarkLengthGroups(b *testing.B) {
	p, err := app.DemoBlouse()
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		edit.LengthGroups(p)
	}
}

func with(t *testing.T, p model.Pattern, e func(model.Pattern) (model.Pattern, error)) model.Pattern {
	t.Helper()
	out, err := e(p)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// What the check of a one-sided length offers is done: a linked piece without a
// line there gets one, and as much is put in.
func TestEveningALength(t *testing.T) {
	p, _ := demoPatterns(t)
	p = with(t, p, edit.SetLength("Above the waist", 20))
	k := p.PieceIndex("back")
	p = p.WithPiece(k, func(q model.Piece) model.Piece {
		q.Lines = slices.DeleteFunc(slices.Clone(q.Lines), func(l model.Line) bool { return l.Kind == model.Lengthen })
		return q
	})
	p.Lengths = slices.Clone(p.Lengths)
	p.Lengths[0].Lines = p.Lengths[0].Lines[:1]
	even := with(t, p, edit.Act(oneSided(t, p)))
	if l := even.Lengths[0]; len(l.Lines) != 2 || l.By != 20 || l.Lines[1].Piece != "back" {
		t.Errorf("got %+v", l)
	}
	if err := even.Validate(); err != nil {
		t.Error(err)
	}
	if _, err := edit.EvenLength("gone")(p); err == nil {
		t.Error("a lengthening that is not there was made even")
	}
}

func oneSided(t *testing.T, p model.Pattern) check.Action {
	t.Helper()
	r, err := app.Grade(p)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range check.Findings(p, r) {
		if f.Code == "length-one-sided" {
			return f.Action
		}
	}
	t.Fatal("nothing one-sided was found")
	return check.Action{}
}
