package match

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/model"
	"quarterstep/model/exchange"
	"quarterstep/model/geom"
)

// turned is a sheet taken through m, with a grain line on every piece that was
// drawn straight down before.
func turned(s exchange.Sheet, m geom.Affine) exchange.Sheet {
	var out exchange.Sheet
	for _, p := range s.Pieces {
		q := exchange.RawPiece{Name: p.Name}
		for _, o := range p.Outlines {
			q.Outlines = append(q.Outlines, exchange.RawOutline{Size: o.Size, Ring: o.Ring.Transform(m)})
		}
		mid := p.Outlines[0].Ring.Bounds().Centre()
		grain := geom.Polyline(mid, mid.Add(geom.Vec{Y: 100})).Transform(m)
		q.Lines = []exchange.RawLine{{Kind: model.Grain, Path: grain, Name: "grain"}}
		out.Pieces = append(out.Pieces, q)
	}
	return out
}

// TestHowItLiesDoesNotMatter: turned, shifted and mirrored nests give the same
// grade points at the same places of the cloth, with the same names, on their
// head too.
func TestHowItLiesDoesNotMatter(t *testing.T) {
	s := readSheet(t, "blouse-eu-36-42.svg", euChart())
	s.Pieces = []exchange.RawPiece{s.Pieces[0], s.Pieces[3]}
	for i := range s.Pieces {
		s.Pieces[i].Outlines = s.Pieces[i].Outlines[:3]
	}
	plain, _ := matched(t, turned(s, geom.Identity()), euChart())
	rapid.Check(t, func(t *rapid.T) {
		m := geom.Translate(geom.Vec{X: rapid.Float64Range(-3000, 3000).Draw(t, "x"), Y: rapid.Float64Range(-3000, 3000).Draw(t, "y")}).
			Mul(geom.Rotate(rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "angle")))
		mirror := rapid.Bool().Draw(t, "mirror")
		if mirror {
			m = m.Mul(geom.ScaleXY(-1, 1))
		}
		pieces, doubts, err := Pieces(turned(s, m), euChart())
		if err != nil || len(doubts) > 0 {
			t.Fatalf("%v, doubts %+v", err, doubts)
		}
		for i, q := range pieces {
			n := len(q.Points)
			if n != len(plain[i].Points) {
				t.Fatalf("%s has %d points, want %d", q.Name, n, len(plain[i].Points))
			}
			for k := range q.Points {
				twin := k // the same point before: mirrored, they run the other way
				if mirror {
					twin = (n - k) % n
				}
				for j, o := range q.Nest {
					was := m.Apply(plain[i].Nest[j].Edges[twin].Start())
					if d := o.Edges[k].Start().Dist(was); d > 1e-6 {
						t.Fatalf("%s, size %s: point %d is %g mm off", q.Name, o.Size, k+1, d)
					}
				}
				if q.Name != "Sleeve" && q.Points[k].Name != plain[i].Points[twin].Name {
					t.Fatalf("%s: %q is called %q", q.Name, plain[i].Points[twin].Name, q.Points[k].Name)
				}
			}
		}
	})
}

// TestRegularPolygons: any regular polygon with sides straight has its corners,
// in any size, and turns by 360/n degrees at each (closed form).
func TestRegularPolygons(t *testing.T) {
	for n := 3; n <= 12; n++ {
		raw := exchange.RawPiece{Name: "Pocket"}
		for i, size := range []string{"36", "38", "40"} {
			var pts []geom.Point
			for k := range n + 1 {
				sin, cos := math.Sincos(2*math.Pi*float64(k%n)/float64(n) + 0.2)
				r := 100 + 5*float64(i)
				pts = append(pts, geom.Pt(200+r*cos, 200+r*sin))
			}
			ring := geom.Polyline(pts...)
			r, err := newRing(exchange.RawOutline{Size: size, Ring: ring})
			if err != nil {
				t.Fatal(err)
			}
			if got := r.jump(1) * 180 / math.Pi; math.Abs(got-360/float64(n)) > 1e-9 {
				t.Errorf("%d sides: turn %g degrees", n, got)
			}
			raw.Outlines = append(raw.Outlines, exchange.RawOutline{Size: size, Ring: ring})
		}
		pieces, _ := matched(t, exchange.Sheet{Pieces: []exchange.RawPiece{raw}}, euChart())
		if got := len(pieces[0].Points); got != n {
			t.Errorf("%d sides: %d grade points", n, got)
		}
	}
}
