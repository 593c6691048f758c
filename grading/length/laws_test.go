package length_test

import (
	"testing"

	"pgregory.net/rapid"

	"quarterstep/grading/length"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// anyPiece is a piece with a slanted and a curved side and its fold at the
// left, and two level lines with room between them.
func anyPiece(t *rapid.T) (model.Piece, [2]geom.Path) {
	f := func(lo, hi float64, name string) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	q := ring("Panel", true,
		geom.Pt(0, f(-20, 20, "top")), geom.Pt(f(100, 200, "shoulder"), 0),
		geom.Pt(f(150, 260, "waist"), f(180, 220, "waist height")),
		geom.Pt(f(150, 300, "hem"), f(380, 420, "hem height")), geom.Pt(0, 400))
	a := q.Nest[0].Edges[1]
	b := geom.Vec{X: f(-30, 30, "bend")}
	q.Nest[0].Edges[1] = geom.Path{{P0: a[0].P0, P1: a[0].P1.Add(b), P2: a[0].P2.Add(b), P3: a[0].P3}}
	level := func(y float64) geom.Path { return geom.Polyline(geom.Pt(0, y), geom.Pt(90, y)) }
	return q, [2]geom.Path{level(f(80, 120, "first")), level(f(270, 320, "second"))}
}

func apart(a, b []geom.Path) float64 {
	var off float64
	for j := range a {
		pa, pb := a[j].Controls(), b[j].Controls()
		if len(pa) != len(pb) {
			return 1e9
		}
		for k := range pa {
			off = max(off, pa[k].Dist(pb[k]))
		}
	}
	return off
}

// offLine is how far places of a lie from b at most.
func offLine(a, b geom.Path) (off float64) {
	for _, p := range a.Flatten(0.01) {
		_, _, d := b.Nearest(p, 1e-6)
		off = max(off, d)
	}
	return off
}

// Several lines add up in any order, and what is put in and folded out at one
// line is nothing.
func TestLinesAddUpInAnyOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q, at := anyPiece(t)
		x := length.Change{Line: at[0], By: rapid.Float64Range(-40, 60).Draw(t, "at the first")}
		y := length.Change{Line: at[1], By: rapid.Float64Range(-40, 60).Draw(t, "at the second")}
		ab, ba := lay(t, q, x, y), lay(t, q, y, x)
		if d := apart(ab.Edges, ba.Edges); d > 1e-9 {
			t.Errorf("in the other order it is %g mm off", d)
		}
		back := x
		back.By = -x.By
		if d := apart(lay(t, q, x, back, y).Edges, lay(t, q, y).Edges); d > 1e-9 {
			t.Errorf("put in and folded out it is %g mm off", d)
		}
		foot := q.Nest[0].Edges[3].Start()
		if d := ab.Edges[3].Start().Dist(foot.Add(geom.Vec{Y: x.By + y.By})); d > 1e-9 {
			t.Errorf("the hem lies %g mm off", d)
		}
	})
}

// A piece made longer and then, at the line as it lies now, shorter by as much
// is the old one: to the last digits where its edges are straight, and within
// 6 % of the amount along a curve, which is blended anew from where the line
// now crosses it.
func TestLongerAndThenShorterReturns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q, at := anyPiece(t)
		by := rapid.Float64Range(1, 60).Draw(t, "by")
		l := lay(t, q, length.Change{Line: at[0], By: by})
		bigger := q
		bigger.Nest = []model.Outline{{Size: "38", Edges: l.Edges}}
		moved := at[0].Move(geom.Vec{Y: by / 2})
		back := lay(t, bigger, length.Change{Line: moved, By: -by})
		for j := range q.Edges {
			if j == 1 {
				if d := offLine(back.Edges[j], q.Nest[0].Edges[j]); d > 0.06*by {
					t.Errorf("the curve comes back %g mm off, %g mm were put in", d, by)
				}
				continue
			}
			if d := apart(back.Edges[j:j+1], q.Nest[0].Edges[j:j+1]); d > 1e-9 {
				t.Errorf("edge %d comes back %g mm off", j+1, d)
			}
		}
	})
}

// How the paper lies changes nothing.
func TestLengtheningDoesNotMindHowThePaperLies(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q, at := anyPiece(t)
		by := rapid.Float64Range(-40, 60).Draw(t, "by")
		m := geom.Translate(geom.Vec{X: rapid.Float64Range(-500, 500).Draw(t, "x"), Y: 70}).
			Mul(geom.Rotate(rapid.Float64Range(-1.5, 1.5).Draw(t, "turn")))
		moved := q
		moved.Nest = []model.Outline{{Size: "38"}}
		want := lay(t, q, length.Change{Line: at[0], By: by}).Edges
		for j, e := range q.Nest[0].Edges {
			moved.Nest[0].Edges = append(moved.Nest[0].Edges, e.Transform(m))
			want[j] = want[j].Transform(m)
		}
		got := lay(t, moved, length.Change{Line: at[0].Transform(m), By: by})
		if d := apart(got.Edges, want); d > 1e-7 {
			t.Errorf("it is %g mm off", d)
		}
	})
}
