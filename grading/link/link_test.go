package link

import (
	"errors"
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model"
	"quarterstep/model/geom"
)

func chart() model.SizeChart {
	c := model.SizeChart{Name: "test"}
	for i := range 8 {
		c.Sizes = append(c.Sizes, model.ChartSize{Name: strconv.Itoa(10 + 2*i)})
	}
	return c
}

// neck is a curved line that grows with the size.
func neck(k float64) geom.Path {
	a, b := geom.Pt(0, 90+2*k), geom.Pt(70+2*k, 0)
	return geom.Path{{P0: a, P1: a.Add(geom.Vec{X: 40}), P2: b.Add(geom.Vec{X: -5, Y: 45}), P3: b}}
}

func piece(id string, edges int, nest func(size int) []geom.Path) model.Piece {
	q := model.Piece{ID: id, Name: id}
	for j := range edges {
		q.Points = append(q.Points, model.GradePoint{ID: "p" + strconv.Itoa(j)})
		q.Edges = append(q.Edges, model.Edge{ID: "e" + strconv.Itoa(j)})
	}
	for size := range 3 {
		q.Nest = append(q.Nest, model.Outline{Size: strconv.Itoa(10 + 2*size), Edges: nest(size)})
	}
	return q
}

// pair is a body whose first edge is a neckline, and a facing laid by lay whose
// neckline is walked the other way and cut in two.
func pair(lay geom.Affine) model.Pattern {
	body := piece("body", 2, func(size int) []geom.Path {
		n := neck(float64(size))
		return []geom.Path{n, geom.Polyline(n.End(), geom.Pt(200, 300), n.Start())}
	})
	facing := piece("facing", 4, func(size int) []geom.Path {
		n := neck(float64(size)).Transform(lay).Reverse()
		first, second := n[0].Split(0.4)
		a, b := n.Start(), n.End()
		away := lay.ApplyVec(geom.Vec{X: 40, Y: 60})
		low := b.Add(away)
		return []geom.Path{{first}, {second}, geom.Polyline(b, low), geom.Polyline(low, a)}
	})
	return model.Pattern{Chart: chart(), Pieces: []model.Piece{body, facing}, Links: []model.Link{{
		ID: "l", Kind: model.SameLine,
		Lead:   model.Stretch{Piece: "body", Edges: []string{"e0"}},
		Follow: model.Stretch{Piece: "facing", Edges: []string{"e1", "e0"}, Reverse: true},
	}}}
}

// However the facing lies by the body in print, turned or not, its neckline is
// the body's moved as a stiff sheet: to 0.01 mm, whatever the hand did to it.
func TestFollowerIsTheLeadersLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lay := geom.Translate(geom.Vec{X: rapid.Float64Range(-600, 600).Draw(t, "x"), Y: rapid.Float64Range(-600, 600).Draw(t, "y")}).
			Mul(geom.Rotate(rapid.SampledFrom([]float64{0, 0, 0.3, -1.2, math.Pi / 2}).Draw(t, "turn")))
		p := pair(lay)
		pl, err := Read(p, p.Links[0])
		if err != nil {
			t.Fatal(err)
		}
		if pl.Misfit > 0.01 {
			t.Fatalf("printed lines are said to differ by %.4f mm", pl.Misfit)
		}
		lines := [][]geom.Path{p.Pieces[0].Nest[2].Edges, p.Pieces[1].Nest[2].Edges}
		moved := lines[0][0].CarryEnds(
			geom.Vec{Y: rapid.Float64Range(-20, 20).Draw(t, "down")},
			geom.Vec{X: rapid.Float64Range(-20, 20).Draw(t, "out")}, 0.01)
		lines[0] = []geom.Path{moved, geom.Polyline(moved.End(), moved.Start())}
		got, err := Redraw([]*Placing{pl}, p.Pieces[1], lines, 5)
		if err != nil {
			t.Fatal(err)
		}
		want := moved.Transform(lay)
		for _, e := range got[:2] {
			for _, q := range e.Flatten(0.01) {
				if _, _, d := want.Nearest(q, 1e-4); d > 0.011 {
					t.Fatalf("the follower lies %.4f mm off its leader", d)
				}
			}
		}
		for j := range got {
			if d := got[j].End().Dist(got[(j+1)%len(got)].Start()); d > 1e-9 {
				t.Fatalf("edge %d ends %g mm from the next", j, d)
			}
		}
	})
}

func TestGoneEdges(t *testing.T) {
	p := pair(geom.Identity())
	gone := p.Links[0]
	gone.Lead.Edges = []string{"e9"}
	if _, err := Read(p, gone); !errors.Is(err, ErrGone) {
		t.Errorf("a link to an edge that is not there gives %v", err)
	}
}

// Two lines cannot both be the same edge: the first link has it.
func TestTwoLeadersOfOneEdge(t *testing.T) {
	p := pair(geom.Identity())
	a, err := Read(p, p.Links[0])
	if err != nil {
		t.Fatal(err)
	}
	if clear, clash := Apart([]*Placing{a, a}); len(clear) != 1 || len(clash) != 1 {
		t.Errorf("%d are drawn, %d clash", len(clear), len(clash))
	}
}

// Where the nest was laid so that leader and follower drift apart from size to
// size, the drift goes on by the printed step.
func TestDriftGoesOn(t *testing.T) {
	p := pair(geom.Identity())
	for i := range p.Pieces[1].Nest {
		for j, e := range p.Pieces[1].Nest[i].Edges {
			p.Pieces[1].Nest[i].Edges[j] = e.Move(geom.Vec{X: 3 * float64(i)})
		}
	}
	pl, err := Read(p, p.Links[0])
	if err != nil {
		t.Fatal(err)
	}
	if at := pl.at(6); math.Abs(at.E-18) > 0.01 || math.Abs(at.F) > 0.01 {
		t.Errorf("four steps past the print the follower lies %.3f, %.3f mm off, want 18, 0", at.E, at.F)
	}
}
