package match

import (
	"strings"
	"testing"

	"quarterstep/model"
	"quarterstep/model/exchange"
	"quarterstep/model/geom"
)

// One line for 38 and 40, its marks drawn for both together, for each, for one
// of them, and for all: each is kept once for the line, by its smallest size.
func TestMarksOfLinesThatSizesShare(t *testing.T) {
	shared := body("38", 10)
	shared.Also = []string{"40"}
	raw := exchange.RawPiece{Name: "Back, cut 1 on the fold", Outlines: []exchange.RawOutline{body("36", 0), shared, body("42", 30)}}
	in := func(l exchange.RawLine, also ...string) exchange.RawLine {
		l.Also = also
		return l
	}
	grain := func(x float64) []geom.Point { return []geom.Point{geom.Pt(x, 100), geom.Pt(x, 500)} }
	notch := func(y float64) []geom.Point { return []geom.Point{geom.Pt(-4, y), geom.Pt(4, y)} }
	raw.Lines = []exchange.RawLine{
		line(model.Grain, "36", "grain", grain(50)...),
		in(line(model.Grain, "38", "grain", grain(55)...), "40"),
		line(model.WaistLine, "36", "waist", geom.Pt(0, 400), geom.Pt(200, 400)),
		line(model.WaistLine, "38", "waist", geom.Pt(0, 402), geom.Pt(220, 402)),
		line(model.WaistLine, "40", "waist", geom.Pt(0, 402), geom.Pt(220, 402)),
		line(model.HipLine, "40", "hip", geom.Pt(0, 520), geom.Pt(220, 520)),
		in(line(model.Inner, "36", "pleat", grain(90)...), "38", "40", "42"),
		line(exchange.Notch, "36", "notch", notch(200)...),
		line(exchange.Notch, "38", "notch", notch(201)...),
		line(exchange.Notch, "40", "notch", notch(202)...),
		line(exchange.Notch, "42", "notch", notch(203)...),
	}
	pieces, doubts := matched(t, oneSheet(raw), chartOf("36", "38", "40", "42"))
	q := pieces[0]
	if len(doubts) > 0 || strings.Join(q.Nest[1].Sizes(), "/") != "38/40" {
		t.Fatalf("line of %v, doubts %+v", q.Nest[1].Sizes(), doubts)
	}
	got := map[string]string{}
	for _, l := range q.Lines {
		var sizes []string
		for _, d := range l.Drawn {
			sizes = append(sizes, d.Size)
		}
		got[l.Name] += strings.Join(sizes, " ") + ";"
	}
	for name, want := range map[string]string{"grain": "36 38;", "waist": "36 38;", "hip": "38;", "pleat": "36 38 42;"} {
		if got[name] != want {
			t.Errorf("%s is kept for %q, want %q", name, got[name], want)
		}
	}
	if len(q.Notches) != 1 || q.Notches[0].Double {
		t.Fatalf("notches %+v", q.Notches)
	}
	for k, s := range q.Notches[0].Spots {
		if s.Size != q.Nest[k].Size {
			t.Errorf("the notch of line %d is marked %s", k+1, s.Size)
		}
	}
	if len(q.Notches[0].Spots) != 3 {
		t.Errorf("%d spots, want one on each line", len(q.Notches[0].Spots))
	}
}

// Grade points are mended on a shared line by any size on it.
func TestMendingALineThatSizesShare(t *testing.T) {
	shared := body("38", 10)
	shared.Also = []string{"40"}
	raw := exchange.RawPiece{Name: "Back", Outlines: []exchange.RawOutline{body("36", 0), shared, body("42", 30)}}
	chart := chartOf("36", "38", "40", "42")
	pieces, _ := matched(t, oneSheet(raw), chart)
	q := pieces[0]
	at := q.Nest[1].Edges[4].Start().Lerp(q.Nest[1].Edges[4].End(), 0.5)
	a, err1 := AddPoint(q, "38", at)
	b, err2 := AddPoint(q, "40", at)
	if err1 != nil || err2 != nil || len(a.Points) != len(q.Points)+1 {
		t.Fatalf("%d points, %v, %v", len(a.Points), err1, err2)
	}
	for i := range a.Nest {
		if d := a.Nest[i].Edges[5].Start().Dist(b.Nest[i].Edges[5].Start()); d != 0 {
			t.Errorf("line %d: cut %g mm apart by 38 and by 40", i+1, d)
		}
	}
	put := at.Add(geom.Vec{Y: 30})
	moved, err := MovePoint(a, a.Points[5].ID, "40", put)
	if err != nil {
		t.Fatal(err)
	}
	if d := moved.Nest[1].Edges[5].Start().Dist(at); d < 20 || moved.Nest[0].Edges[5].Start() != a.Nest[0].Edges[5].Start() {
		t.Errorf("moved in size 40 by %g mm", d)
	}
	if _, err := MovePoint(a, a.Points[5].ID, "44", put); err == nil {
		t.Error("a size that is not printed was mended")
	}
}
