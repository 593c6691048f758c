package grading_test

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
)

// withHand is p with corrections of piece i.
func withHand(p model.Pattern, i int, h model.Hand) model.Pattern {
	return p.WithPiece(i, func(q model.Piece) model.Piece {
		q.Hand = h
		return q
	})
}

// remembering grades for these tests, so that each nest is read once.
var remembering grading.Grader

// lineAt is the line of piece i of p at a place of the chart.
func lineAt(t interface{ Fatal(...any) }, p model.Pattern, i int, place float64) grading.Piece {
	p.Target.Place = place
	r, err := remembering.Grade(p)
	if err != nil {
		t.Fatal(err)
	}
	return r.Pieces[i]
}

// controls lists all control points of an outline.
func controls(edges []geom.Path) []geom.Point {
	var out []geom.Point
	for _, e := range edges {
		out = append(out, e.Controls()...)
	}
	return out
}

// apartAll is the largest distance between the control points of two outlines.
func apartAll(a, b []geom.Path) float64 {
	ca, cb := controls(a), controls(b)
	if len(ca) != len(cb) {
		return math.Inf(1)
	}
	var most float64
	for k := range ca {
		most = max(most, ca[k].Dist(cb[k]))
	}
	return most
}

// Without corrections the line is not merely the same, it is the very one.
func TestNoCorrectionCostsNothing(t *testing.T) {
	g := lineAt(t, front(women(), "36", "38", "40"), 0, 9)
	if &g.Edges[0] != &g.Base[0] {
		t.Error("the computed edges were copied")
	}
}

func TestStageShares(t *testing.T) {
	c := women() // sizes 32, 34, 36 ... at places 0, 1, 2 ...
	q := front(c, "36", "40", "42").Pieces[0]
	q.Nest[2].Also = []string{"44"} // the largest line serves 44 too
	for _, s := range []struct {
		stage       string
		place, want float64
	}{
		{"", 9, 1},
		{"no such size", 9, 1},
		{"50", 9, 1},
		{"50", 12, 1},
		{"50", 15, 1},
		{"50", 6, 0},
		{"50", 7.5, 0.5},
		{"50", 5, 0},
		{"50", 2, 0},
		{"50", 0, 0},
		{"32", 0, 1},
		{"32", 1, 0.5},
		{"32", 2, 0},
		{"32", 8, 0},
		{"38", 3, 1},
		{"38", 2, 0},
		{"38", 4, 0},
		{"38", 2.25, 0.25},
		{"38", 3.75, 0.25},
		{"38", 1, 0},
		{"38", 9, 0},
	} {
		if got := grading.StageShare(q, c, s.stage, s.place); math.Abs(got-s.want) > 1e-12 {
			t.Errorf("stage %q at place %g counts %g, want %g", s.stage, s.place, got, s.want)
		}
	}
}

// drawHand is random moves and bends of piece q, all at one stage.
func drawHand(t *rapid.T, q model.Piece, stage string) model.Hand {
	mm := rapid.Float64Range(-15, 15)
	var h model.Hand
	for k, e := range q.Edges {
		if rapid.Bool().Draw(t, "moved") {
			h.Moves = append(h.Moves, model.PointMove{Point: q.Points[k].ID, By: geom.Vec{X: mm.Draw(t, "x"), Y: mm.Draw(t, "y")}, Stage: stage})
		}
		if n := len(q.Nest[0].Edges[k]); rapid.Bool().Draw(t, "bent") {
			var by []geom.Vec
			for range rapid.IntRange(1, 3*n-1).Draw(t, "handles") {
				by = append(by, geom.Vec{X: mm.Draw(t, "bx"), Y: mm.Draw(t, "by")})
			}
			h.Shapes = append(h.Shapes, model.EdgeShape{Edge: e.ID, By: by, Stage: stage})
		}
	}
	return h
}

// At its stage the line is the corrected one; beyond, sizes differ from it by
// exactly what the computed lines differ; printed sizes stay as printed; and
// without a stage the same correction comes out alike at every target.
func TestStagesGoOnFromTheCorrectedLine(t *testing.T) {
	c, _ := sizechart.ByID("en13402-women")
	p, err := draft.Blouse(c, []string{"36", "38", "40", "42"})
	if err != nil {
		t.Fatal(err)
	}
	p.Links = nil
	rapid.Check(t, func(t *rapid.T) {
		i := rapid.IntRange(0, len(p.Pieces)-1).Draw(t, "piece")
		at := rapid.SampledFrom([]int{0, 1, 6, 7, 9, 12}).Draw(t, "stage")
		h := drawHand(t, p.Pieces[i], c.Sizes[at].Name)
		staged := withHand(p, i, h)
		plain := withHand(p, i, unstaged(h))
		beyond := float64(at) + rapid.Float64Range(0, 3).Draw(t, "beyond")
		if at < 2 {
			beyond = float64(at) - rapid.Float64Range(0, float64(at)).Draw(t, "below")
		}
		for _, place := range []float64{float64(at), beyond} {
			if d := apartAll(lineAt(t, staged, i, place).Edges, lineAt(t, plain, i, place).Edges); d > 0 {
				t.Fatalf("at place %g the line is %g mm off the corrected one", place, d)
			}
		}
		from, to := lineAt(t, staged, i, float64(at)), lineAt(t, staged, i, beyond)
		fe, te, fb, tb := controls(from.Edges), controls(to.Edges), controls(from.Base), controls(to.Base)
		for k := range fe {
			if d := te[k].Sub(fe[k]).Sub(tb[k].Sub(fb[k])).Len(); d > 1e-9 {
				t.Fatalf("beyond its stage control point %d goes on %g mm otherwise", k, d)
			}
		}
		for place := 2.0; place <= 5; place++ {
			if g := lineAt(t, staged, i, place); !g.Printed || apartAll(g.Edges, p.Pieces[i].Nest[int(place)-2].Edges) > 0 {
				t.Fatalf("the printed size at place %g was changed", place)
			}
		}
	})
}

// unstaged is h with its stages left out.
func unstaged(h model.Hand) model.Hand {
	h.Moves, h.Shapes = slices.Clone(h.Moves), slices.Clone(h.Shapes)
	for i := range h.Moves {
		h.Moves[i].Stage = ""
	}
	for i := range h.Shapes {
		h.Shapes[i].Stage = ""
	}
	return h
}

// Moves of one point at several stages and in several styles add up.
func TestMovesOfStagesAndStylesAddUp(t *testing.T) {
	p := front(women(), "36", "38", "40", "42")
	was := lineAt(t, p, 0, 9).Edges[3].Start()
	p = withHand(p, 0, model.Hand{Moves: []model.PointMove{
		{Point: "p4", By: geom.Vec{X: 3}},
		{Point: "p4", By: geom.Vec{Y: 4}, Style: "Lower"},
		{Point: "p4", By: geom.Vec{X: 8}, Stage: "50"},
		{Point: "p4", By: geom.Vec{Y: 6}, Stage: "54"},
	}})
	got := lineAt(t, p, 0, 9).Edges[3].Start().Sub(was) // 50 is at place 9, 54 at 11, 42 at 5
	if d := got.Sub(geom.Vec{X: 11, Y: 4 + 6*4.0/6}).Len(); d > 1e-9 {
		t.Errorf("the moves add up to %v", got)
	}
}

// A kept curve is the printed one where that is the size wanted. Elsewhere its
// ends are the computed ones and leave as these do, square to the centre, and
// its handles reach as far towards where they would cross as the printed ones.
func TestKeptCurves(t *testing.T) {
	c := women()
	p := front(c, "36", "38", "40", "42")
	kept := func(kind model.CurveKind, size string) model.Pattern {
		return withHand(p, 0, model.Hand{Curves: []model.EdgeCurve{{Edge: "e1", Kind: kind, Size: size}, {Edge: "e3", Kind: kind, Size: size}}})
	}
	for i, o := range p.Pieces[0].Nest {
		got := lineAt(t, kept(model.PrintedCurve, o.Size), 0, float64(2+i)).Edges
		if d := apartAll(got, o.Edges); d > 0 {
			t.Errorf("size %s with its own curve is %g mm off", o.Size, d)
		}
	}
	for place := range c.Sizes {
		base := lineAt(t, p, 0, float64(place)).Edges
		nearest := min(max(place-2, 0), 3)
		for name, pair := range map[string]struct {
			got  []geom.Path
			like int
		}{
			"nearest": {lineAt(t, kept(model.NearestCurve, ""), 0, float64(place)).Edges, nearest},
			"38":      {lineAt(t, kept(model.PrintedCurve, "38"), 0, float64(place)).Edges, 1},
		} {
			for _, j := range []int{0, 2} {
				print := p.Pieces[0].Nest[pair.like].Edges[j]
				e := pair.got[j]
				if e.Start() != base[j].Start() || e.End() != base[j].End() {
					t.Fatalf("place %d, %s: the ends of edge %d moved", place, name, j+1)
				}
				for end, h := range [2][2]geom.Path{{e, print}, {e.Reverse(), print.Reverse()}} {
					if d := math.Abs(apexShare(h[0]) - apexShare(h[1])); d > 1e-9 {
						t.Errorf("place %d, %s: handle %d of edge %d reaches %g more of the way", place, name, end, j+1, d)
					}
				}
				if d := e.StartDir().Sub(base[j].StartDir()).Len() + e.EndDir().Sub(base[j].EndDir()).Len(); d > 1e-9 {
					t.Errorf("place %d, %s: edge %d leaves its ends %g otherwise", place, name, j+1, d)
				}
			}
			if y := pair.got[0].StartDir().Y; math.Abs(y) > 1e-5 {
				t.Errorf("place %d, %s: the neckline is not square to the centre, by %g", place, name, y)
			}
		}
		straight := lineAt(t, kept(model.StraightCurve, ""), 0, float64(place)).Edges
		for _, j := range []int{0, 2} {
			if !straight[j].IsStraight(1e-9) || straight[j].Start() != base[j].Start() || straight[j].End() != base[j].End() {
				t.Errorf("place %d: edge %d is not straight between its computed ends", place, j+1)
			}
		}
	}
}

// On the demos, three sizes below the print to eight above: an edge that keeps a
// printed curve has no bend that the printed one has not.
func TestKeptCurvesKeepTheirCharacter(t *testing.T) {
	for _, d := range demos {
		p := d.pattern(t)
		p.Links = nil
		first, _ := p.Chart.Place(d.sizes[0])
		last, _ := p.Chart.Place(d.sizes[len(d.sizes)-1])
		for i, q := range p.Pieces {
			var h model.Hand
			for _, e := range q.Edges {
				h.Curves = append(h.Curves, model.EdgeCurve{Edge: e.ID, Kind: model.PrintedCurve, Size: d.sizes[1]})
			}
			kept := withHand(p, i, h)
			for place := max(0, first-3); place <= min(last+8, len(p.Chart.Sizes)-1); place++ {
				base := lineAt(t, p, i, float64(place)).Edges
				for j, e := range lineAt(t, kept, i, float64(place)).Edges {
					if e.Start() != base[j].Start() || e.End() != base[j].End() {
						t.Errorf("%s, place %d: the ends of %s of %s moved", d.name, place, q.Edges[j].Name, q.Name)
					}
					if is, was := bendsOf(e), bendsOf(q.Nest[1].Edges[j]); is > was {
						t.Errorf("%s, place %d: %s of %s has %d bends, printed %d", d.name, place, q.Edges[j].Name, q.Name, is, was)
					}
				}
			}
		}
	}
}

// bendsOf counts the places within the curves of p where the bend changes
// sides, edges straight within 0.01 mm left out.
func bendsOf(p geom.Path) int {
	n := 0
	if p.IsStraight(0.01) {
		return 0
	}
	for _, c := range p {
		n += len(c.Inflections())
	}
	return n
}

// apexShare is how far a curve's first handle reaches, as a share of the way to
// where the directions of its two ends cross.
func apexShare(p geom.Path) float64 {
	chord, u, v := p.End().Sub(p.Start()), p.StartDir(), p.EndDir()
	return handleOf(p).Len() / (chord.Cross(v) / u.Cross(v))
}

func handleOf(p geom.Path) geom.Vec { return p[0].P1.Sub(p[0].P0) }

// round is a quarter disc about (0, 0) whose radius grows 10 mm from size to
// size, drawn in arcs of 7.5 degrees: within 1e-8 of the circle (closed form).
func round(c model.SizeChart, sizes ...string) model.Pattern {
	q := model.Piece{ID: "round", Name: "Round", Points: points("right", "lower", "centre"), Edges: edges(3)}
	q.Edges[1].Kind, q.Edges[2].Name = model.Fold, "top"
	for _, s := range sizes {
		place, _ := c.Place(s)
		r := 100 + 10*float64(place)
		const parts = 12
		h := math.Pi / 2 / parts
		on := func(a float64) geom.Point { return geom.Pt(r*math.Cos(a), r*math.Sin(a)) }
		dir := func(a float64) geom.Vec { return geom.Vec{X: -math.Sin(a), Y: math.Cos(a)} }
		k := r * 4 / 3 * math.Tan(h/4)
		var arc geom.Path
		for i := range parts {
			a, b := float64(i)*h, float64(i+1)*h
			arc = append(arc, geom.Cubic{P0: on(a), P1: on(a).Add(dir(a).Scale(k)), P2: on(b).Add(dir(b).Scale(-k)), P3: on(b)})
		}
		q.Nest = append(q.Nest, model.Outline{Size: s, Edges: []geom.Path{arc, geom.Polyline(arc.End(), geom.Pt(0, 0)), geom.Polyline(geom.Pt(0, 0), arc.Start())}})
	}
	return model.Pattern{Chart: c, Pieces: []model.Piece{q}}
}

// At every target a shifted arc is the arc of the computed radius + out, to
// 0.01 mm, and the fold stays on its line; a share of it before its stage.
func TestAShiftIsParallelAtEveryTarget(t *testing.T) {
	c := women()
	p := round(c, "36", "38", "40", "42")
	for _, out := range []float64{-40, -3, 0.2, 25} {
		plain := withHand(p, 0, model.Hand{Shifts: []model.EdgeShift{{Edge: "e1", Out: out}}})
		staged := withHand(p, 0, model.Hand{Shifts: []model.EdgeShift{{Edge: "e1", Out: out, Stage: "50"}}}) // place 9
		for place := 0.0; place < 15; place += 0.75 {
			for name, pair := range map[string]struct {
				p     model.Pattern
				share float64
			}{"at all sizes": {plain, 1}, "from 50 on": {staged, min(max((place-5)/4, 0), 1)}} {
				r := 100 + 10*lineRadius(t, p, place) + pair.share*out
				got := lineAt(t, pair.p, 0, place).Edges
				for _, q := range got[0] {
					for k := range 9 {
						if d := math.Abs(q.At(float64(k)/8).Dist(geom.Pt(0, 0)) - r); d > 0.01 {
							t.Fatalf("%s, place %g, out %g: %g mm off the circle", name, place, out, d)
						}
					}
				}
				if d := got[1].Start().Dist(geom.Pt(0, r)); d > 0.01 || got[1].End() != geom.Pt(0, 0) || !got[1].IsStraight(1e-5) {
					t.Errorf("%s, place %g: the fold runs from %v to %v", name, place, got[1].Start(), got[1].End())
				}
			}
		}
	}
}

// lineRadius is the computed radius of the round piece in steps of 10 mm above
// 100.
func lineRadius(t *testing.T, p model.Pattern, place float64) float64 {
	return (lineAt(t, p, 0, place).Base[0].Start().X - 100) / 10
}

// Every edge of the demos can be moved 5 mm out and in at any target: the outline
// stays closed, the middle of the edge lies 5 mm from the old line, and edges
// that are not beside it stay.
func TestEveryEdgeOfTheDemosCanBeShifted(t *testing.T) {
	for _, d := range demos {
		p := d.pattern(t)
		p.Links = nil
		for i, q := range p.Pieces {
			n := len(q.Edges)
			for j, e := range q.Edges {
				for _, out := range []float64{-5, 5} {
					shifted := withHand(p, i, model.Hand{Shifts: []model.EdgeShift{{Edge: e.ID, Out: out}}})
					for _, place := range []float64{2.5, 9} {
						g := lineAt(t, shifted, i, place)
						name := fmt.Sprintf("%s of %s at %g, %g mm out", e.Name, q.Name, place, out)
						if g.Unlaid != "" {
							t.Errorf("%s: %s", name, g.Unlaid)
							continue
						}
						m, err := geom.Measure(g.Edges[j], 1e-3)
						if err != nil {
							t.Fatal(err)
						}
						if _, _, dist := g.Base[j].Nearest(m.At(m.Length()/2), 1e-6); math.Abs(dist-5) > 0.01 {
							t.Errorf("%s: its middle lies %.3f mm from the old line", name, dist)
						}
						for k := range n {
							if gap := g.Edges[k].End().Dist(g.Edges[(k+1)%n].Start()); gap > 1e-9 {
								t.Errorf("%s: edge %d ends %g mm from the next", name, k+1, gap)
							}
							if beside := k == j || k == (j+1)%n || k == (j+n-1)%n; !beside && apartAll(g.Edges[k:k+1], g.Base[k:k+1]) > 0 {
								t.Errorf("%s: edge %d changed", name, k+1)
							}
						}
						if grew := math.Abs(g.Outline().Area()) - math.Abs(geom.Join(g.Base...).Area()); grew*out <= 0 {
							t.Errorf("%s: the piece grew by %.0f square mm", name, grew)
						}
					}
				}
			}
		}
	}
}

// A shift that leaves nothing is not laid, and it is said why; a locked end
// keeps its edge.
func TestShiftsThatCannotBeLaid(t *testing.T) {
	p := round(women(), "36", "38")
	far := lineAt(t, withHand(p, 0, model.Hand{Shifts: []model.EdgeShift{{Edge: "e3", Out: -900}}}), 0, 5)
	if !strings.Contains(far.Unlaid, "of Round") || apartAll(far.Edges, far.Base) > 0 {
		t.Errorf("said %q", far.Unlaid)
	}
	fine := withHand(p, 0, model.Hand{Shifts: []model.EdgeShift{{Edge: "e3", Out: 9}}})
	if g := lineAt(t, fine, 0, 5); g.Unlaid != "" || apartAll(g.Edges, g.Base) == 0 {
		t.Errorf("a shift was not laid: %q", g.Unlaid)
	}
	fine.Pieces[0].Points = slices.Clone(fine.Pieces[0].Points)
	fine.Pieces[0].Points[0].Locked = true
	if g := lineAt(t, fine, 0, 5); apartAll(g.Edges, g.Base) > 0 {
		t.Error("an edge with a locked end was shifted")
	}
}

// Where a shifted edge has other control points than before, the handles the
// hand counts are told: as many as it had, at the new line.
func TestHandlesOfAShiftedEdge(t *testing.T) {
	p := withHand(front(women(), "36", "38", "40"), 0, model.Hand{Shifts: []model.EdgeShift{{Edge: "e1", Out: -25}}})
	g := lineAt(t, p, 0, 9)
	if len(g.Edges[0]) == len(g.Base[0]) {
		t.Fatal("the parallel neckline has as many curves as before; choose another to test")
	}
	h := g.Handles[0]
	if len(h) != 3*len(g.Base[0])+1 || h[0] != g.Edges[0].Start() || h[len(h)-1] != g.Edges[0].End() {
		t.Errorf("handles %v", h)
	}
	for j := range g.Edges {
		if len(g.Edges[j]) == len(g.Base[j]) && g.Handles[j] != nil {
			t.Errorf("edge %d has handles of its own without need", j+1)
		}
	}
}

// Through a grade point the line runs on in one direction, its handles as long
// as they were; at a centre line square to it.
func TestSmoothThrough(t *testing.T) {
	p := front(women(), "36", "38", "40", "42")
	for place := range p.Chart.Sizes {
		was := lineAt(t, p, 0, float64(place)).Edges
		for k, name := range []string{"centre neck", "neck point", "shoulder tip", "underarm"} {
			got := lineAt(t, withHand(p, 0, model.Hand{Through: []string{"p" + strconv.Itoa(k+1)}}), 0, float64(place)).Edges
			before := (k + 5) % 6
			u, v := got[before].EndDir(), got[k].StartDir()
			switch name {
			case "centre neck":
				if math.Abs(u.Dot(v)) > 1e-12 || u != was[before].EndDir() {
					t.Errorf("place %d: %s is not square to the centre line", place, name)
				}
			default:
				if u.Sub(v).Len() > 1e-9 {
					t.Errorf("place %d: the line arrives at the %s towards %v, leaves towards %v", place, name, u, v)
				}
			}
			for _, j := range []int{before, k} {
				for end, h := range [2][2]float64{
					{handleOf(got[j]).Len(), handleOf(was[j]).Len()},
					{handleOf(got[j].Reverse()).Len(), handleOf(was[j].Reverse()).Len()},
				} {
					if math.Abs(h[0]-h[1]) > 1e-9 {
						t.Errorf("place %d, %s: handle %d of edge %d became %g mm from %g", place, name, end, j+1, h[0], h[1])
					}
				}
			}
			if d := pointsApart(got, was); d > 0 {
				t.Errorf("place %d: smoothing moved a grade point %g mm", place, d)
			}
		}
	}
}

// pointsApart is how far the grade points of two lines are apart at most.
func pointsApart(a, b []geom.Path) float64 {
	var most float64
	for j := range a {
		most = max(most, a[j].Start().Dist(b[j].Start()), a[j].End().Dist(b[j].End()))
	}
	return most
}

// A straight shoulder stays straight where the curve beside it is made to run on
// smoothly from it.
func TestSmoothThroughKeepsStraightEdges(t *testing.T) {
	p := front(women(), "36", "38", "40", "42")
	got := lineAt(t, withHand(p, 0, model.Hand{Through: []string{"p2", "p3"}}), 0, 9)
	if !got.Edges[1].IsStraight(1e-9) {
		t.Error("the shoulder is bent")
	}
	if apartAll(got.Edges[:1], got.Base[:1]) == 0 || apartAll(got.Edges[2:3], got.Base[2:3]) == 0 {
		t.Error("the curves beside it did not turn")
	}
}

// BenchmarkHand is what all kinds of correction cost on 12 pieces at once; the
// aim is well under 0.3 ms more than without.
func BenchmarkHand(b *testing.B) {
	one := front(women(), "36", "38", "40", "42").Pieces[0]
	kinds := map[string]model.Hand{
		"none":    {},
		"moves":   {Moves: []model.PointMove{{Point: "p4", By: geom.Vec{X: 3}}}, Shapes: []model.EdgeShape{{Edge: "e3", By: []geom.Vec{{X: 1}}}}},
		"curves":  {Curves: []model.EdgeCurve{{Edge: "e1", Kind: model.NearestCurve}, {Edge: "e3", Kind: model.PrintedCurve, Size: "38"}}},
		"shifts":  {Shifts: []model.EdgeShift{{Edge: "e3", Out: 6}}},
		"through": {Through: []string{"p3"}},
	}
	for _, name := range []string{"none", "moves", "curves", "shifts", "through"} {
		b.Run(name, func(b *testing.B) {
			p := model.Pattern{Chart: women()}
			for i := range 12 {
				q := one
				q.ID = fmt.Sprint("front ", i)
				q.Hand = kinds[name]
				p.Pieces = append(p.Pieces, q)
			}
			p.Target.Place = 9
			var g grading.Grader
			for b.Loop() {
				mustGrade(b, &g, p)
			}
		})
	}
}
