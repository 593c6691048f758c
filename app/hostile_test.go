package app

import (
	"fmt"
	"math"
	"testing"
	"time"

	"quarterstep/grading/check"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// rounded is a piece like a disc: points edges of curves lines each, in sizes
// from 0 up, its line going in and out by a share of its radius in mm.
func rounded(points, sizes, curves int, radius, wave float64) model.Piece {
	q := model.Piece{ID: "a", Name: "Disc"}
	for k := range points {
		q.Points = append(q.Points, model.GradePoint{ID: fmt.Sprint(k)})
		q.Edges = append(q.Edges, model.Edge{ID: fmt.Sprint(k), Allowance: 10})
	}
	n := points * curves
	for s := range sizes {
		at := func(i int) geom.Point {
			sin, cos := math.Sincos(2 * math.Pi * float64(i%n) / float64(n))
			r := radius * (1 + 0.01*float64(s)) * (1 + wave*math.Sin(float64(i%n)*1.7+float64(s)))
			return geom.Pt(r*cos, r*sin)
		}
		o := model.Outline{Size: fmt.Sprint(s)}
		for k := range points {
			var p []geom.Point
			for j := 0; j <= curves; j++ {
				p = append(p, at(k*curves+j))
			}
			o.Edges = append(o.Edges, geom.Polyline(p...))
		}
		q.Nest = append(q.Nest, o)
	}
	return q
}

func patternOf(q model.Piece) model.Pattern {
	c := model.SizeChart{ID: "c", Name: "Invented", Measures: []model.Measure{model.Bust, model.Waist, model.Hip}}
	for i := range 20 {
		v := 600 + 10*float64(i)
		c.Sizes = append(c.Sizes, model.ChartSize{Name: fmt.Sprint(i), Body: map[model.Measure]float64{model.Bust: v, model.Waist: v - 100, model.Hip: v + 50}})
	}
	return model.Pattern{Name: "Disc", Chart: c, Pieces: []model.Piece{q}, Target: model.Target{Place: 15.3}}
}

// TestWhatPassesTheRulesDoesNotHang: a pattern that breaks no rule, however odd,
// is graded, checked and laid on pages, or refused, without keeping the window
// waiting.
func TestWhatPassesTheRulesDoesNotHang(t *testing.T) {
	const longest = 90 * time.Second // a few seconds of work; the rest for machines that are busy
	with := func(change func(q *model.Piece)) model.Piece {
		q := rounded(8, 6, 4, 200, 0)
		change(&q)
		return q
	}
	one := func(change func(q *model.Piece)) model.Piece {
		q := rounded(8, 1, 4, 200, 0)
		change(&q)
		return q
	}
	for say, q := range map[string]model.Piece{
		"very many corners":         rounded(300, 5, 1, 400, 0.02),
		"many traced edges":         rounded(60, 6, 8, 400, 0.02),
		"edges of very many curves": rounded(4, 3, 2000, 400, 0),
		"a line all loops":          rounded(8, 6, 4, 300, 3),
		"a piece of a kilometre":    rounded(8, 6, 4, 9e5, 0),
		"a piece of no size":        rounded(8, 6, 4, 1e-6, 0),
		"a point moved far away":    with(func(q *model.Piece) { q.Hand.Moves = []model.PointMove{{Point: "1", By: geom.Vec{X: 1e6}}} }),
		"an edge moved far away":    with(func(q *model.Piece) { q.Hand.Shifts = []model.EdgeShift{{Edge: "1", Out: 1e6}} }),
		"an edge bent far away": with(func(q *model.Piece) {
			q.Hand.Shapes = []model.EdgeShape{{Edge: "1", By: []geom.Vec{{X: 1e6}, {Y: -1e6}}}}
		}),
		"a huge typed gap": one(func(q *model.Piece) { q.Gaps = []model.Gap{{Point: "1", Across: 1e6, Along: -1e6}} }),
		"a huge cut": one(func(q *model.Piece) {
			q.Cuts = []model.Cut{{ID: "c", From: geom.Pt(0, -500), To: geom.Pt(0, 500), Measure: model.Bust, Share: 1e6}}
		}),
		"a huge cut that closes": one(func(q *model.Piece) {
			q.Cuts = []model.Cut{{ID: "c", From: geom.Pt(0, -500), To: geom.Pt(0, 500), Measure: model.Bust, Share: -1e6}}
		}),
	} {
		p := patternOf(q)
		if err := p.Validate(); err != nil {
			t.Errorf("%s: %v", say, err)
			continue
		}
		began := time.Now()
		if r, err := Grade(p); err == nil {
			(&check.Checker{}).Look(p, r)
			s, err := PrintSetup("a4", "", "")
			if err != nil {
				t.Fatal(err)
			}
			if _, err := Plan(p, PrintChoice{Marks: true, Stitching: true, WithTarget: true}, s); err != nil {
				t.Logf("%s: %v", say, err)
			}
			if _, _, err := LinkUp(p); err != nil {
				t.Errorf("%s: linking: %v", say, err)
			}
		} else {
			t.Logf("%s: %v", say, err)
		}
		took := time.Since(began)
		if t.Logf("%s: %v", say, took); took > longest {
			t.Errorf("%s: took %v", say, took)
		}
	}
}
