package model_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// pieceWithGrain has its grain drawn in that direction.
func pieceWithGrain(v geom.Vec) model.Piece {
	from := geom.Pt(10, 20)
	return model.Piece{Lines: []model.Line{
		{Kind: model.HipLine, Drawn: []model.SizedPath{{Path: geom.Polyline(from, geom.Pt(99, 20))}}},
		{Kind: model.Grain, Drawn: []model.SizedPath{{}, {Path: geom.Polyline(from, from.Add(v))}}},
	}}
}

func TestGrain(t *testing.T) {
	for _, c := range []struct{ drawn, want geom.Vec }{
		{geom.Vec{Y: 300}, geom.Vec{Y: 1}},
		{geom.Vec{Y: -300}, geom.Vec{Y: 1}}, // drawn upwards: the same grain
		{geom.Vec{X: -5}, geom.Vec{X: 1}},
		{geom.Vec{X: 30, Y: 40}, geom.Vec{X: 0.6, Y: 0.8}},
		{geom.Vec{}, geom.Vec{Y: 1}}, // no length: straight down
	} {
		if got := pieceWithGrain(c.drawn).GrainDir(); got.Sub(c.want).Len() > 1e-12 {
			t.Errorf("grain drawn along %v runs %v, want %v", c.drawn, got, c.want)
		}
	}
	across, along := pieceWithGrain(geom.Vec{Y: 1}).AcrossAlong(geom.Vec{X: 3, Y: 4})
	if across != 3 || along != 4 {
		t.Errorf("with the grain straight down, 3 to the right and 4 down is %v across and %v along", across, along)
	}
}

// Splitting a movement keeps its length and can be taken back.
func TestAcrossAlongIsATurn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-500, 500)
		q := pieceWithGrain(geom.Vec{X: x.Draw(t, "gx"), Y: x.Draw(t, "gy")})
		v := geom.Vec{X: x.Draw(t, "x"), Y: x.Draw(t, "y")}
		across, along := q.AcrossAlong(v)
		if d := math.Hypot(across, along) - v.Len(); math.Abs(d) > 1e-9 {
			t.Fatalf("the length changed by %v", d)
		}
		if back := q.FromAcrossAlong(across, along); back.Sub(v).Len() > 1e-9 {
			t.Fatalf("%v came back as %v", v, back)
		}
	})
}

func TestLookups(t *testing.T) {
	p := sound()
	q := p.Pieces[1]
	if p.PieceIndex("q1") != 1 || p.PieceIndex("x") != -1 || q.PointIndex("p2") != 1 || q.PointIndex("x") != -1 || q.EdgeIndex("e4") != 3 || q.EdgeIndex("x") != -1 {
		t.Error("an ID is found in the wrong place")
	}
	if o, ok := q.Printed("40"); !ok || o.Size != "40" {
		t.Error("a printed size is not found")
	}
	if _, ok := q.Printed("42"); ok {
		t.Error("a size was found that is not printed")
	}
	if q.Copies() != 1 || (model.Piece{Cut: 2}).Copies() != 2 {
		t.Error("the number to cut is wrong")
	}
	changed := p.WithPiece(1, func(q model.Piece) model.Piece {
		q.Name = "Yoke"
		return q
	})
	if changed.Pieces[1].Name != "Yoke" || p.Pieces[1].Name != "Back bodice" || &changed.Pieces[0] == &p.Pieces[0] {
		t.Error("an edit reached the pattern it came from")
	}
}
