package grading_test

import (
	"math"
	"strings"
	"testing"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// A cap made too full by hand: each remedy that is offered, taken, leaves the
// seam within what is wanted, and its figure is what the piece then gives.
func TestRemediesWork(t *testing.T) {
	p := linkedDemo(t, "blouse")
	for k := range p.Links {
		p.Links[k].Refit = model.NoRefit
	}
	p.Target.Place = 8
	p = p.WithPiece(p.PieceIndex("sleeve"), func(q model.Piece) model.Piece {
		q.Hand.Moves = []model.PointMove{{Point: "crown", By: geom.Vec{Y: -9}}}
		return q
	})
	p = p.WithPiece(p.PieceIndex("cuff"), func(q model.Piece) model.Piece {
		q.Hand.Moves = []model.PointMove{{Point: "upper-right", By: geom.Vec{X: 7}}}
		return q
	})
	var g grading.Grader
	r, err := g.Grade(p)
	if err != nil {
		t.Fatal(err)
	}
	for id, wants := range map[string][]string{
		"cap":  {"Lower the cap ", "Narrow by ", "Lower "},
		"cuff": {"Shorten the cuff ", "Move the upper left ", "Move the upper right "},
	} {
		k := linkIndex(p, id)
		all := grading.Remedies(p, r, p.Links[k])
		if len(all) != len(wants) {
			t.Errorf("%s: offered %+v", id, all)
			continue
		}
		for i, m := range all {
			if !strings.HasPrefix(m.Say, wants[i]) || m.By == 0 {
				t.Errorf("%s: offered %q, want %q", id, m.Say, wants[i])
			}
			q := p
			q.Links = append([]model.Link(nil), p.Links...)
			q.Links[k].Refit = m.Refit
			r, err := g.Grade(q)
			if err != nil {
				t.Fatal(err)
			}
			for _, s := range r.Seams {
				if s.Link == id && (math.Abs(s.Off()) > 0.01 || s.Why != "") {
					t.Errorf("%s: after %q it is %.3f mm off (%s)", id, m.Say, s.Off(), s.Why)
				}
			}
		}
	}
	p.Target.Place = 2 // printed, where the sides are as drafted
	if r, err = g.Grade(p); err != nil {
		t.Fatal(err)
	}
	if all := grading.Remedies(p, r, p.Links[linkIndex(p, "sides")]); len(all) != 0 {
		t.Errorf("a seam that fits is offered %+v", all)
	}
}
