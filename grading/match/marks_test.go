package match

import (
	"math"
	"slices"
	"testing"

	"quarterstep/model"
	"quarterstep/model/exchange"
	"quarterstep/model/geom"
)

func rawBack() exchange.RawPiece {
	return exchange.RawPiece{Name: "Back, cut 1 on the fold", Outlines: []exchange.RawOutline{body("36", 0), body("38", 10), body("40", 20)}}
}

func line(kind model.LineKind, size, name string, pts ...geom.Point) exchange.RawLine {
	return exchange.RawLine{Kind: kind, Size: size, Name: name, Path: geom.Polyline(pts...)}
}

func TestLinesAreGatheredOverSizes(t *testing.T) {
	raw := rawBack()
	raw.Lines = []exchange.RawLine{
		line(model.Grain, "", "grain", geom.Pt(50, 100), geom.Pt(50, 500)),
		line(model.DartLine, "36", "waist dart", geom.Pt(90, 300), geom.Pt(100, 380), geom.Pt(90, 460)),
		line(model.DartLine, "38", "Waist dart", geom.Pt(95, 460), geom.Pt(105, 380), geom.Pt(95, 300)), // drawn the other way
		line(model.Lengthen, "36", "lengthen", geom.Pt(0, 250), geom.Pt(220, 250)),
		line(model.Lengthen, "36", "lengthen", geom.Pt(0, 252), geom.Pt(220, 252)),
		line(model.Lengthen, "38", "lengthen", geom.Pt(0, 251), geom.Pt(230, 251)),
		line(model.Lengthen, "38", "lengthen", geom.Pt(0, 253), geom.Pt(230, 253)),
	}
	pieces, _ := matched(t, oneSheet(raw), euChart())
	lines := pieces[0].Lines
	if len(lines) != 4 {
		t.Fatalf("%d lines, want grain, dart and the two of the double line: %+v", len(lines), lines)
	}
	dart := lines[1]
	if dart.Kind != model.DartLine || len(dart.Drawn) != 2 || dart.Drawn[1].Path.Start() != geom.Pt(95, 300) {
		t.Errorf("dart %+v", dart)
	}
	for i, l := range lines[2:] {
		if len(l.Drawn) != 2 || l.Drawn[1].Path.Start().Y != 251+2*float64(i) {
			t.Errorf("lengthen line %d: %+v", i, l.Drawn)
		}
	}
}

func TestNotches(t *testing.T) {
	raw := rawBack()
	for i, o := range raw.Outlines {
		a, b := o.Ring[2].P0, o.Ring[2].P3 // armhole: shoulder tip to underarm
		in := b.Sub(a).Unit().Perp().Scale(5)
		at := func(s float64) geom.Point { return a.Add(b.Sub(a).Unit().Scale(s)) }
		tick := func(s float64) exchange.RawLine {
			return line(exchange.Notch, o.Size, "notch", at(s).Add(in.Scale(-1)), at(s).Add(in))
		}
		inside := line(exchange.Notch, o.Size, "notch", at(60).Add(in.Scale(0.2)), at(60).Add(in))
		raw.Lines = append(raw.Lines, tick(100+float64(i)), tick(106+float64(i)), inside)
	}
	raw.Lines = append(raw.Lines, line(exchange.Notch, "36", "notch", geom.Pt(100, 300), geom.Pt(100, 310)))
	pieces, doubts := matched(t, oneSheet(raw), euChart())
	onlyDoubt(t, doubts, "36", "A notch lies off the cutting line")
	notches := pieces[0].Notches
	if len(notches) != 2 {
		t.Fatalf("%d notches, want a single and a double one: %+v", len(notches), notches)
	}
	for i, want := range []struct {
		s      float64
		double bool
	}{{60, false}, {103, true}} {
		m := notches[i]
		if m.Edge != "e3" || m.Double != want.double || len(m.Spots) != 3 {
			t.Errorf("notch %d: %+v", i, m)
			continue
		}
		for j, sp := range m.Spots {
			s := want.s
			if m.Double {
				s += float64(j)
			}
			if math.Abs(sp.S-s) > 1e-3 || sp.Size != pieces[0].Nest[j].Size {
				t.Errorf("notch %d at %+v, want %g mm", i, sp, s)
			}
		}
	}
}

// TestLevels: a hip line away from a corner gives a match point on the curved
// side; a waist line at the waist corner gives none, nor does either on the
// straight centre line, which must stay straight. A line drawn short of the
// cutting line counts.
func TestLevels(t *testing.T) {
	raw := rawBack()
	for i, o := range raw.Outlines {
		side := o.Ring[4] // from the waist to the hem
		side.P1 = side.P0.Add(geom.Vec{X: 30, Y: 60})
		side.P2 = side.P3.Add(geom.Vec{X: 12, Y: -60})
		ring := slices.Clone(o.Ring)
		ring[4] = side
		raw.Outlines[i].Ring = ring
	}
	raw.Lines = []exchange.RawLine{
		line(model.HipLine, "36", "hip", geom.Pt(10, 520), geom.Pt(220, 520)),
		line(model.HipLine, "40", "hip", geom.Pt(10, 524), geom.Pt(260, 524)),
		line(model.WaistLine, "", "waist", geom.Pt(5, 402), geom.Pt(190, 402)),
	}
	pieces, doubts := matched(t, oneSheet(raw), euChart())
	q := pieces[0]
	if len(doubts) > 0 || len(q.Points) != 8 || q.Points[5].Name != "hip line" || !q.Points[5].Smooth {
		t.Fatalf("points %+v, doubts %+v", q.Points, doubts)
	}
	for j, y := range []float64{520, 522, 524} { // size 38 has no line: the share of the edge between
		if p := q.Nest[j].Edges[5].Start(); math.Abs(p.Y-y) > 2.1 {
			t.Errorf("size %s: hip line at %v", q.Nest[j].Size, p)
		}
	}
	if p := q.Nest[0].Edges[5].Start(); math.Abs(p.Y-520) > 1e-3 {
		t.Errorf("size 36: hip line at %v", p)
	}
	_, edges := namesOf(q)
	if want := "neckline, shoulder, armhole, side seam above waist, side seam below waist, side seam below waist 2, hem (hem), centre back (fold)"; edges != want {
		t.Errorf("edges %s", edges)
	}
}

func TestFoldsAndCut(t *testing.T) {
	pieces, _ := matched(t, oneSheet(rawBack()), euChart())
	_, edges := namesOf(pieces[0])
	if want := "neckline, shoulder, armhole, side seam above waist, side seam below waist, hem (hem), centre back (fold)"; edges != want || pieces[0].Cut != 1 {
		t.Errorf("cut %d, edges %s", pieces[0].Cut, edges)
	}
	raw := rawBack()
	raw.Name = "Front, cut 2"
	raw.Lines = []exchange.RawLine{line(model.FoldLine, "38", "fold", geom.Pt(1, 100), geom.Pt(1, 500))}
	pieces, _ = matched(t, oneSheet(raw), euChart())
	if q := pieces[0]; q.Cut != 2 || q.Edges[6].Kind != model.Fold || q.Edges[6].Name != "centre front" {
		t.Errorf("cut %d, last edge %+v", q.Cut, q.Edges[6])
	}
}

// TestOtherPieces: names where the shape is plain, numbers where it is not.
// Which edge of a skirt or a cuff is which is common practice.
func TestOtherPieces(t *testing.T) {
	for _, c := range []struct {
		name string
		pts  func(g float64) []geom.Point
		want string
	}{
		{"Skirt front", func(g float64) []geom.Point {
			return []geom.Point{{X: 0, Y: 10}, {X: 170 + g, Y: 0}, {X: 220 + g, Y: 200}, {X: 230 + g, Y: 600}, {X: 0, Y: 600}}
		}, "waistline, side seam, side seam 2, hem (hem), centre front (centre)"},
		{"Cuff", func(g float64) []geom.Point {
			return []geom.Point{{X: 0, Y: 0}, {X: 230 + g, Y: 0}, {X: 230 + g, Y: 60}, {X: 0, Y: 60}}
		}, "edge 1, edge 2, edge 3, edge 4"},
		{"Yoke", func(g float64) []geom.Point {
			return []geom.Point{{X: 0, Y: 20}, {X: 70, Y: 0}, {X: 180 + g, Y: 30}, {X: 180 + g, Y: 100}, {X: 0, Y: 100}}
		}, "edge 1, edge 2, edge 3, hem (hem), centre (centre)"},
	} {
		raw := exchange.RawPiece{Name: c.name}
		for i, size := range []string{"36", "38", "40"} {
			raw.Outlines = append(raw.Outlines, body(size, 0, c.pts(10*float64(i))...))
		}
		pieces, _ := matched(t, oneSheet(raw), euChart())
		if _, edges := namesOf(pieces[0]); edges != c.want {
			t.Errorf("%s: %s", c.name, edges)
		}
	}
}
