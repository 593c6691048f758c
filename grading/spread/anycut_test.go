package spread_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/grading/spread"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// Whatever lines are drawn over a piece, they are refused in words, or the
// outline spread by them closes, its fold keeps to its line, and every place of
// the paper goes along with one side of each cut.
func TestAnyCutIsRefusedOrOpens(t *testing.T) {
	pieces := blousePieces(t)
	opened := 0
	rapid.Check(t, func(t *rapid.T) {
		q := pieces[rapid.IntRange(0, len(pieces)-1).Draw(t, "piece")]
		box := whole(q.Nest[0].Edges).Bounds().Grow(30)
		place := func() geom.Point {
			return geom.Pt(rapid.Float64Range(box.Min.X, box.Max.X).Draw(t, "x"), rapid.Float64Range(box.Min.Y, box.Max.Y).Draw(t, "y"))
		}
		q.Cuts = nil
		for range rapid.IntRange(1, 3).Draw(t, "cuts") {
			q.Cuts = append(q.Cuts, model.Cut{From: place(), To: place(), Measure: model.Bust, Share: 0.1})
		}
		s, err := spread.Read(q)
		if err != nil {
			return
		}
		opened++
		g := grows{model.Bust: 50}
		got, err := s.Edges(g.by)
		if err != nil {
			t.Fatal(err)
		}
		for j, e := range got {
			if e.End() != got[(j+1)%len(got)].Start() || e.Validate() != nil {
				t.Errorf("the %s does not meet the next edge", q.Edges[j].Name)
			}
			if was := q.Nest[0].Edges[j].Start().X; q.Edges[j].Kind == model.Fold && math.Abs(e.Start().X-was)+math.Abs(e.End().X-was) > 1e-9 {
				t.Errorf("the fold moved to %g", e.Start().X)
			}
		}
		if v := s.At(place(), g.by); v.Len() > 5*float64(len(q.Cuts))/0.86 {
			t.Errorf("paper moved by %g mm, the cuts open by %d", v.Len(), 5*len(q.Cuts))
		}
	})
	if opened < 10 {
		t.Errorf("only %d of the drawn lines could be cut", opened)
	}
}

// An edge of no length, as a traced outline may have, moves with the corner it
// lies at.
func TestAnEdgeOfNoLength(t *testing.T) {
	corners := []geom.Point{{}, {X: 200}, {X: 200}, {X: 200, Y: 300}, {Y: 300}}
	q := ring("Sheet", corners, []string{"top", "nothing", "right", "bottom", "fold"}, 4, down("1", 60, 150, 0.25))
	got := edges(t, q, grows{model.Bust: 40})
	for _, p := range got[1].Controls() {
		if p.Dist(geom.Pt(210, 0)) > 1e-9 {
			t.Errorf("it went to %v", p)
		}
	}
}
