package check_test

import (
	"math"
	"testing"

	"quarterstep/grading"
	"quarterstep/grading/seam"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// What is marked of a seam that does not fit is the line between the two marks that
// are furthest off, whichever way the seam is walked: both its ends lie on a notch or
// a grade point that the seam walk names, and the ends of the walk are not both among
// them.
func TestTheWorstStretchOfASeamIsMarked(t *testing.T) {
	for _, turned := range []bool{false, true} {
		p := blouseAt(5)(t)
		p, err := setLink("cap", func(l *model.Link) {
			l.Ease, l.Room = 5, 5
			if turned {
				*l = backwards(*l)
			}
		})(p)
		if err != nil {
			t.Fatal(err)
		}
		var g grading.Grader
		r, err := g.Grade(p)
		if err != nil {
			t.Fatal(err)
		}
		f := one(t, found(t, p), "seam")
		if len(f.Along) == 0 {
			t.Fatalf("turned %v: the whole seam is marked", turned)
		}
		k := p.Links[linkAt(p, "cap")]
		w, err := grading.Walk(p, r, k)
		if err != nil {
			t.Fatal(err)
		}
		worst := w.Parts[0]
		for _, part := range w.Parts {
			if math.Abs(part.Over()) > math.Abs(worst.Over()) {
				worst = part
			}
		}
		first, last := f.Along[0].Line.Start(), f.Along[len(f.Along)-1].Line.End()
		const near = 0.05 // mm
		if a := markOn(p, r, worst.From.Follow); a.Dist(first) > near {
			t.Errorf("turned %v: the stretch begins %.2f mm off the mark %+v", turned, a.Dist(first), worst.From.Follow)
		}
		if b := markOn(p, r, worst.To.Follow); b.Dist(last) > near {
			t.Errorf("turned %v: the stretch ends %.2f mm off the mark %+v", turned, b.Dist(last), worst.To.Follow)
		}
		var long float64
		for _, b := range f.Along {
			l, err := b.Line.Length(0.01)
			if err != nil {
				t.Fatal(err)
			}
			long += l
		}
		if long > 0.6*w.Follow.Length {
			t.Errorf("turned %v: %.0f of %.0f mm are marked", turned, long, w.Follow.Length)
		}
		on := r.Pieces[p.PieceIndex(f.Piece)]
		e := p.Pieces[p.PieceIndex(f.Piece)].EdgeIndex(f.Edge)
		if _, _, d := on.Edges[e].Nearest(f.Where, 0.01); d > near {
			t.Errorf("turned %v: its place lies %.2f mm off its edge", turned, d)
		}
	}
}

// backwards is the same link walked from its other end.
func backwards(l model.Link) model.Link {
	turn := func(s model.Stretch) model.Stretch {
		out := model.Stretch{Piece: s.Piece, Reverse: !s.Reverse}
		for i := range s.Edges {
			out.Edges = append(out.Edges, s.Edges[len(s.Edges)-1-i])
		}
		return out
	}
	leads := l.Leads()
	l.Follow, l.Lead, l.And = turn(l.Follow), turn(leads[len(leads)-1]), nil
	for i := len(leads) - 2; i >= 0; i-- {
		l.And = append(l.And, turn(leads[i]))
	}
	return l
}

func linkAt(p model.Pattern, id string) int {
	for i, l := range p.Links {
		if l.ID == id {
			return i
		}
	}
	return -1
}

// markOn is where a mark of a seam lies on its piece as graded.
func markOn(p model.Pattern, r grading.Result, m seam.Mark) geom.Point {
	i := p.PieceIndex(m.Piece)
	if m.Kind == seam.Notch {
		return r.Pieces[i].Notches[m.Index].At
	}
	for k, g := range p.Pieces[i].Points {
		if g.ID == m.Point {
			return r.Pieces[i].Edges[k].Start()
		}
	}
	return geom.Point{}
}
