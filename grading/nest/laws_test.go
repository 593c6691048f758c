package nest

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// moved is q with every printed line and its grain carried by m.
func movedPiece(q model.Piece, m geom.Affine) model.Piece {
	out := q
	out.Nest = nil
	for _, o := range q.Nest {
		n := model.Outline{Size: o.Size}
		for _, e := range o.Edges {
			n.Edges = append(n.Edges, e.Transform(m))
		}
		for j := range n.Edges {
			next := n.Edges[(j+1)%len(n.Edges)]
			n.Edges[j][len(n.Edges[j])-1].P3 = next[0].P0
		}
		out.Nest = append(out.Nest, n)
	}
	grain := geom.Polyline(m.Apply(geom.Pt(50, 200)), m.Apply(geom.Pt(50, 300)))
	out.Lines = []model.Line{{ID: "g", Kind: model.Grain, Drawn: []model.SizedPath{{Path: grain}}}}
	return out
}

func drawPrinted(t *rapid.T, c model.SizeChart) []string {
	places := rapid.SliceOfNDistinct(rapid.IntRange(0, len(c.Sizes)-1), 2, 5, rapid.ID[int]).Draw(t, "printed")
	slices.Sort(places)
	var out []string
	for _, p := range places {
		out = append(out, c.Sizes[p].Name)
	}
	return out
}

func fitOf(t *rapid.T, q model.Piece, c model.SizeChart) *Fit {
	fit, err := New(q, c)
	if err != nil {
		t.Fatal(err)
	}
	return fit
}

// Laying the paper elsewhere, turned or turned over, changes nothing but where
// the new line lies: grade the moved piece, or move the graded one.
func TestGradingDoesNotMindHowThePaperLies(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := women()
		if rapid.Bool().Draw(t, "inches") {
			c = misses()
		}
		q := movedPiece(backPiece(c, drawPrinted(t, c)...), geom.Identity())
		m := geom.Translate(geom.Vec{X: rapid.Float64Range(-900, 900).Draw(t, "x"), Y: rapid.Float64Range(-900, 900).Draw(t, "y")})
		m = m.Mul(geom.Rotate(rapid.Float64Range(-1.4, 1.4).Draw(t, "turn")))
		if rapid.Bool().Draw(t, "over") {
			m = m.Mul(geom.ScaleXY(-1, 1))
		}
		place := rapid.Float64Range(0, float64(len(c.Sizes)-1)).Draw(t, "place")
		method := rapid.SampledFrom([]model.Method{model.ByChart, model.BySteps}).Draw(t, "method")
		here, _, _ := fitOf(t, q, c).Edges(model.Target{Place: place, Method: method})
		there, _, _ := fitOf(t, movedPiece(q, m), c).Edges(model.Target{Place: place, Method: method})
		for j := range here {
			want := here[j].Transform(m).Controls()
			for k, got := range there[j].Controls() {
				if d := got.Dist(want[k]); d > 1e-6 {
					t.Fatalf("edge %d control %d is %g mm off", j+1, k, d)
				}
			}
		}
	})
}

// The graded outline is closed, finite, and never moves its centre across.
func TestOutlineStaysWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := women()
		fit := fitOf(t, backPiece(c, drawPrinted(t, c)...), c)
		place := rapid.Float64Range(0, float64(len(c.Sizes)-1)).Draw(t, "place")
		edges, _, _ := fit.Edges(model.Target{Place: place})
		for j, e := range edges {
			if err := e.Validate(); err != nil {
				t.Fatal(err)
			}
			if d := e.End().Dist(edges[(j+1)%len(edges)].Start()); d > 1e-9 {
				t.Fatalf("edge %d ends %g mm from the next", j+1, d)
			}
		}
		if x := math.Max(math.Abs(edges[6].Start().X), math.Abs(edges[6].End().X)); x > 1e-9 {
			t.Fatalf("the centre moved %g mm across", x)
		}
	})
}

// A size between two printed ones lies between their points.
func TestBetweenLiesBetween(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := misses()
		fit := fitOf(t, backPiece(c, drawPrinted(t, c)...), c)
		i := rapid.IntRange(0, len(fit.print.lines)-2).Draw(t, "gap")
		f := rapid.Float64Range(0, 1).Draw(t, "share")
		a, b := fit.print.lines[i].hi, fit.print.lines[i+1].lo
		edges, _, _ := fit.Edges(model.Target{Place: a + f*(b-a)})
		for j := range edges {
			p, q := fit.piece.Nest[i].Edges[j].Start(), fit.piece.Nest[i+1].Edges[j].Start()
			box := geom.BoxOf(p, q).Grow(1e-9)
			if !box.Contains(edges[j].Start()) {
				t.Fatalf("edge %d starts at %v, outside %v", j+1, edges[j].Start(), box)
			}
		}
	})
}

// Grading up and then down again returns: a nest of computed sizes, taken as
// printed, gives the sizes it was computed from. Where two measures grow alike
// in the second print, what an edge takes of each is a guess, as in
// TestSixStepsOut.
func TestUpAndDownAgainReturns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := women()
		if rapid.Bool().Draw(t, "inches") {
			c = misses()
		}
		q := backPiece(c, drawPrinted(t, c)...)
		fit := fitOf(t, q, c)
		up := q
		up.Nest = nil
		for _, s := range drawPrinted(t, c) {
			place, _ := c.Place(s)
			edges, _, err := fit.Edges(model.Target{Place: float64(place)})
			if err != nil {
				t.Fatal(err)
			}
			up.Nest = append(up.Nest, model.Outline{Size: s, Edges: edges})
		}
		back := fitOf(t, up, c)
		for i, o := range q.Nest {
			place, _ := c.Place(o.Size)
			edges, _, _ := back.Edges(model.Target{Place: float64(place)})
			for j, e := range edges {
				if d := e.Start().Dist(q.Nest[i].Edges[j].Start()); d > 0.01 {
					t.Fatalf("size %s, point %d comes back %.4f mm off", o.Size, j+1, d)
				}
				for _, at := range e.Flatten(1) {
					if _, _, d := q.Nest[i].Edges[j].Nearest(at, 1e-4); d > 1 {
						t.Fatalf("size %s, edge %d comes back %.4f mm off", o.Size, j+1, d)
					}
				}
			}
		}
	})
}

// No target, nor any wearer, moves a centre line across itself.
func TestNoWearerMovesTheCentre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := misses()
		fit := fitOf(t, backPiece(c, drawPrinted(t, c)...), c)
		want := model.Target{Place: rapid.Float64Range(0, 9).Draw(t, "place"), Body: map[model.Measure]float64{}}
		for _, m := range []model.Measure{model.Bust, model.Waist, model.Hip, model.BackWaist} {
			if rapid.Bool().Draw(t, "own "+string(m)) {
				lo, _ := c.At(0, m)
				want.Body[m] = lo * rapid.Float64Range(0.8, 2).Draw(t, string(m))
			}
		}
		edges, _, err := fit.Edges(want)
		if err != nil {
			t.Fatal(err)
		}
		for j, e := range edges {
			if err := e.Validate(); err != nil {
				t.Fatal(err)
			}
			if d := e.End().Dist(edges[(j+1)%len(edges)].Start()); d > 1e-9 {
				t.Fatalf("edge %d ends %g mm from the next", j+1, d)
			}
		}
		for _, p := range edges[6].Controls() {
			if math.Abs(p.X) > 1e-9 {
				t.Fatalf("the centre moved %g mm across", p.X)
			}
		}
	})
}

// However the sizes were laid on each other in print, on the centre, the
// underarm or anywhere, the line graded has the same shape, and the printed
// sizes are the printed lines.
func TestGradingDoesNotMindHowTheSizesAreLaid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := women()
		q := backPiece(c, drawPrinted(t, c)...)
		other := q
		other.Nest = nil
		step := geom.Vec{X: rapid.Float64Range(1, 30).Draw(t, "x"), Y: rapid.Float64Range(-30, 30).Draw(t, "y")}
		if rapid.Bool().Draw(t, "left") {
			step.X = -step.X
		}
		for _, o := range q.Nest {
			place, _ := c.Place(o.Size)
			n := model.Outline{Size: o.Size}
			for _, e := range o.Edges {
				n.Edges = append(n.Edges, e.Move(step.Scale(float64(place))))
			}
			other.Nest = append(other.Nest, n)
		}
		want := model.Target{Place: rapid.Float64Range(0, float64(len(c.Sizes)-1)).Draw(t, "place")}
		here, _, _ := fitOf(t, q, c).Edges(want)
		there, exact, _ := fitOf(t, other, c).Edges(want)
		if i, ok := fitOf(t, q, c).print.at(want.Place); ok && (!exact || &there[0] != &other.Nest[i].Edges[0]) {
			t.Fatal("a printed size is not the printed line")
		}
		by := here[0].Start().Sub(there[0].Start())
		for j := range here {
			for k, p := range there[j].Controls() {
				if d := p.Add(by).Dist(here[j].Controls()[k]); d > 1e-6 {
					t.Fatalf("edge %d control %d is %g mm off", j+1, k, d)
				}
			}
		}
	})
}

// A size between two neighbouring printed ones lies between their lines, all
// along: wherever a place of an edge faces the same edge of both, it has the one
// on its left and the other on its right, or lies within 0.09 mm of one of them:
// where the two lines all but touch, at the foot of the armhole, the draft itself
// leaves the band by up to 0.080 mm (over all neighbours of both charts, in 64ths of
// a step). Between sizes farther apart it cannot hold at all.
func TestBetweenLiesBetweenAllAlong(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := women()
		if rapid.Bool().Draw(t, "inches") {
			c = misses()
		}
		i := rapid.IntRange(0, len(c.Sizes)-2).Draw(t, "size")
		q := backPiece(c, c.Sizes[i].Name, c.Sizes[i+1].Name)
		f := rapid.Float64Range(0, 1).Draw(t, "share")
		edges, _, err := fitOf(t, q, c).Edges(model.Target{Place: float64(i) + f})
		if err != nil {
			t.Fatal(err)
		}
		for j, e := range edges {
			for _, at := range e.Flatten(0.1) {
				left, faceA := side(q.Nest[0].Edges[j], at)
				right, faceB := side(q.Nest[1].Edges[j], at)
				if near := math.Min(math.Abs(left), math.Abs(right)); faceA && faceB && near > 0.09 && left*right > 0 {
					t.Fatalf("edge %d lies %.3f mm outside the two printed lines at %v", j+1, near, at)
				}
			}
		}
	})
}

// side is how far at lies to the right of path, mm, below 0 to the left; false
// where it faces no place between the path's ends.
func side(path geom.Path, at geom.Point) (float64, bool) {
	k, u, d := path.Nearest(at, 1e-6)
	if k == 0 && u < 1e-3 || k == len(path)-1 && u > 1-1e-3 {
		return 0, false
	}
	return math.Copysign(d, path[k].Deriv(u).Cross(at.Sub(path[k].At(u)))), true
}
