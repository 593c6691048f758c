package edit_test

import (
	"math"
	"strings"
	"testing"

	"quarterstep/app/edit"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
)

func linkedBlouse(t *testing.T) model.Pattern {
	t.Helper()
	c, _ := sizechart.ByID("en13402-women")
	p, err := draft.Blouse(c, []string{"34", "36", "38", "40"})
	if err != nil {
		t.Fatal(err)
	}
	p.Target.Place = 8
	return p
}

func done(t *testing.T, p model.Pattern, f func(model.Pattern) (model.Pattern, error)) model.Pattern {
	t.Helper()
	out, err := f(p)
	if err != nil {
		t.Fatal(err)
	}
	if err := out.Validate(); err != nil {
		t.Fatal(err)
	}
	return out
}

func TestLinkAndUnlink(t *testing.T) {
	p := linkedBlouse(t)
	n := len(p.Links)
	side := model.Stretch{Piece: "front", Edges: []string{"side-seam"}}
	got := done(t, p, edit.Link(model.Sewn, []model.Stretch{{Piece: "back", Edges: []string{"side-seam"}}}, side))
	if len(got.Links) != n+1 || len(p.Links) != n {
		t.Fatalf("%d links, and the old pattern has %d", len(got.Links), len(p.Links))
	}
	id := got.Links[n].ID
	got = done(t, got, edit.SetEase(id, 2, 5))
	got = done(t, got, edit.SetRefit(id, model.EndAlong))
	if l := got.Links[n]; l.Ease != 2 || l.Room != 3 || !l.EaseFixed || l.Refit != model.EndAlong {
		t.Errorf("the seam is %+v", l)
	}
	got = done(t, got, edit.EaseAsPrinted(id))
	if l := got.Links[n]; l.EaseFixed || l.Room != 0 {
		t.Errorf("the seam is %+v", l)
	}
	if got = done(t, got, edit.Unlink(id)); len(got.Links) != n {
		t.Errorf("%d links are left", len(got.Links))
	}
	for what, f := range map[string]func(model.Pattern) (model.Pattern, error){
		"with itself":     edit.Link(model.Sewn, []model.Stretch{side}, side),
		"own piece":       edit.Link(model.SameLine, []model.Stretch{side}, model.Stretch{Piece: "front", Edges: []string{"hem"}}),
		"follows another": edit.Link(model.SameLine, []model.Stretch{side}, model.Stretch{Piece: "front-facing", Edges: []string{"neckline"}}),
		"no such link":    edit.Unlink("gone"),
		"only a seam":     edit.SetEase("front-neckline", 1, 2),
		"more than":       edit.SetEase("cap", 5, 2),
	} {
		if _, err := f(p); err == nil || !strings.Contains(err.Error(), what) {
			t.Errorf("%s: %v", what, err)
		}
	}
}

// Taken by its facing, the neckline moves on the front, by as much and the same
// way as seen on the facing, and the facing's corner comes to where it was put.
func TestAFollowersCorrectionMovesItsLeader(t *testing.T) {
	p := linkedBlouse(t)
	turned := p.PieceIndex("front-facing")
	lay := geom.Translate(geom.Vec{X: 80, Y: 20}).Mul(geom.Rotate(0.7))
	p = p.WithPiece(turned, func(q model.Piece) model.Piece { return turnPiece(q, lay) })
	var g grading.Grader
	r, err := g.Grade(p)
	if err != nil {
		t.Fatal(err)
	}
	corner := func(r grading.Result, piece, point string) geom.Point {
		i := p.PieceIndex(piece)
		return r.Pieces[i].Edges[p.Pieces[i].PointIndex(point)].Start()
	}
	i := p.PieceIndex("front-facing")
	facing := p.Pieces[i]
	point := facing.Points[facing.EdgeIndex("shoulder")].ID
	lead, ok, err := edit.LeaderOf(p, r, edit.Spot{Piece: "front-facing", Point: point})
	if err != nil || !ok || lead.Piece != "front" || lead.Point != "neck-point" {
		t.Fatalf("led by %+v, %v, %v", lead, ok, err)
	}
	by := geom.Vec{X: 3, Y: -5}
	p = done(t, p, lead.Move(by))
	after, err := g.Grade(p)
	if err != nil {
		t.Fatal(err)
	}
	if d := corner(after, "front-facing", point).Sub(corner(r, "front-facing", point)).Sub(by).Len(); d > 0.02 {
		t.Errorf("the facing's corner lies %.3f mm from where it was put", d)
	}
	if d := corner(after, "front", "neck-point").Sub(corner(r, "front", "neck-point")).Len(); math.Abs(d-by.Len()) > 0.01 {
		t.Errorf("the front's moved %.3f mm", d)
	}
	handle, ok, err := edit.LeaderOf(p, r, edit.Spot{Piece: "front-facing", Edge: "neckline", Control: 1})
	if err != nil || !ok || handle.Piece != "front" || handle.Edge != "neckline" {
		t.Errorf("the curve handle is led by %+v, %v, %v", handle, ok, err)
	}
	if _, ok, _ := edit.LeaderOf(p, r, edit.Spot{Piece: "front", Point: "underarm"}); ok {
		t.Error("the front's underarm follows nothing")
	}
}

// turnPiece is q laid elsewhere on the paper, in every size.
func turnPiece(q model.Piece, lay geom.Affine) model.Piece {
	nest := append([]model.Outline(nil), q.Nest...)
	for i := range nest {
		edges := make([]geom.Path, len(nest[i].Edges))
		for j, e := range nest[i].Edges {
			edges[j] = e.Transform(lay)
		}
		nest[i].Edges = edges
	}
	q.Nest, q.Lines, q.Notches, q.Darts = nest, nil, nil, nil
	return q
}
