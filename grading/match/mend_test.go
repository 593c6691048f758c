package match

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model"
	"quarterstep/model/geom"
)

func blouseBack(t *testing.T) model.Piece {
	pieces, _ := matched(t, readSheet(t, "blouse-eu-36-42.svg", euChart()), euChart())
	q := pieces[0]
	q.Notches = []model.Notch{{ID: "n1", Edge: "e3"}, {ID: "n2", Edge: "e4"}}
	for _, o := range q.Nest {
		for i, share := range []float64{0.6, 0.2} {
			l, err := o.Edges[2+i].Length(1e-6)
			if err != nil {
				t.Fatal(err)
			}
			q.Notches[i].Spots = append(q.Notches[i].Spots, model.Spot{Size: o.Size, S: share * l})
		}
	}
	q.Hand.Moves = []model.PointMove{{Point: "p4", By: geom.Vec{X: 1}}}
	q.Hand.Shapes = []model.EdgeShape{{Edge: "e1", By: []geom.Vec{{X: 1}}}, {Edge: "e3", By: []geom.Vec{{X: 2}}}}
	return q
}

type failer interface {
	Helper()
	Fatal(...any)
	Fatalf(string, ...any)
}

func valid(t failer, q model.Piece) model.Piece {
	t.Helper()
	if err := (model.Pattern{Chart: euChart(), Pieces: []model.Piece{q}}).Validate(); err != nil {
		t.Fatal(err)
	}
	return q
}

// notchAt is where a notch lies on paper.
func notchAt(t failer, q model.Piece, id, size string) geom.Point {
	t.Helper()
	for _, m := range q.Notches {
		for _, s := range m.Spots {
			if m.ID != id || s.Size != size {
				continue
			}
			o, _ := q.Printed(size)
			m, err := geom.Measure(o.Edges[q.EdgeIndex(m.Edge)], 1e-6)
			if err != nil {
				t.Fatal(err)
			}
			return m.At(s.S)
		}
	}
	t.Fatalf("notch %s of size %s is gone", id, size)
	return geom.Point{}
}

func TestAddPoint(t *testing.T) {
	q := blouseBack(t)
	o, _ := q.Printed("38")
	m, err := geom.Measure(o.Edges[2], 1e-6)
	if err != nil {
		t.Fatal(err)
	}
	at := m.At(70).Add(geom.Vec{X: 2})
	got, err := AddPoint(q, "38", at)
	if err != nil {
		t.Fatal(err)
	}
	valid(t, got)
	if len(got.Points) != 8 || got.Points[3].ID != "p8" || !got.Points[3].Smooth || got.Edges[3].ID != "e8" || got.Edges[3].Name != "armhole 2" || got.Edges[2].ID != "e3" {
		t.Errorf("points %+v, edges %+v", got.Points, got.Edges)
	}
	share := 0.0
	for j, o := range got.Nest {
		a, _ := o.Edges[2].Length(1e-6)
		whole, _ := q.Nest[j].Edges[2].Length(1e-6)
		if j == 0 {
			share = a / whole
		}
		if math.Abs(a/whole-share) > 1e-6 {
			t.Errorf("size %s is cut at %g of the armhole, 36 at %g", o.Size, a/whole, share)
		}
		for _, n := range []string{"n1", "n2"} {
			if d := notchAt(t, q, n, o.Size).Dist(notchAt(t, got, n, o.Size)); d > 1e-3 {
				t.Errorf("size %s: notch %s moved %g mm", o.Size, n, d)
			}
		}
	}
	if len(got.Hand.Moves) != 1 || len(got.Hand.Shapes) != 1 || got.Hand.Shapes[0].Edge != "e1" {
		t.Errorf("hand corrections %+v", got.Hand)
	}
	if len(q.Points) != 7 || len(q.Nest[0].Edges) != 7 || len(q.Hand.Shapes) != 2 {
		t.Error("the piece given was changed")
	}
}

func TestAddPointOnADrawnCorner(t *testing.T) {
	raw := rawBack()
	pieces, _ := matched(t, oneSheet(raw), euChart())
	less, err := RemovePoint(pieces[0], "p5") // the waist
	if err != nil {
		t.Fatal(err)
	}
	more, err := AddPoint(valid(t, less), "38", geom.Pt(222, 402))
	if err != nil {
		t.Fatal(err)
	}
	for j, o := range valid(t, more).Nest {
		if want := pieces[0].Nest[j].Edges[4].Start(); o.Edges[4].Start().Dist(want) > 1e-3 {
			t.Errorf("size %s: the waist is put back at %v, drawn at %v", o.Size, o.Edges[4].Start(), want)
		}
	}
	if more.Points[4].Smooth {
		t.Error("a drawn corner was called smooth")
	}
}

func TestMendingRefusals(t *testing.T) {
	q := blouseBack(t)
	q.Darts = []model.Dart{{ID: "d1", From: "p4", To: "p5", Apex: []model.SizedPoint{{At: geom.Pt(100, 300)}}}}
	o, _ := q.Printed("38")
	for _, c := range []struct {
		name string
		do   func() (model.Piece, error)
		say  string
	}{
		{"size", func() (model.Piece, error) { return AddPoint(q, "50", geom.Pt(0, 0)) }, "Back is not printed in size 50"},
		{"far", func() (model.Piece, error) { return AddPoint(q, "38", geom.Pt(900, 900)) }, "this place is"},
		{"again", func() (model.Piece, error) { return AddPoint(q, "38", o.Edges[2].Start()) }, "a grade point here already"},
		{"unknown", func() (model.Piece, error) { return RemovePoint(q, "p99") }, "no such grade point"},
		{"dart", func() (model.Piece, error) { return RemovePoint(q, "p4") }, "a dart of Back ends at this grade point"},
		{"past", func() (model.Piece, error) { return MovePoint(q, "p4", "38", o.Edges[2].Start()) }, "a grade point here already"},
		{"move", func() (model.Piece, error) { return MovePoint(q, "p4", "50", geom.Pt(0, 0)) }, "no such grade point in size 50"},
	} {
		got, err := c.do()
		if err == nil || !strings.Contains(err.Error(), c.say) {
			t.Errorf("%s: %v, want %q", c.name, err, c.say)
		}
		if len(got.Points) != len(q.Points) {
			t.Errorf("%s: refused and yet changed", c.name)
		}
	}
}

// TestAddAndRemove: what AddPoint does RemovePoint undoes, up to the cut in the
// curves; notches never move.
func TestAddAndRemove(t *testing.T) {
	q := blouseBack(t)
	rapid.Check(t, func(t *rapid.T) {
		j := rapid.IntRange(0, len(q.Nest)-1).Draw(t, "size")
		k := rapid.IntRange(0, len(q.Edges)-1).Draw(t, "edge")
		m, err := geom.Measure(q.Nest[j].Edges[k], 1e-6)
		if err != nil {
			t.Fatal(err)
		}
		at := m.At(rapid.Float64Range(0.1, 0.9).Draw(t, "share") * m.Length())
		more, err := AddPoint(q, q.Nest[j].Size, at)
		if err != nil {
			t.Fatal(err)
		}
		fresh := valid(t, more).Points[k+1].ID
		less, err := RemovePoint(more, fresh)
		if err != nil {
			t.Fatal(err)
		}
		valid(t, less)
		for i, e := range less.Edges {
			if e != q.Edges[i] || less.Points[i] != q.Points[i] {
				t.Fatalf("edge %+v or point %+v comes back changed", e, less.Points[i])
			}
			for j, o := range less.Nest {
				was := q.Nest[j].Edges[i]
				for _, p := range o.Edges[i].Flatten(0.1) {
					if _, _, d := was.Nearest(p, 1e-6); d > 1e-6 {
						t.Fatalf("the line comes back %g mm off", d)
					}
				}
			}
		}
		for _, n := range []string{"n1", "n2"} {
			for _, o := range q.Nest {
				if d := notchAt(t, q, n, o.Size).Dist(notchAt(t, less, n, o.Size)); d > 1e-3 {
					t.Fatalf("notch %s of size %s comes back %g mm off", n, o.Size, d)
				}
			}
		}
	})
}

func TestRemoveEveryPointButTwo(t *testing.T) {
	q := blouseBack(t)
	area := func(o model.Outline) float64 { return geom.Join(o.Edges...).Area() }
	for len(q.Points) > 2 {
		next, err := RemovePoint(q, q.Points[0].ID)
		if err != nil {
			t.Fatal(err)
		}
		q = valid(t, next)
	}
	whole, _ := matched(t, readSheet(t, "blouse-eu-36-42.svg", euChart()), euChart())
	for j, o := range q.Nest {
		if got, want := area(o), area(whole[0].Nest[j]); math.Abs(got-want) > 1e-6 {
			t.Errorf("size %s: area %g, want %g", o.Size, got, want)
		}
	}
	if _, err := RemovePoint(q, q.Points[0].ID); err == nil || !strings.Contains(err.Error(), "at least two") {
		t.Errorf("the last two: %v", err)
	}
}

func TestMovePoint(t *testing.T) {
	q := blouseBack(t)
	o, _ := q.Printed("40")
	m, err := geom.Measure(o.Edges[3], 1e-6)
	if err != nil {
		t.Fatal(err)
	}
	got, err := MovePoint(q, "p4", "40", m.At(20))
	if err != nil {
		t.Fatal(err)
	}
	valid(t, got)
	for j, o := range got.Nest {
		d := o.Edges[3].Start().Dist(q.Nest[j].Edges[3].Start())
		if o.Size == "40" && math.Abs(d-20) > 0.01 || o.Size != "40" && d != 0 {
			t.Errorf("size %s: the underarm moved %g mm", o.Size, d)
		}
		for _, n := range []string{"n1", "n2"} {
			if d := notchAt(t, q, n, o.Size).Dist(notchAt(t, got, n, o.Size)); d > 1e-3 {
				t.Errorf("size %s: notch %s moved %g mm", o.Size, n, d)
			}
		}
	}
	back, err := MovePoint(got, "p4", "40", o.Edges[3].Start().Add(geom.Vec{X: 1, Y: 2}))
	if err != nil {
		t.Fatal(err)
	}
	if d := valid(t, back).Nest[2].Edges[3].Start().Dist(o.Edges[3].Start()); d > 1e-3 {
		t.Errorf("moved back to the drawn corner it lies %g mm off", d)
	}
}

func TestRelink(t *testing.T) {
	q := blouseBack(t)
	links := []model.Link{
		{ID: "a", Lead: model.Stretch{Piece: q.ID, Edges: []string{"e3"}}, Follow: model.Stretch{Piece: "other", Edges: []string{"e3"}}},
		{ID: "b", Lead: model.Stretch{Piece: "other", Edges: []string{"e1"}}, Follow: model.Stretch{Piece: q.ID, Edges: []string{"e4", "e3"}, Reverse: true}},
	}
	m, err := geom.Measure(q.Nest[0].Edges[2], 1e-6)
	if err != nil {
		t.Fatal(err)
	}
	more, err := AddPoint(q, "36", m.At(60))
	if err != nil {
		t.Fatal(err)
	}
	kept, lost := Relink(links, q, more)
	if len(lost) > 0 || !slices.Equal(kept[0].Lead.Edges, []string{"e3", "e8"}) || !slices.Equal(kept[0].Follow.Edges, []string{"e3"}) ||
		!slices.Equal(kept[1].Follow.Edges, []string{"e4", "e8", "e3"}) {
		t.Errorf("kept %+v, lost %+v", kept, lost)
	}
	more2 := []model.Link{{Lead: links[0].Follow, And: []model.Stretch{links[0].Lead}, Follow: links[0].Follow}}
	if kept, _ := Relink(more2, q, more); len(kept) != 1 || !slices.Equal(kept[0].And[0].Edges, []string{"e3", "e8"}) {
		t.Errorf("what the leader goes on along is %+v", kept)
	}
	hem := []model.Lengthening{{ID: "n", Hems: []model.Stretch{links[0].Lead, links[0].Follow}}}
	if got := Relength(hem, q, more); len(got[0].Hems) != 2 || !slices.Equal(got[0].Hems[0].Edges, []string{"e3", "e8"}) {
		t.Errorf("the hem lengthened is %+v", got[0].Hems)
	}
	less, err := RemovePoint(q, "p4") // the underarm: armhole and side seam become one
	if err != nil {
		t.Fatal(err)
	}
	kept, lost = Relink(links, q, less)
	if len(kept) != 1 || kept[0].ID != "b" || !slices.Equal(kept[0].Follow.Edges, []string{"e3"}) || len(lost) != 1 || lost[0].ID != "a" {
		t.Errorf("kept %+v, lost %+v", kept, lost)
	}
	if got := Relength(hem, q, less); len(got[0].Hems) != 1 {
		t.Errorf("a hem that is gone is still lengthened: %+v", got[0].Hems)
	}
}

// A stretch that leaves an edge out, as a side seam does its dart, goes on
// leaving it out; a point that joins what it holds to what it leaves out loses
// the link.
func TestRelinkKeepsGaps(t *testing.T) {
	q := blouseBack(t)
	stretch := func(reverse bool, edges ...string) []model.Link {
		return []model.Link{{ID: "a", Lead: model.Stretch{Piece: q.ID, Edges: edges, Reverse: reverse}, Follow: model.Stretch{Piece: "other", Edges: []string{"e1"}}}}
	}
	m, err := geom.Measure(q.Nest[0].Edges[2], 1e-6)
	if err != nil {
		t.Fatal(err)
	}
	onGap, err := AddPoint(q, "36", m.At(60)) // on e3
	if err != nil {
		t.Fatal(err)
	}
	shoulder, err := geom.Measure(q.Nest[0].Edges[1], 1e-6)
	if err != nil {
		t.Fatal(err)
	}
	onHeld, err := AddPoint(q, "36", shoulder.At(60)) // on e2
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		after model.Piece
		links []model.Link
		want  []string
	}{
		{onGap, stretch(false, "e2", "e4"), []string{"e2", "e4"}},
		{onGap, stretch(true, "e4", "e2"), []string{"e4", "e2"}},
		{onHeld, stretch(false, "e2", "e4"), []string{"e2", "e8", "e4"}},
		{onHeld, stretch(true, "e4", "e2"), []string{"e4", "e8", "e2"}},
	} {
		kept, lost := Relink(c.links, q, c.after)
		if len(lost) > 0 || !slices.Equal(kept[0].Lead.Edges, c.want) {
			t.Errorf("kept %+v, lost %+v, want %v", kept, lost, c.want)
		}
	}
	less, err := RemovePoint(q, "p3") // between e2 and e3
	if err != nil {
		t.Fatal(err)
	}
	if kept, lost := Relink(stretch(false, "e2", "e4"), q, less); len(kept) != 0 || len(lost) != 1 {
		t.Errorf("kept %+v, lost %+v", kept, lost)
	}
}
