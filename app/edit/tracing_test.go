package edit_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/app/edit"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// tracing is the demo's chart with a picture and a tracing on it.
func tracing(t rapid.TB) model.Pattern {
	t.Helper()
	p := model.Pattern{Chart: charted(t)}
	for _, f := range []func(model.Pattern) (model.Pattern, error){
		edit.AddPicture(model.Picture{ID: "f1", Name: "front", File: "f1.jpg", PerMM: 5, At: geom.Vec{X: 30}}),
		edit.StartTracing("t1", "f1", "Front", 2),
	} {
		p = must(t, p, f)
	}
	return p
}

func charted(t rapid.TB) model.SizeChart {
	t.Helper()
	var c model.SizeChart
	for _, s := range []string{"34", "36", "38", "40"} {
		c.Sizes = append(c.Sizes, model.ChartSize{Name: s})
	}
	return c
}

func must(t rapid.TB, p model.Pattern, f func(model.Pattern) (model.Pattern, error)) model.Pattern {
	t.Helper()
	out, err := f(p)
	if err != nil {
		t.Fatal(err)
	}
	if err := out.Validate(); err != nil {
		t.Fatal(err)
	}
	return out
}

// trace traces one size's line from a corner on, either way round.
func trace(t rapid.TB, p model.Pattern, size string, edges []geom.Path, from int, back bool) model.Pattern {
	t.Helper()
	n := len(edges)
	at := func(k int) (geom.Point, geom.Path) {
		if back {
			e := edges[(from-k-1+2*n)%n].Reverse()
			return e.Start(), e
		}
		e := edges[(from+k)%n]
		return e.Start(), e
	}
	start, along := at(0)
	p = must(t, p, edit.AddCorner("t1", size, start, nil))
	for k := 1; k < n; k++ {
		corner, next := at(k)
		p = must(t, p, edit.AddCorner("t1", size, corner, along))
		along = next
	}
	return must(t, p, edit.CloseSize("t1", size, along))
}

// A demo piece traced in four sizes, each begun at any corner and run either
// way, becomes that piece: every printed line the same, edge by edge.
func TestATracingBecomesItsPiece(t *testing.T) {
	front := linkedBlouse(t)
	q := front.Pieces[front.PieceIndex("front")]
	rapid.Check(t, func(t *rapid.T) {
		p := tracing(t)
		n := len(q.Edges)
		for k, o := range q.Nest {
			from, back := 0, false
			if k > 0 {
				from, back = rapid.IntRange(0, n-1).Draw(t, "from"), rapid.Bool().Draw(t, "back")
			}
			p = trace(t, p, o.Size, o.Edges, from, back)
		}
		p = must(t, p, edit.NameTracedEdge("t1", 2, "neckline", model.Plain, 10))
		p = must(t, p, edit.AddTracedLine("t1", model.Grain, "", geom.Pt(60, 100), geom.Pt(60, 300)))
		for _, o := range q.Nest {
			m, err := geom.Measure(o.Edges[3], 1e-4)
			if err != nil {
				t.Fatal(err)
			}
			p = must(t, p, edit.AddTracedNotch("t1", o.Size, m.At(m.Length()/2).Add(geom.Vec{X: 1}), false))
		}
		p = must(t, p, edit.FinishTracing("t1", "new"))
		if len(p.Tracings) != 0 || len(p.Pieces) != 1 {
			t.Fatalf("%d tracings are left, %d pieces", len(p.Tracings), len(p.Pieces))
		}
		got := p.Pieces[0]
		if got.Picture != "f1" || got.At != (geom.Vec{X: 30}) || got.Edges[2].Name != "neckline" || len(got.Lines) != 1 || got.Cut != 2 {
			t.Errorf("the piece is %s at %v, %+v", got.Picture, got.At, got.Edges[2])
		}
		if len(got.Notches) != 1 || len(got.Notches[0].Spots) != 4 || got.Notches[0].Edge != "e4" {
			t.Errorf("the notch marked in four sizes is %+v", got.Notches)
		}
		for k, o := range got.Nest {
			for j, e := range o.Edges {
				want := q.Nest[k].Edges[j]
				if e.Start().Dist(want.Start()) > 1e-9 || e.End().Dist(want.End()) > 1e-9 {
					t.Errorf("size %s, edge %d runs from %v to %v", o.Size, j, e.Start(), e.End())
				}
				a, _ := e.Length(1e-6)
				b, _ := want.Length(1e-6)
				if math.Abs(a-b) > 1e-5 {
					t.Errorf("size %s, edge %d is %.6f long, not %.6f", o.Size, j, a, b)
				}
			}
		}
	})
}

func TestTracingIsTakenBack(t *testing.T) {
	p := tracing(t)
	a, b, c := geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 80)
	p = must(t, p, edit.AddCorner("t1", "38", a, nil))
	p = must(t, p, edit.AddCorner("t1", "38", b, geom.Path{{P0: a, P1: geom.Pt(30, 9), P2: geom.Pt(70, 9), P3: geom.Pt(100.4, 0.2)}}))
	if e := p.Tracings[0].Sizes[0].Edges[0]; e.End() != b {
		t.Errorf("the edge ends at %v, not at its corner", e.End())
	}
	if _, err := edit.CloseSize("t1", "38", nil)(p); err == nil || !strings.Contains(err.Error(), "three corners") {
		t.Errorf("two corners close: %v", err)
	}
	p = must(t, p, edit.AddCorner("t1", "38", c, nil))
	p = must(t, p, edit.CloseSize("t1", "38", nil))
	p = must(t, p, edit.MoveCorner("t1", "38", 0, geom.Pt(-5, 3), nil, nil))
	s := p.Tracings[0].Sizes[0]
	if s.Edges[2].End() != geom.Pt(-5, 3) || s.Edges[0].Start() != geom.Pt(-5, 3) {
		t.Errorf("the corner moved, its edges did not: %+v", s.Edges)
	}
	p = must(t, p, edit.ReshapeEdge("t1", "38", 1, geom.Path{{P0: b, P1: geom.Pt(110, 20), P2: geom.Pt(110, 60), P3: c}}))
	for k, want := range []int{3, 2, 1, 0} {
		p = must(t, p, edit.UndoPoint("t1", "38"))
		if got := len(p.Tracings[0].Sizes[0].Corners); got != want {
			t.Errorf("after %d undone points %d corners are left, want %d", k+1, got, want)
		}
	}
	if _, err := edit.UndoPoint("t1", "38")(p); err == nil {
		t.Error("a point was taken back from nothing")
	}
}

func TestTracingsThatCannotBeFinished(t *testing.T) {
	p := tracing(t)
	square := func(w float64, more ...geom.Point) []geom.Path {
		pts := append([]geom.Point{geom.Pt(0, 0), geom.Pt(w, 0), geom.Pt(w, 80), geom.Pt(0, 80)}, more...)
		var out []geom.Path
		for i := range pts {
			out = append(out, geom.Polyline(pts[i], pts[(i+1)%len(pts)]))
		}
		return out
	}
	for what, q := range map[string]model.Pattern{
		"no size is traced": p,
		"still open":        must(t, p, edit.AddCorner("t1", "38", geom.Pt(0, 0), nil)),
		"click the same":    trace(t, trace(t, p, "38", square(60), 0, false), "36", square(55, geom.Pt(-3, 40)), 0, false),
		"two legs": must(t, trace(t, p, "38", square(60), 0, false),
			edit.AddTracedDart("t1", "dart", "38", geom.Pt(1, 0), geom.Pt(10, 30), geom.Pt(0, 1))),
		"a notch lies": must(t, trace(t, p, "38", square(60), 0, false), edit.AddTracedNotch("t1", "38", geom.Pt(30, 40), true)),
	} {
		if _, err := edit.FinishTracing("t1", "new")(q); err == nil || !strings.Contains(err.Error(), what) {
			t.Errorf("%s: %v", what, err)
		}
	}
	if q := must(t, p, edit.RemovePicture("f1")); len(q.Tracings) != 0 {
		t.Error("the tracing outlived its picture")
	}
}
