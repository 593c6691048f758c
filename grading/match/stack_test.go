package match

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/exchange"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
)

// drafted is the demo blouse, whose nests lie on their centre lines.
func drafted(t testing.TB) model.Pattern {
	t.Helper()
	c, _ := sizechart.ByID("en13402-women")
	p, err := draft.Blouse(c, []string{"36", "38", "40", "42"})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// shaken is a piece with every size and its marks moved by hand of the test.
func shaken(q model.Piece, by func(i int) geom.Vec) model.Piece {
	of := map[string]geom.Vec{}
	out := q
	out.Nest = nil
	for i, o := range q.Nest {
		of[o.Size] = by(i)
		o.Edges = append([]geom.Path(nil), o.Edges...)
		for k := range o.Edges {
			o.Edges[k] = o.Edges[k].Move(by(i))
		}
		out.Nest = append(out.Nest, o)
	}
	out.Lines = nil
	for _, l := range q.Lines {
		l.Drawn = append([]model.SizedPath(nil), l.Drawn...)
		for k, d := range l.Drawn {
			l.Drawn[k].Path = d.Path.Move(of[d.Size])
		}
		out.Lines = append(out.Lines, l)
	}
	out.Darts = nil
	for _, d := range q.Darts {
		d.Apex = append([]model.SizedPoint(nil), d.Apex...)
		for k, a := range d.Apex {
			d.Apex[k].At = a.At.Add(of[a.Size])
		}
		out.Darts = append(out.Darts, d)
	}
	return out
}

// sameShape fails unless every printed size and mark of b is that of a moved by
// one vector per size, within tol mm; it returns the vectors.
func sameShape(t interface{ Fatalf(string, ...any) }, a, b model.Piece, tol float64) []geom.Vec {
	var by []geom.Vec
	of := map[string]geom.Vec{}
	for i, o := range a.Nest {
		v := b.Nest[i].Edges[0].Start().Sub(o.Edges[0].Start())
		by, of[o.Size] = append(by, v), v
		for k, e := range o.Edges {
			pa, pb := e.Controls(), b.Nest[i].Edges[k].Controls()
			for j := range pa {
				if d := pa[j].Add(v).Dist(pb[j]); d > tol {
					t.Fatalf("size %s, edge %d: control point %d is %g mm off", o.Size, k+1, j, d)
				}
			}
		}
	}
	for i, l := range a.Lines {
		for k, d := range l.Drawn {
			if got := b.Lines[i].Drawn[k].Path.Start(); d.Path.Start().Add(of[d.Size]).Dist(got) > tol {
				t.Fatalf("%s of size %s lies at %v", l.Name, d.Size, got)
			}
		}
	}
	for i, d := range a.Darts {
		for k, x := range d.Apex {
			if got := b.Darts[i].Apex[k].At; x.At.Add(of[x.Size]).Dist(got) > tol {
				t.Fatalf("point of %s, size %s, lies at %v", d.Name, x.Size, got)
			}
		}
	}
	if !reflect.DeepEqual(a.Notches, b.Notches) {
		t.Fatalf("notches changed")
	}
	return by
}

// Laid on any line or point, all sizes meet there; twice is once, bit for bit;
// nothing changes shape.
func TestStack(t *testing.T) {
	p := drafted(t)
	rapid.Check(t, func(t *rapid.T) {
		q := p.Pieces[rapid.IntRange(0, len(p.Pieces)-1).Draw(t, "piece")]
		mm := rapid.Float64Range(-60, 60)
		shake := make([]geom.Vec, len(q.Nest))
		for i := range shake {
			shake[i] = geom.Vec{X: mm.Draw(t, "x"), Y: mm.Draw(t, "y")}
		}
		printed := shaken(q, func(i int) geom.Vec { return shake[i] })
		on := StackOn{Point: q.Points[rapid.IntRange(0, len(q.Points)-1).Draw(t, "point")].ID}
		switch rapid.IntRange(0, 2).Draw(t, "on") {
		case 0:
			on = StackOn{Line: model.Centre}
		case 1:
			on = StackOn{Line: model.Hem}
		}
		got, err := Stack(printed, on)
		if err != nil {
			has := func(kinds ...model.EdgeKind) bool {
				return slices.ContainsFunc(q.Edges, func(e model.Edge) bool { return slices.Contains(kinds, e.Kind) })
			}
			if on.Point != "" || on.Line == model.Centre && has(model.Centre, model.Fold) || on.Line == model.Hem && has(model.Hem) {
				t.Fatalf("%s: %v", q.Name, err)
			}
			return
		}
		moves := sameShape(t, printed, got, 1e-9)
		for i, v := range moves {
			across, along := q.AcrossAlong(v)
			if on.Line == model.Centre && math.Abs(along) > 1e-9 || on.Line == model.Hem && math.Abs(across) > 1e-9 {
				t.Fatalf("laid on its %s, size %s went %g mm across and %g along", on.Line, q.Nest[i].Size, across, along)
			}
		}
		if last := len(q.Nest) - 1; !reflect.DeepEqual(got.Nest[last], printed.Nest[last]) {
			t.Fatal("the largest size moved")
		}
		if k := q.PointIndex(on.Point); k >= 0 {
			for _, o := range got.Nest {
				if d := o.Edges[k].Start().Dist(got.Nest[len(q.Nest)-1].Edges[k].Start()); d > 1e-9 {
					t.Fatalf("size %s is %g mm from where sizes meet", o.Size, d)
				}
			}
		}
		again, err := Stack(got, on)
		if err != nil || !reflect.DeepEqual(again, got) {
			t.Fatalf("laid twice is not laid once: %v", err)
		}
	})
}

// The demo blouse is drawn on its centre lines: laid there again it is the very
// same; shaken across and laid there, it is as it was.
func TestStackOnTheCentreFindsTheDraftAgain(t *testing.T) {
	p := drafted(t)
	n := 0
	for _, q := range p.Pieces {
		if centreEdge(q) < 0 {
			continue
		}
		n++
		if got, err := Stack(q, StackOn{Line: model.Centre}); err != nil || !reflect.DeepEqual(got, q) {
			t.Errorf("%s, laid on its centre already, was changed: %v", q.Name, err)
		}
		if d, err := Drift(q, p.Chart); err != nil || d > still {
			t.Errorf("%s drifts %g mm: %v", q.Name, d, err)
		}
		printed := shaken(q, func(i int) geom.Vec { return geom.Vec{X: float64(3-i) * 7} })
		if d, err := Drift(printed, p.Chart); err != nil || math.Abs(d-7) > 1e-9 {
			t.Errorf("%s drifts %g mm a step, drawn to drift 7: %v", q.Name, d, err)
		}
		got, err := Stack(printed, StackOn{Line: model.Fold})
		if err != nil {
			t.Fatal(err)
		}
		for i, v := range sameShape(t, q, got, 1e-9) {
			if v.Len() > 1e-9 {
				t.Errorf("%s, size %s, is %g mm off", q.Name, q.Nest[i].Size, v.Len())
			}
		}
	}
	if n < 4 {
		t.Errorf("%d pieces with a centre line", n)
	}
}

// Marks that serve all sizes belong to each where sizes move; the grain, which
// is a direction, stays.
func TestStackKeepsMarksOfAllSizes(t *testing.T) {
	q := drafted(t).Pieces[0]
	bust := geom.Polyline(geom.Pt(0, 200), geom.Pt(200, 200))
	q.Lines = []model.Line{
		{ID: "g", Kind: model.Grain, Drawn: []model.SizedPath{{Path: geom.Polyline(geom.Pt(50, 100), geom.Pt(50, 400))}}},
		{ID: "b", Kind: model.BustLine, Drawn: []model.SizedPath{{Path: bust}}},
	}
	q.Darts[0].Apex = []model.SizedPoint{{At: geom.Pt(150, 210)}}
	printed := q
	printed.Nest = shaken(q, func(i int) geom.Vec { return geom.Vec{X: float64(i) * 5} }).Nest
	got, err := Stack(printed, StackOn{Line: model.Centre})
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(got.Lines[0], q.Lines[0]) {
		t.Errorf("the grain line became %+v", got.Lines[0])
	}
	if len(got.Lines[1].Drawn) != 4 || len(got.Darts[0].Apex) != 4 {
		t.Fatalf("%d bust lines, %d dart points, want one of each size", len(got.Lines[1].Drawn), len(got.Darts[0].Apex))
	}
	for i, d := range got.Lines[1].Drawn {
		v := geom.Vec{X: float64(3-i) * 5}
		if d.Size != q.Nest[i].Size || d.Path.Start().Dist(bust.Start().Add(v)) > 1e-9 || got.Darts[0].Apex[i].At.Dist(geom.Pt(150, 210).Add(v)) > 1e-9 {
			t.Errorf("size %s: bust line at %v, dart point at %v", d.Size, d.Path.Start(), got.Darts[0].Apex[i].At)
		}
	}
}

func TestStackRefusals(t *testing.T) {
	p := drafted(t)
	for _, c := range []struct {
		piece int
		on    StackOn
		want  string
	}{
		{2, StackOn{Line: model.Centre}, "Sleeve on each other: it has no centre or fold line"},
		{3, StackOn{Line: model.Hem}, "it has no hem"},
		{0, StackOn{Point: "nowhere"}, "no such grade point"},
		{0, StackOn{}, "choose its centre line, its hem or a grade point"},
	} {
		got, err := Stack(p.Pieces[c.piece], c.on)
		if err == nil || !strings.Contains(err.Error(), c.want) || !reflect.DeepEqual(got, p.Pieces[c.piece]) {
			t.Errorf("%+v: %v, want %q", c.on, err, c.want)
		}
	}
}

// A hand that shakes 0.3 mm does not make a centre line drift.
func TestTracedCentreLinesDoNotDrift(t *testing.T) {
	seen := 0
	for _, file := range []string{"blouse-traced-eu-36-42.svg", "blouse-polygons-eu-38-42.svg"} {
		pieces, _ := matched(t, readSheet(t, file, euChart()), euChart())
		for _, q := range pieces {
			if centreEdge(q) < 0 {
				continue
			}
			seen++
			if d, err := Drift(q, euChart()); err != nil || d > 0.5 || d == 0 {
				t.Errorf("%s: %s drifts %.2f mm a step: %v", file, q.Name, d, err)
			}
		}
	}
	if seen != 6 {
		t.Errorf("%d traced pieces with a centre line", seen)
	}
}

// The corners and their names are the same however the sizes lie on the sheet,
// also where a straight side seam keeps its place and the centre line does not.
func TestNamesDoNotDependOnWhereTheSizesMeet(t *testing.T) {
	boxy := exchange.RawPiece{Name: "Front"}
	for i, size := range []string{"36", "38", "40", "42"} {
		g := 10 * float64(i)
		pts := []geom.Point{{X: 0, Y: 60}, {X: 70 + g/5, Y: 0}, {X: 180 + g/2, Y: 40}, {X: 230 + g, Y: 210}, {X: 230 + g, Y: 600}, {X: 0, Y: 600}}
		boxy.Outlines = append(boxy.Outlines, exchange.RawOutline{Size: size, Ring: geom.Polyline(append(pts, pts[0])...)})
	}
	raws := readSheet(t, "blouse-eu-36-42.svg", euChart()).Pieces
	for _, raw := range append(raws, boxy) {
		before, _ := matched(t, oneSheet(raw), euChart())
		points, edges := namesOf(before[0])
		for k := range before[0].Points {
			moved := raw
			moved.Outlines = nil
			last := before[0].Nest[len(raw.Outlines)-1].Edges[k].Start()
			for i, o := range raw.Outlines {
				o.Ring = o.Ring.Move(last.Sub(before[0].Nest[i].Edges[k].Start()))
				moved.Outlines = append(moved.Outlines, o)
			}
			after, _ := matched(t, oneSheet(moved), euChart())
			p, e := namesOf(after[0])
			if fmt.Sprint(p) != fmt.Sprint(points) || e != edges {
				t.Errorf("%s, sizes meeting at %s: points %q, edges %s", raw.Name, points[k], p, e)
			}
		}
	}
	if _, edges := namesOf(func() model.Piece { q, _ := matched(t, oneSheet(boxy), euChart()); return q[0] }()); !strings.Contains(edges, "centre front (centre)") {
		t.Errorf("the boxy front has the edges %s", edges)
	}
}
