package spread_test

import (
	"testing"

	"pgregory.net/rapid"

	"quarterstep/grading/spread"
	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
)

const inch = 25.4

// sheet is a rectangle of paper w wide and h high with its top left corner at
// (0, 0), walked clockwise: top, right, bottom, left; the left edge is on the
// fold.
func sheet(w, h float64, cuts ...model.Cut) model.Piece {
	corners := []geom.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}}
	return ring("Sheet", corners, []string{"top", "right", "bottom", "fold"}, 3, cuts...)
}

// ring is a straight-edged piece; edge fold is on the fold of the cloth.
func ring(name string, corners []geom.Point, edges []string, fold int, cuts ...model.Cut) model.Piece {
	q := model.Piece{ID: name, Name: name, Nest: []model.Outline{{Size: "38"}}, Cuts: cuts}
	for i, e := range edges {
		q.Points = append(q.Points, model.GradePoint{ID: e, Name: "start of " + e})
		q.Edges = append(q.Edges, model.Edge{ID: e, Name: e})
		q.Nest[0].Edges = append(q.Nest[0].Edges, geom.Polyline(corners[i], corners[(i+1)%len(corners)]))
	}
	if fold >= 0 {
		q.Edges[fold].Kind = model.Fold
	}
	return q
}

// down is a lengthwise cut at x, across a crosswise one at y, both drawn short
// so that they must be carried on.
func down(id string, x, y, share float64) model.Cut {
	return model.Cut{ID: id, From: geom.Pt(x, y-3), To: geom.Pt(x, y+3), Measure: model.Bust, Share: share}
}

func across(id string, x, y, share float64) model.Cut {
	return model.Cut{ID: id, From: geom.Pt(x-3, y), To: geom.Pt(x+3, y), Measure: model.BackWaist, Share: share}
}

// grows is the growth of measures, mm; of those not named none.
type grows map[model.Measure]float64

func (g grows) by(m model.Measure) float64 { return g[m] }

func read(t testing.TB, q model.Piece) *spread.Spread {
	t.Helper()
	s, err := spread.Read(q)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func edges(t testing.TB, q model.Piece, g grows) []geom.Path {
	t.Helper()
	out, err := read(t, q).Edges(g.by)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func whole(edges []geom.Path) geom.Path { return geom.Join(edges...) }

func chart(t testing.TB, id string) model.SizeChart {
	t.Helper()
	c, ok := sizechart.ByID(id)
	if !ok {
		t.Fatalf("no chart %s", id)
	}
	return c
}

// blouse is the demo blouse printed in one size.
func blouse(t testing.TB, c model.SizeChart, size string) model.Pattern {
	t.Helper()
	p, err := draft.Blouse(c, []string{size})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// withDefaults is q with the cut lines proposed for it.
func withDefaults(t testing.TB, q model.Piece, c model.SizeChart) model.Piece {
	t.Helper()
	all, err := spread.Defaults(q, c)
	if err != nil {
		t.Fatal(err)
	}
	q.Cuts = nil
	for _, d := range all {
		q.Cuts = append(q.Cuts, d.Cut)
	}
	return q
}

// quarterFront is the worked quarter of package draft as a piece.
func quarterFront() model.Piece {
	before, _ := draft.QuarterFront()
	q := ring("Front bodice", before[:], []string{"waist", "side seam", "armhole", "shoulder", "neckline", "centre front"}, 5)
	for i, n := range []string{"centre hem", "side hem", "underarm", "shoulder tip", "neck point", "centre neck"} {
		q.Points[i].Name = n
	}
	q.Edges[5].Kind = model.Centre
	return q
}

func readIn(t *rapid.T, q model.Piece) *spread.Spread {
	s, err := spread.Read(q)
	if err != nil {
		t.Fatal(err)
	}
	return s
}
