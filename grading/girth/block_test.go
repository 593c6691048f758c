package girth_test

import (
	"math"
	"testing"

	"quarterstep/grading"
	"quarterstep/grading/girth"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// near holds a figure to within mm.
func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.4f, want %.4f within %g", what, got, want, within)
	}
}

// block is a half bodice of straight edges, its centre at x 0: level neck, a
// slanting shoulder, straight down to the underarm, and a side seam through
// waist and hip to the hem. x is the half width at underarm, waist and hip.
func block(bust, waist, hip float64) []geom.Path {
	pts := []geom.Point{
		{X: 0, Y: 20},
		{X: 60, Y: 0},
		{X: 0.7 * bust, Y: 40},
		{X: bust, Y: 220},
		{X: waist, Y: 420},
		{X: hip, Y: 620},
		{X: hip, Y: 700},
		{X: 0, Y: 700},
	}
	out := make([]geom.Path, len(pts))
	for i, p := range pts {
		out[i] = geom.Polyline(p, pts[(i+1)%len(pts)])
	}
	return out
}

// blockPiece is a block in one size, on the fold, without allowances; its
// levels are grade points.
func blockPiece(id, name string, nest ...model.Outline) model.Piece {
	q := model.Piece{ID: id, Name: name, Cut: 1, Nest: nest}
	for _, c := range []struct {
		point, edge string
		across      model.Measure
		kind        model.EdgeKind
	}{
		{"centre neck", "neckline", model.Steps, model.Plain},
		{"neck point", "shoulder", model.Steps, model.Plain},
		{"shoulder tip", "armhole", model.Steps, model.Plain},
		{"underarm", "side seam", model.Bust, model.Plain},
		{"side waist", "side below the waist", model.Waist, model.Plain},
		{"side hip", "side below the hip", model.Hip, model.Plain},
		{"side hem", "hem", model.Hip, model.Hem},
		{"centre hem", "centre", model.Steps, model.Fold},
	} {
		q.Points = append(q.Points, model.GradePoint{ID: c.point, Name: c.point, Across: c.across, Along: model.Steps})
		q.Edges = append(q.Edges, model.Edge{ID: c.edge, Name: c.edge, Kind: c.kind})
	}
	return q
}

// level is a line drawn across a piece at height y.
func level(kind model.LineKind, y float64) model.Line {
	return model.Line{ID: string(kind), Name: string(kind) + " line", Kind: kind, Drawn: []model.SizedPath{{Path: geom.Polyline(geom.Pt(10, y), geom.Pt(90, y))}}}
}

// oneSizeChart has one size: bust, waist and hip 800, 640, 880 mm.
func oneSizeChart() model.SizeChart {
	body := map[model.Measure]float64{model.Bust: 800, model.Waist: 640, model.Hip: 880}
	return model.SizeChart{
		ID: "c", Name: "chart", Measures: girth.Girths(),
		Sizes: []model.ChartSize{{Name: "34", Body: body}, {Name: "36", Body: map[model.Measure]float64{model.Bust: 840, model.Waist: 680, model.Hip: 920}}},
	}
}

// pattern is pieces on that chart, wanted in size 34.
func pattern(pieces ...model.Piece) model.Pattern {
	return model.Pattern{Name: "Blocks", Unit: model.Centimetres, Chart: oneSizeChart(), Pieces: pieces}
}

// in34 is a block printed in size 34 only.
func in34(id, name string, bust, waist, hip float64) model.Piece {
	return blockPiece(id, name, model.Outline{Size: "34", Edges: block(bust, waist, hip)})
}

// result is p's pieces as printed in size 34, as a graded pattern.
func result(p model.Pattern) grading.Result {
	r := grading.Result{Size: "34"}
	for _, q := range p.Pieces {
		g := grading.Piece{ID: q.ID, Name: q.Name, Edges: q.Nest[0].Edges, Base: q.Nest[0].Edges}
		for _, l := range q.Lines {
			g.Lines = append(g.Lines, grading.Line{ID: l.ID, Name: l.Name, Kind: l.Kind, Path: l.Drawn[0].Path})
		}
		for _, d := range q.Darts {
			g.Darts = append(g.Darts, grading.Dart{
				ID: d.ID, Name: d.Name, Apex: d.Apex[0].At,
				Leg1: g.Edges[q.PointIndex(d.From)].Start(), Leg2: g.Edges[q.PointIndex(d.To)].Start(),
			})
		}
		r.Pieces = append(r.Pieces, g)
	}
	return r
}

// measured is Of and Printed of a pattern in size 34, which must agree.
func measured(t *testing.T, p model.Pattern) (map[model.Measure]girth.Girth, []girth.Missing) {
	t.Helper()
	of, missing, err := girth.Of(p, result(p))
	if err != nil {
		t.Fatal(err)
	}
	printed, lacks, err := girth.Printed(p, "34")
	if err != nil {
		t.Fatal(err)
	}
	if len(of) != len(printed) || len(missing) != len(lacks) {
		t.Fatalf("%d girths and %d missing when graded, %d and %d in print", len(of), len(missing), len(printed), len(lacks))
	}
	out := map[model.Measure]girth.Girth{}
	for i, g := range of {
		out[g.Measure] = g
		near(t, "printed as graded", printed[i].Finished, g.Finished, 1e-9)
		near(t, "ease", g.Ease, g.Finished-g.Body, 1e-9)
	}
	return out, missing
}
