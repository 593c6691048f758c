package match

import (
	"math"
	"strings"
	"testing"

	"quarterstep/model"
	"quarterstep/model/exchange"
	"quarterstep/model/geom"
)

// body is a made-up half bodice: straight sides, corners at pts.
func body(size string, grow float64, pts ...geom.Point) exchange.RawOutline {
	if len(pts) == 0 {
		pts = []geom.Point{{X: 0, Y: 30}, {X: 70, Y: 0}, {X: 180 + grow, Y: 40}, {X: 230 + 2*grow, Y: 210}, {X: 200 + 2*grow, Y: 400}, {X: 240 + 2*grow, Y: 600}, {X: 0, Y: 600}}
	}
	return exchange.RawOutline{Size: size, Ring: geom.Polyline(append(pts, pts[0])...)}
}

func oneSheet(p exchange.RawPiece) exchange.Sheet {
	return exchange.Sheet{Pieces: []exchange.RawPiece{p}}
}

func onlyDoubt(t *testing.T, doubts []Doubt, size, say string) Doubt {
	t.Helper()
	if len(doubts) != 1 || doubts[0].Size != size || !strings.Contains(doubts[0].Say, say) {
		t.Fatalf("doubts %+v, want one about size %s: %s", doubts, size, say)
	}
	return doubts[0]
}

func TestOddCornerOfOneSize(t *testing.T) {
	odd := body("40", 20, geom.Pt(0, 30), geom.Pt(70, 0), geom.Pt(200, 40), geom.Pt(270, 210), geom.Pt(240, 400), geom.Pt(280, 600),
		geom.Pt(160, 600), geom.Pt(150, 560), geom.Pt(0, 600))
	pieces, doubts := matched(t, oneSheet(exchange.RawPiece{Name: "Back", Outlines: []exchange.RawOutline{body("36", 0), body("38", 10), odd, body("42", 30)}}), euChart())
	if n := len(pieces[0].Points); n != 7 {
		t.Errorf("%d grade points, want the 7 that all sizes share", n)
	}
	if len(doubts) != 2 {
		t.Fatalf("doubts %+v, want the two odd corners", doubts)
	}
	for _, d := range doubts {
		if d.Size != "40" || d.Piece != "Back" || !strings.Contains(d.Say, "other sizes lack") || d.At.Y < 550 || d.At.X < 100 || d.At.X > 200 {
			t.Errorf("doubt %+v", d)
		}
	}
}

func TestMissingCornerOfOneSize(t *testing.T) {
	flat := body("40", 20, geom.Pt(0, 30), geom.Pt(70, 0), geom.Pt(200, 40), geom.Pt(270, 210), geom.Pt(280, 600), geom.Pt(0, 600))
	pieces, doubts := matched(t, oneSheet(exchange.RawPiece{Name: "Back", Outlines: []exchange.RawOutline{body("36", 0), body("38", 10), flat, body("42", 30)}}), euChart())
	q := pieces[0]
	if len(q.Points) != 7 || q.Points[4].Name != "waist" {
		t.Fatalf("%d grade points, fifth %q", len(q.Points), q.Points[4].Name)
	}
	if p := q.Nest[2].Edges[4].Start(); math.Abs(p.Y-400) > 15 {
		t.Errorf("the waist of size 40 was put at %v", p)
	}
	for _, d := range doubts {
		if d.Size != "40" {
			t.Errorf("doubt about size %s: %s", d.Size, d.Say)
		}
	}
	if len(doubts) == 0 || !strings.Contains(doubts[0].Say, "this one shows none") {
		t.Errorf("doubts %+v", doubts)
	}
}

func TestCornerOutOfStep(t *testing.T) {
	off := body("38", 10, geom.Pt(0, 30), geom.Pt(70, 0), geom.Pt(190, 40), geom.Pt(250, 235), geom.Pt(220, 400), geom.Pt(260, 600), geom.Pt(0, 600))
	_, doubts := matched(t, oneSheet(exchange.RawPiece{Name: "Back", Outlines: []exchange.RawOutline{body("36", 0), off, body("40", 20)}}), euChart())
	d := onlyDoubt(t, doubts, "38", "mm off the line from the size before")
	if d.At.Dist(geom.Pt(250, 235)) > 1 {
		t.Errorf("doubt at %v", d.At)
	}
}

func TestSizesDrawnApart(t *testing.T) {
	raw := exchange.RawPiece{Name: "Back"}
	for i, size := range []string{"36", "38", "40"} {
		o := body(size, 10*float64(i))
		o.Ring = o.Ring.Move(geom.Vec{X: 400 * float64(i), Y: 7 * float64(i)})
		raw.Outlines = append(raw.Outlines, o)
		mark := geom.Polyline(o.Ring.Start().Add(geom.Vec{X: 50, Y: 50}), o.Ring.Start().Add(geom.Vec{X: 50, Y: 350}))
		raw.Lines = append(raw.Lines, exchange.RawLine{Kind: model.Grain, Size: size, Path: mark, Name: "grain"})
	}
	pieces, doubts := matched(t, oneSheet(raw), euChart())
	onlyDoubt(t, doubts, "40", "drawn apart")
	q := pieces[0]
	for j, o := range q.Nest {
		if p := o.Edges[0].Start(); p.Dist(geom.Pt(0, 30)) > 1e-9 {
			t.Errorf("size %s: centre neck at %v", o.Size, p)
		}
		if p := q.Lines[0].Drawn[j].Path.Start(); p.Dist(geom.Pt(50, 80)) > 1e-9 {
			t.Errorf("size %s: grain begins at %v", o.Size, p)
		}
	}
}

// TestFewCorners: pieces with no corner, one, or drawn in one size only are
// allowed and get two grade points at least.
func TestFewCorners(t *testing.T) {
	oval := func(r float64) geom.Path {
		const k = 0.5522847498
		p, c := geom.Path{}, geom.Pt(300, 300)
		for i := range 4 {
			at := func(x, y float64) geom.Point { return geom.Pt(x*r, y*1.5*r) }
			q := geom.Cubic{P0: at(1, 0), P1: at(1, k), P2: at(k, 1), P3: at(0, 1)}
			m := geom.Translate(geom.Vec(c)).Mul(geom.ScaleXY(1, 1.5)).Mul(geom.Rotate(float64(i) * math.Pi / 2)).Mul(geom.ScaleXY(1, 1/1.5))
			p = append(p, q.Transform(m))
		}
		for i := range p {
			p[i].P0 = p[(i+3)%4].P3
		}
		return p
	}
	drop := func(r float64) geom.Path { // one corner, at the top
		return geom.Path{
			{P0: geom.Pt(100, 0), P1: geom.Pt(100+r, r), P2: geom.Pt(100+2*r, 3*r), P3: geom.Pt(100, 3*r)},
			{P0: geom.Pt(100, 3*r), P1: geom.Pt(100-2*r, 3*r), P2: geom.Pt(100-r, r), P3: geom.Pt(100, 0)},
		}
	}
	for _, c := range []struct {
		name  string
		rings []geom.Path
	}{
		{"Oval patch", []geom.Path{oval(50), oval(55), oval(60)}},
		{"Drop", []geom.Path{drop(50), drop(54)}},
		{"One size", []geom.Path{body("", 0).Ring}},
	} {
		raw := exchange.RawPiece{Name: c.name}
		for i, r := range c.rings {
			raw.Outlines = append(raw.Outlines, exchange.RawOutline{Size: []string{"36", "38", "40"}[i], Ring: r})
		}
		pieces, doubts := matched(t, oneSheet(raw), euChart())
		if n := len(pieces[0].Points); n < 2 || len(pieces[0].Nest) != len(c.rings) || len(doubts) > 0 {
			t.Errorf("%s: %d grade points in %d sizes, doubts %+v", c.name, n, len(pieces[0].Nest), doubts)
		}
	}
}
