package check

import (
	"math"
	"testing"

	"quarterstep/model/draft"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
)

// The area of an outline edge by edge is that of the joined path, and the angles
// of a closed outline of straight edges sum to (n - 2) times 180 degrees (Euclid),
// whichever way it runs.
func TestAreaAndAnglesOfOutlines(t *testing.T) {
	chart, _ := sizechart.ByID("en13402-women")
	p, err := draft.Blouse(chart, []string{"34", "36"})
	if err != nil {
		t.Fatal(err)
	}
	for _, q := range p.Pieces {
		edges := q.Nest[0].Edges
		if got, want := area(edges), geom.Join(edges...).Area(); math.Abs(got-want) > 1e-6*math.Abs(want) {
			t.Errorf("%s: area %g, joined %g", q.Name, got, want)
		}
	}
	corners := []geom.Point{geom.Pt(0, 0), geom.Pt(200, 10), geom.Pt(90, 60), geom.Pt(180, 150), geom.Pt(-20, 120)}
	for _, back := range []bool{false, true} {
		var edges []geom.Path
		n := len(corners)
		for i := range corners {
			a, b := corners[i], corners[(i+1)%n]
			if back {
				a, b = corners[(n-i)%n], corners[n-1-i]
			}
			edges = append(edges, geom.Polyline(a, b))
		}
		sum := 0.0
		for k := range edges {
			sum += angleAt(edges, k)
		}
		if math.Abs(sum-540) > 1e-9 {
			t.Errorf("the angles of five corners sum to %g", sum)
		}
	}
}
