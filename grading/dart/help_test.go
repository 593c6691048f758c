package dart_test

import (
	"math"

	"pgregory.net/rapid"

	"quarterstep/grading/dart"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// sided is a piece with a dart in its straight right side, at right angles to
// it: apex at (0, 0), leg ends at (100, -h) and (100, h), fold along x = -120.
// above and below are the directions in which the seam arrives at the dart and
// leaves it.
func sided(h float64, above, below geom.Vec, capEdges int) (model.Piece, []geom.Path) {
	a, b := geom.Pt(100, -h), geom.Pt(100, h)
	up, down := a.Add(above.Unit().Scale(-150)), b.Add(below.Unit().Scale(150))
	pts := []geom.Point{geom.Pt(-120, up.Y), up, a}
	names := []string{"top", "side above", "cap"}
	if capEdges == 2 {
		pts, names = append(pts, geom.Pt(110, 0)), append(names, "cap below")
	}
	pts = append(pts, b, down, geom.Pt(-120, down.Y))
	names = append(names, "side below", "hem", "fold")
	q := model.Piece{ID: "q", Name: "Front"}
	var edges []geom.Path
	for i, p := range pts {
		q.Points = append(q.Points, model.GradePoint{ID: names[i] + " start"})
		q.Edges = append(q.Edges, model.Edge{ID: names[i], Name: names[i]})
		edges = append(edges, geom.Polyline(p, pts[(i+1)%len(pts)]))
	}
	q.Edges[len(pts)-1].Kind = model.Fold
	q.Nest = []model.Outline{{Size: "40", Edges: edges}}
	q.Darts = []model.Dart{{
		ID: "d", Name: "bust dart", From: "cap start", To: "side below start",
		Apex: []model.SizedPoint{{At: geom.Pt(0, 0)}},
	}}
	return q, edges
}

// tester is what *testing.T and *rapid.T have in common here.
type tester interface {
	Helper()
	Errorf(format string, args ...any)
	Fatal(args ...any)
}

func read(t tester, q model.Piece) dart.Dart {
	t.Helper()
	d, err := dart.Read(q, q.Darts[0], q.Darts[0].Apex[0].At)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// upright and onLeg are directions of a seam down the side: straight down, and
// square to the legs of a dart that opens h mm to either side at 100.
func upright() geom.Vec { return geom.Vec{Y: 1} }

func onLeg(h float64) (above, below geom.Vec) {
	return geom.Vec{X: h, Y: 100}, geom.Vec{X: -h, Y: 100}
}

// drawn is a piece with a dart whose seams are curves, drawn at random.
func drawn(t *rapid.T) (model.Piece, []geom.Path) {
	f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	h := f("half width", 4, 22)
	slant := func(name string) geom.Vec { return geom.Vec{X: f(name, -0.1, 0.1), Y: 1} }
	q, edges := sided(h, slant("above"), slant("below"), rapid.IntRange(1, 2).Draw(t, "cap edges"))
	bow := func(j int, name string) {
		c := &edges[j][0]
		side := c.P3.Sub(c.P0).Unit().Perp()
		c.P1, c.P2 = c.P1.Add(side.Scale(f(name+" 1", -8, 8))), c.P2.Add(side.Scale(f(name+" 2", -8, 8)))
	}
	bow(1, "bow above")
	bow(len(edges)-3, "bow below")
	move := geom.Vec{X: f("leg out", -3, 3), Y: f("leg down", -3, 3)}
	low := len(edges) - 3
	edges[low] = edges[low].CarryEnds(move, geom.Vec{}, 0.01)
	edges[low-1] = edges[low-1].CarryEnds(geom.Vec{}, move, 0.01)
	q.Nest = []model.Outline{{Size: "40", Edges: edges}}
	q.Darts[0].Apex = []model.SizedPoint{{At: geom.Pt(f("apex across", -15, 15), f("apex down", -10, 10))}}
	return q, edges
}

func near(t tester, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s is %.9f, want %.9f within %g", what, got, want, tol)
	}
}

// apart is the farthest two outlines' control points lie from each other.
func apart(a, b []geom.Path) float64 {
	most := 0.0
	for j := range a {
		u, v := a[j].Controls(), b[j].Controls()
		if len(u) != len(v) {
			return math.Inf(1)
		}
		for k := range u {
			most = max(most, u[k].Dist(v[k]))
		}
	}
	return most
}

func area(ring ...geom.Path) float64 { return math.Abs(geom.Join(ring...).Area()) }
