package scene

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// polygon is a piece with straight edges, all with one seam allowance, and its
// result.
func polygon(id string, allowance float64, corners ...geom.Point) (model.Piece, grading.Piece) {
	q := model.Piece{ID: id, Name: id}
	r := grading.Piece{ID: id}
	for k, c := range corners {
		q.Points = append(q.Points, model.GradePoint{ID: fmt.Sprint("p", k)})
		q.Edges = append(q.Edges, model.Edge{ID: fmt.Sprint("e", k), Name: fmt.Sprint("edge ", k), Allowance: allowance})
		r.Edges = append(r.Edges, geom.Polyline(c, corners[(k+1)%len(corners)]))
	}
	return q, r
}

func input(pieces ...any) Input {
	var in Input
	for i := 0; i < len(pieces); i += 2 {
		in.Pattern.Pieces = append(in.Pattern.Pieces, pieces[i].(model.Piece))
		in.Result.Pieces = append(in.Result.Pieces, pieces[i+1].(grading.Piece))
	}
	return in
}

func stretch(piece string, reverse bool, edges ...string) model.Stretch {
	return model.Stretch{Piece: piece, Edges: edges, Reverse: reverse}
}

// middleAt is the middle of a piece's stitching line as placed.
func middleAt(t *testing.T, in Input, id string, m geom.Affine) geom.Point {
	t.Helper()
	ring, err := in.stitched(in.Pattern.PieceIndex(id))
	if err != nil {
		t.Fatal(err)
	}
	return m.Apply(geom.Join(ring...).Bounds().Centre())
}

// TestJoinStraightSeams lays two rectangles, one of them drawn the other way
// round, at either end of a straight seam: closed form, the seams cover each
// other and the pieces lie on either side.
func TestJoinStraightSeams(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		w := rapid.Float64Range(80, 400).Draw(rt, "wide")
		h := rapid.Float64Range(80, 400).Draw(rt, "high")
		seam := rapid.Float64Range(0, 20).Draw(rt, "allowance")
		turn := geom.Rotate(rapid.Float64Range(-3, 3).Draw(rt, "turn"))
		mirrored := rapid.Bool().Draw(rt, "mirrored")
		end := rapid.SampledFrom([]End{From, To}).Draw(rt, "end")
		rect := []geom.Point{geom.Pt(0, 0), geom.Pt(w, 0), geom.Pt(w, h), geom.Pt(0, h)}
		other := make([]geom.Point, 4)
		for k, c := range rect {
			if mirrored {
				c.X = -c.X
			}
			other[k] = turn.Apply(c)
		}
		a, ra := polygon("a", seam, rect...)
		b, rb := polygon("b", seam, other...)
		in := input(a, ra, b, rb)
		// The right side of a, downwards, on the right side of b, downwards too.
		l := model.Link{Kind: model.Sewn, Lead: stretch("a", false, "e1"), Follow: stretch("b", false, "e1")}
		j, err := Join(in, l, end)
		if err != nil {
			rt.Fatal(err)
		}
		ringA, _ := in.stitched(0)
		ringB, _ := in.stitched(1)
		m := j.Placement["b"]
		for _, off := range []float64{
			ringA[1].Start().Dist(m.Apply(ringB[1].Start())), ringA[1].End().Dist(m.Apply(ringB[1].End())),
		} {
			if off > 0.01 {
				rt.Fatalf("the seams lie %.4f mm apart", off)
			}
		}
		left := middleAt(t, in, "a", j.Placement["a"]).X
		right := middleAt(t, in, "b", m).X
		line := w - seam
		if left >= line || right <= line {
			rt.Fatalf("seam at %.1f, pieces at %.1f and %.1f", line, left, right)
		}
		if j.Bend > 1e-6 {
			rt.Fatalf("two square corners bend %.6f degrees", j.Bend)
		}
		if got := math.Abs(m.A*m.D - m.B*m.C); math.Abs(got-1) > 1e-9 {
			rt.Fatalf("the placement stretches: %v", m)
		}
	})
}

// TestJoinBends: corners of 90 and 80 degrees meet in a line that bends by 10.
func TestJoinBends(t *testing.T) {
	a, ra := polygon("a", 15, geom.Pt(0, 0), geom.Pt(200, 0), geom.Pt(200, 300), geom.Pt(0, 300))
	slope := 200 * math.Tan(10*math.Pi/180)
	b, rb := polygon("b", 15, geom.Pt(0, 0), geom.Pt(200, -slope), geom.Pt(200, 300), geom.Pt(0, 300))
	l := model.Link{Kind: model.Sewn, Lead: stretch("a", true, "e1"), Follow: stretch("b", true, "e1")}
	at := map[End]float64{To: 10, From: 0}
	for end, want := range at {
		j, err := Join(input(a, ra, b, rb), l, end)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(j.Bend-want) > 1e-6 {
			t.Errorf("end %d bends %.6f degrees, want %g", end, j.Bend, want)
		}
	}
	if j, _ := Join(input(a, ra, b, rb), l, To); j.Runs != "edge 0" {
		t.Errorf("what runs on is called %q", j.Runs)
	}
}

// TestJoinLeads lays three rectangles of a leader's side in a row, the first
// two at their own seam, and the follower beside them.
func TestJoinLeads(t *testing.T) {
	rect := []geom.Point{geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 200), geom.Pt(0, 200)}
	a, ra := polygon("a", 10, rect...)
	b, rb := polygon("b", 10, rect...)
	c, rc := polygon("c", 10, rect...)
	f, rf := polygon("f", 10, rect...)
	in := input(a, ra, b, rb, c, rc, f, rf)
	in.Pattern.Links = []model.Link{{ID: "side", Kind: model.Sewn, Lead: stretch("b", true, "e3"), Follow: stretch("a", false, "e1")}}
	l := model.Link{
		Kind: model.Sewn, Lead: stretch("a", false, "e0"),
		And:    []model.Stretch{stretch("b", false, "e0"), stretch("c", false, "e0")},
		Follow: stretch("f", false, "e0"),
	}
	j, err := Join(in, l, Leads)
	if err != nil {
		t.Fatal(err)
	}
	for id, x := range map[string]float64{"a": 50, "b": 130, "c": 210} {
		if got := middleAt(t, in, id, j.Placement[id]); math.Abs(got.X-x) > 0.01 || math.Abs(got.Y-100) > 0.01 {
			t.Errorf("%s lies round %v, want %v, 100", id, got, x)
		}
	}
	if j.At.Dist(geom.Pt(90, 10)) > 0.01 || j.Bend > 1e-6 {
		t.Errorf("the first two meet at %v, bent %.3f", j.At, j.Bend)
	}
	if got := middleAt(t, in, "f", j.Placement["f"]).X; got < 260 {
		t.Errorf("the follower lies at %v, over the others", got)
	}
}

// TestJoinLaysAFollowerUpon lays a strip upon a rectangle whose side it follows,
// drawn the other way round: it lies on the same side of the line, which is the
// same all along.
func TestJoinLaysAFollowerUpon(t *testing.T) {
	a, ra := polygon("a", 10, geom.Pt(0, 0), geom.Pt(200, 0), geom.Pt(200, 300), geom.Pt(0, 300))
	b, rb := polygon("b", 10, geom.Pt(0, 0), geom.Pt(300, 0), geom.Pt(300, 60), geom.Pt(0, 60))
	l := model.Link{Kind: model.SameLine, Lead: stretch("a", false, "e1"), Follow: stretch("b", true, "e0")}
	j, err := Join(input(a, ra, b, rb), l, To)
	if err != nil {
		t.Fatal(err)
	}
	if got := middleAt(t, input(a, ra, b, rb), "b", j.Placement["b"]); got.Dist(geom.Pt(170, 150)) > 0.01 || j.Apart > 0.01 {
		t.Errorf("the strip lies round %v, its far end %.3f mm off", got, j.Apart)
	}
}

func TestJoinRefuses(t *testing.T) {
	a, ra := polygon("a", 0, geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 200), geom.Pt(0, 200))
	in := input(a, ra)
	for name, l := range map[string]model.Link{
		"one piece": {Lead: stretch("a", false, "e0"), Follow: stretch("a", false, "e2")},
		"gone":      {Lead: stretch("a", false, "e0"), Follow: stretch("b", false, "e2")},
		"no edge":   {Lead: stretch("a", false, "e9"), Follow: stretch("b", false, "e2")},
	} {
		if _, err := Join(in, l, From); err == nil {
			t.Errorf("%s: laid together", name)
		}
	}
}
