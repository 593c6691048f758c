package dart_test

import (
	"math"
	"testing"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// ingalls is the measures of a fitted front lining, in inches: what the book
// takes from the wearer. The two sets are ours, the second two sizes up.
type ingalls struct {
	neck, scye, front, wfront, wback, bust, underarm, height, waist float64
}

// draft is the front of C. C. Ingalls, Text-Book on Domestic Art, 1911, French
// Lining Draft (public domain), in mm, as far as its waist dart needs it: points
// 1, 2, 5, 7, 9, 11, 12, 17 and 19 of the book, and the dart's second leg, which
// it places so that the waist line 5 to 12 less the dart is a quarter of the
// waist.
func (m ingalls) draft() (model.Piece, []geom.Path, geom.Point) {
	in := func(x, y float64) geom.Point { return geom.Pt(25.4*x, 25.4*y) }
	top := m.neck/5 + 0.25
	five, twelve := in(0.75, top+m.front), in((m.bust-m.wback)/2, top+m.scye+m.underarm)
	along := twelve.Sub(five).Unit()
	first := five.Add(along.Scale(2.5 * 25.4))
	second := first.Add(along.Scale(five.Dist(twelve) - 25.4*m.waist/4))
	apex := first.Add(geom.Vec{Y: -25.4 * m.height})
	corners := []geom.Point{five, in(0, top), in(2.5, 0), in(m.wfront/2, top-1), in((m.bust-m.wback)/2, top+m.scye), twelve, second, first}
	names := []string{"centre", "neck", "shoulder", "armhole", "side", "waist outside", "dart", "waist inside"}
	q := model.Piece{ID: "front", Name: "Front lining"}
	var edges []geom.Path
	for i, c := range corners {
		q.Points = append(q.Points, model.GradePoint{ID: names[i]})
		q.Edges = append(q.Edges, model.Edge{ID: names[i]})
		edges = append(edges, geom.Polyline(c, corners[(i+1)%len(corners)]))
	}
	q.Edges[0].Kind = model.Centre
	q.Nest = []model.Outline{{Size: "34", Edges: edges}}
	q.Darts = []model.Dart{{ID: "d", Name: "waist dart", From: "dart", To: "waist inside", Apex: []model.SizedPoint{{At: apex}}}}
	return q, edges, apex
}

// The book's waist line less its dart is a quarter of the waist: so long is the
// seam across the closed dart. The dart's widths and the length of its second
// leg are computed from the book's steps by hand: 10 less 6 5/8 in, 10.7507 less
// 7 in; its legs are 6 1/2 in and what the waist line's slope makes of the other.
func TestPublishedWaistDart(t *testing.T) {
	const inch = 25.4
	for _, c := range []struct {
		m       ingalls
		takesUp float64
	}{
		{ingalls{12.5, 7, 14.5, 13, 12.5, 34, 7.5, 6.5, 26.5}, 3.375},
		{ingalls{13, 7.125, 14.75, 13.5, 13, 36, 7.5, 6.5, 28}, 3.750727},
	} {
		q, edges, apex := c.m.draft()
		d := read(t, q)
		near(t, "take-up", d.TakeUp(edges), c.takesUp*inch, 1e-4)
		closed, err := d.Close(edges)
		if err != nil {
			t.Fatal(err)
		}
		across := closed.Before.Start().Dist(closed.Before.End()) + closed.After.Start().Dist(closed.After.End())
		near(t, "waist across the closed dart", across, c.m.waist/4*inch, 1e-9)
		if !closed.Before.IsStraight(1e-9) || closed.Moves[0] != geom.Identity() {
			t.Error("the waist was bent, or the centre front turned")
		}

		rise := (c.m.scye + c.m.underarm - c.m.front) / (edges[5].Start().Dist(edges[0].Start()) / inch) // of the waist line, towards the side
		second := inch * math.Sqrt(c.takesUp*c.takesUp+6.5*6.5+2*c.takesUp*6.5*rise)
		near(t, "step at the closed dart", closed.Step, second-6.5*inch, 1e-3)
		got, err := d.True(edges)
		if err != nil {
			t.Fatal(err)
		}
		for _, k := range []int{d.From, d.To} {
			near(t, "trued leg", got[k].Start().Dist(apex), (second+6.5*inch)/2, 1e-3)
		}
		kink, _ := d.Kink(got)
		near(t, "kink once trued", kink, 0, 0.1)
	}
}
