package edit_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/app/edit"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// leaf is a closed line of four edges, one of them bent, about w mm wide.
func leaf(w float64) []geom.Path {
	a, b, c, d := geom.Pt(0, 0), geom.Pt(w, 0), geom.Pt(w+10, 80), geom.Pt(0, 90)
	return []geom.Path{
		geom.Polyline(a, b),
		{{P0: b, P1: geom.Pt(w-12, 25), P2: geom.Pt(w-9, 60), P3: c}},
		geom.Polyline(c, d), geom.Polyline(d, a),
	}
}

func sized(p model.Pattern, size string) model.TracedSize {
	for _, s := range p.Tracings[0].Sizes {
		if s.Size == size {
			return s
		}
	}
	return model.TracedSize{}
}

// A corner put on an edge and taken out again leaves the line where it was, and
// neither changes its area.
func TestACornerComesAndGoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := trace(t, tracing(t), "38", leaf(60), rapid.IntRange(0, 3).Draw(t, "from"), rapid.Bool().Draw(t, "back"))
		before := sized(p, "38")
		j := rapid.IntRange(0, 3).Draw(t, "edge")
		at := before.Edges[j][0].At(rapid.Float64Range(0.2, 0.8).Draw(t, "place"))
		q := must(t, p, edit.AddTracedCorner("t1", "38", j, at))
		line := sized(q, "38")
		if len(line.Corners) != 5 || line.Corners[j+1].Dist(at) > 0.01 {
			t.Fatalf("the corners are %v", line.Corners)
		}
		if d := line.Line().Area() - before.Line().Area(); math.Abs(d) > 1e-6 {
			t.Errorf("a corner more changes the area by %g", d)
		}
		q = must(t, q, edit.RemoveTracedCorner("t1", "38", j+1, nil))
		if line = sized(q, "38"); len(line.Corners) != 4 || math.Abs(line.Line().Area()-before.Line().Area()) > 1e-6 {
			t.Errorf("taken out again: %v", line.Corners)
		}
	})
}

// Taking any corner out leaves a line that closes.
func TestAnyCornerCanGo(t *testing.T) {
	for c := range 4 {
		p := trace(t, tracing(t), "38", leaf(60), 0, false)
		p = must(t, p, edit.RemoveTracedCorner("t1", "38", c, nil))
		line := sized(p, "38")
		if len(line.Corners) != 3 {
			t.Fatalf("corner %d: %v", c, line.Corners)
		}
		for j, e := range line.Edges {
			if e.Start() != line.Corners[j] || e.End() != line.Corners[(j+1)%3] {
				t.Errorf("corner %d out: edge %d runs from %v to %v", c, j, e.Start(), e.End())
			}
		}
		if _, err := edit.RemoveTracedCorner("t1", "38", 0, nil)(p); err == nil {
			t.Error("a line was left with two corners")
		}
	}
}

// A point on a curve leaves it as it is; taking it out brings the curve back,
// for a cubic cut in two has one cubic through both halves.
func TestAPointOnACurve(t *testing.T) {
	p := trace(t, tracing(t), "38", leaf(60), 0, false)
	whole := sized(p, "38").Edges[1]
	q := must(t, p, edit.AddTracedPoint("t1", "38", 1, whole[0].At(0.4)))
	e := sized(q, "38").Edges[1]
	if len(e) != 2 {
		t.Fatalf("the edge has %d parts", len(e))
	}
	if _, err := edit.AddTracedPoint("t1", "38", 1, e[1].P0)(q); err == nil {
		t.Error("two points lie on each other")
	}
	q = must(t, q, edit.RemoveTracedPoint("t1", "38", 1, 1))
	e = sized(q, "38").Edges[1]
	for i := range 11 {
		if _, _, d := e.Nearest(whole[0].At(float64(i)/10), 1e-6); d > 0.01 {
			t.Errorf("the curve lies %.3f mm off", d)
		}
	}
	if _, err := edit.RemoveTracedPoint("t1", "38", 1, 1)(q); err == nil {
		t.Error("a point was taken out that is not there")
	}
}

// An edge is named and folded in every size, wherever each was begun and
// whichever way it was run.
func TestAnEdgeIsTheSameInEverySize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := trace(t, tracing(t), "38", leaf(60), 0, false)
		from, back := rapid.IntRange(0, 3).Draw(t, "from"), rapid.Bool().Draw(t, "back")
		p = trace(t, p, "40", leaf(64), from, back)
		of := sized(p, "40")
		j := rapid.IntRange(0, 3).Draw(t, "edge")
		k, ok := edit.SameTracedEdge(of, sized(p, "38"), j)
		if !ok {
			t.Fatal("the edge is not found again")
		}
		mid := of.Edges[j][0].At(0.5)
		if _, _, d := sized(p, "38").Edges[k].Nearest(mid, 0.01); d > 8 {
			t.Errorf("edge %d is taken for edge %d, %.0f mm away", j, k, d)
		}
		p = must(t, p, edit.FoldTracedEdge("t1", "40", j, true))
		if e := p.Tracings[0].Edges[k]; e.Kind != model.Fold || e.Name != "fold" {
			t.Errorf("edge %d is %+v", k, e)
		}
		for size, e := range map[string]geom.Path{"38": sized(p, "38").Edges[k], "40": sized(p, "40").Edges[j]} {
			if !e.IsStraight(0.001) {
				t.Errorf("on the fold, the edge of size %s is bent", size)
			}
		}
	})
}

// Marks go one by one, whichever.
func TestAMarkGoes(t *testing.T) {
	p := trace(t, tracing(t), "38", leaf(60), 0, false)
	p = must(t, p, edit.AddTracedLine("t1", model.Grain, "", geom.Pt(20, 20), geom.Pt(20, 70)))
	p = must(t, p, edit.AddTracedLine("t1", model.Lengthen, "", geom.Pt(0, 40), geom.Pt(60, 40)))
	p = must(t, p, edit.AddTracedNotch("t1", "38", geom.Pt(30, 0), false))
	p = must(t, p, edit.AddTracedDart("t1", "dart", "38", geom.Pt(0, 0), geom.Pt(30, 30), geom.Pt(60, 0)))
	p = must(t, p, edit.RemoveTracedMark("t1", 3))
	p = must(t, p, edit.RemoveTracedMark("t1", 0))
	k := p.Tracings[0]
	if len(k.Darts) != 0 || len(k.Notches) != 1 || len(k.Lines) != 1 || k.Lines[0].Kind != model.Lengthen {
		t.Errorf("left are %+v, %+v, %+v", k.Lines, k.Notches, k.Darts)
	}
	p = must(t, p, edit.AddTracedLine("t1", model.Lengthen, "", geom.Pt(0, 50), geom.Pt(60, 50)))
	if _, err := edit.RemoveTracedMark("t1", 3)(p); err == nil {
		t.Error("a mark was taken away that is not there")
	}
}
