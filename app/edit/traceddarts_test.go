package edit_test

import (
	"math"
	"testing"

	"quarterstep/app/edit"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// sheet is the outline of a rectangle, from its top left corner on.
func sheet(wide float64) []geom.Path {
	a, b, c, d := geom.Pt(0, 0), geom.Pt(wide, 0), geom.Pt(wide, 200), geom.Pt(0, 200)
	return []geom.Path{geom.Polyline(a, b), geom.Polyline(b, c), geom.Polyline(c, d), geom.Polyline(d, a)}
}

// legsAt is where the legs of a piece's dart end in an outline.
func legsAt(t *testing.T, q model.Piece, d model.Dart, o model.Outline) (from, to geom.Point) {
	t.Helper()
	i, j := q.PointIndex(d.From), q.PointIndex(d.To)
	if i < 0 || j < 0 {
		t.Fatalf("the dart stands between %q and %q", d.From, d.To)
	}
	return o.Edges[i].Start(), o.Edges[j].Start()
}

// Darts whose legs end where no corner was clicked cut the edge there: as marked in
// the sizes in which they are, at the same share of the edge in the others, whatever
// way round the legs were clicked. A notch beyond them keeps its place.
func TestDartsWithoutCornersCutTheEdge(t *testing.T) {
	p := tracing(t)
	wide := map[string]float64{"34": 100, "36": 110, "38": 120}
	for _, size := range []string{"38", "34", "36"} {
		p = trace(t, p, size, sheet(wide[size]), 0, false)
	}
	for _, m := range []struct {
		size           string
		from, apex, to geom.Point
		name           string
	}{
		{"34", geom.Pt(30, 0.5), geom.Pt(25, 90), geom.Pt(20, 0), "left dart"},
		{"34", geom.Pt(60, 0), geom.Pt(65, 80), geom.Pt(70, 0), "right dart"},
		{"38", geom.Pt(24, 0), geom.Pt(30, 90), geom.Pt(36, 0), ""},
	} {
		p = must(t, p, edit.AddTracedDart("t1", m.name, m.size, m.from, m.apex, m.to))
	}
	p = must(t, p, edit.AddTracedNotch("t1", "38", geom.Pt(100, 0), false))
	p = must(t, p, edit.FinishTracing("t1", "new"))
	q := p.Pieces[0]
	if len(q.Darts) != 2 || len(q.Edges) != 8 || len(q.Points) != 8 {
		t.Fatalf("%d darts, %d edges, %d points", len(q.Darts), len(q.Edges), len(q.Points))
	}
	for name, want := range map[string]map[string][2]float64{
		"left dart":  {"34": {20, 30}, "36": {22, 33}, "38": {24, 36}},
		"right dart": {"34": {60, 70}, "36": {66, 77}, "38": {72, 84}},
	} {
		for _, d := range q.Darts {
			if d.Name != name {
				continue
			}
			for _, o := range q.Nest {
				from, to := legsAt(t, q, d, o)
				if w := want[o.Size]; math.Abs(from.X-w[0]) > 0.01 || math.Abs(to.X-w[1]) > 0.01 {
					t.Errorf("the %s of size %s stands from %v to %v, not %v", name, o.Size, from, to, w)
				}
			}
		}
	}
	n := q.Notches[0]
	o, _ := q.Printed("38")
	j := q.EdgeIndex(n.Edge)
	m, err := geom.Measure(o.Edges[j], 1e-4)
	if err != nil {
		t.Fatal(err)
	}
	if at := m.At(n.Spots[0].S); at.Dist(geom.Pt(100, 0)) > 0.01 {
		t.Errorf("the notch stands at %v", at)
	}
}

// A leg that ends at a corner that was clicked for it takes that corner.
func TestADartTakesTheCornersClickedForIt(t *testing.T) {
	p := trace(t, tracing(t), "34", []geom.Path{
		geom.Polyline(geom.Pt(0, 0), geom.Pt(40, 0)), geom.Polyline(geom.Pt(40, 0), geom.Pt(60, 0)),
		geom.Polyline(geom.Pt(60, 0), geom.Pt(50, 90)), geom.Polyline(geom.Pt(50, 90), geom.Pt(0, 0)),
	}, 0, false)
	p = must(t, p, edit.AddTracedDart("t1", "", "34", geom.Pt(41, 1), geom.Pt(50, 40), geom.Pt(59, -1)))
	p = must(t, p, edit.FinishTracing("t1", "new"))
	q := p.Pieces[0]
	from, to := legsAt(t, q, q.Darts[0], q.Nest[0])
	if len(q.Edges) != 4 || from != geom.Pt(40, 0) || to != geom.Pt(60, 0) {
		t.Errorf("%d edges, the dart from %v to %v", len(q.Edges), from, to)
	}
}

func TestADartFarFromItsLineIsRefused(t *testing.T) {
	p := trace(t, tracing(t), "34", sheet(100), 0, false)
	p = must(t, p, edit.AddTracedDart("t1", "", "34", geom.Pt(40, 60), geom.Pt(50, 90), geom.Pt(60, 60)))
	if _, err := edit.FinishTracing("t1", "new")(p); err == nil {
		t.Error("a dart in the middle of the piece is taken")
	}
}
