package girth_test

import (
	"testing"

	"quarterstep/model"
	"quarterstep/model/geom"
)

func dartLine(id string, pts ...geom.Point) model.Line {
	return model.Line{ID: id, Name: "waist dart", Kind: model.DartLine, Drawn: []model.SizedPath{{Path: geom.Polyline(pts...)}}}
}

// A dart takes up what lies between its legs at the level: 24 mm at the waist
// of a diamond 12 mm to either side, half of it half way up. Closed form.
func TestDartsInsideThePiece(t *testing.T) {
	top, right, low, left := geom.Pt(100, 300), geom.Pt(112, 420), geom.Pt(100, 540), geom.Pt(88, 420)
	half := dartLine("half", geom.Pt(100, 200), geom.Pt(112, 360), geom.Pt(100, 520))
	for _, c := range []struct {
		name        string
		lines       []model.Line
		waist, bust float64
	}{
		{"diamond", []model.Line{dartLine("d", top, right, low, left, top)}, 24, 0},
		{"two halves", []model.Line{dartLine("a", top, right, low), dartLine("b", top, left, low)}, 24, 0},
		{"drawn twice", []model.Line{dartLine("a", top, right, low, left, top), dartLine("b", top, right, low, left, top)}, 24, 0},
		{"two darts", []model.Line{
			dartLine("a", top, right, low, left, top),
			dartLine("b", geom.Pt(150, 360), geom.Pt(155, 420), geom.Pt(150, 480), geom.Pt(145, 420), geom.Pt(150, 360)),
		}, 34, 0},
		{"a V", []model.Line{dartLine("v", geom.Pt(90, 440), geom.Pt(100, 340), geom.Pt(110, 440))}, 16, 0},
		{"a V of two lines", []model.Line{dartLine("a", geom.Pt(90, 440), geom.Pt(100, 340)), dartLine("b", geom.Pt(100, 340), geom.Pt(110, 440))}, 16, 0},
		{"a lone line", []model.Line{dartLine("l", geom.Pt(100, 340), geom.Pt(100, 500))}, 0, 0},
		{"one side only", []model.Line{half}, 0, 0},
		{"at the bust", []model.Line{dartLine("d", geom.Pt(100, 120), geom.Pt(105, 220), geom.Pt(100, 320), geom.Pt(95, 220), geom.Pt(100, 120))}, 0, 10},
	} {
		p := pattern(in34("f", "Front", 230, 190, 240))
		p.Pieces[0].Lines = c.lines
		got, missing := measured(t, p)
		if len(missing) > 0 {
			t.Fatalf("%s: %v", c.name, missing)
		}
		near(t, c.name+" at the waist", got[model.Waist].Finished, 2*(190-c.waist), within)
		near(t, c.name+" at the bust", got[model.Bust].Finished, 2*(230-c.bust), within)
		near(t, c.name+", dart", got[model.Waist].Parts[0].Darts, c.waist, within)
	}
}

// sideDart is a block with a dart from its side, legs at y 280 and 310, its cap
// 9 mm out. The cap may start anywhere in the list of edges.
func sideDart(turn int) model.Piece {
	q := in34("f", "Front", 230, 190, 240)
	pts := []geom.Point{
		{X: 0, Y: 20},
		{X: 60, Y: 0},
		{X: 160, Y: 40},
		{X: 230, Y: 220},
		{X: 218, Y: 280},
		{X: 224, Y: 295},
		{X: 212, Y: 310},
		{X: 190, Y: 420},
		{X: 240, Y: 620},
		{X: 240, Y: 700},
		{X: 0, Y: 700},
	}
	names := []string{"centre neck", "neck point", "shoulder tip", "underarm", "upper leg", "peak", "lower leg", "side waist", "side hip", "side hem", "centre hem"}
	q.Points, q.Edges = nil, nil
	var edges []geom.Path
	for i := range pts {
		k := (i + turn) % len(pts)
		q.Points = append(q.Points, model.GradePoint{ID: names[k], Name: names[k]})
		e := model.Edge{ID: names[k], Name: names[k] + " onwards"}
		if names[k] == "centre hem" {
			e.Kind = model.Fold
		}
		q.Edges = append(q.Edges, e)
		edges = append(edges, geom.Polyline(pts[k], pts[(k+1)%len(pts)]))
	}
	q.Nest = []model.Outline{{Size: "34", Edges: edges}}
	q.Darts = []model.Dart{{ID: "d", Name: "bust dart", From: "upper leg", To: "lower leg", Apex: []model.SizedPoint{{At: geom.Pt(110, 295)}}}}
	return q
}

// A dart from the side takes up length, not girth: at its height the side is
// where its two legs meet, 215 mm half way between them. Closed form.
func TestSideDartTakesUpNoGirth(t *testing.T) {
	for turn := range 11 {
		p := pattern(sideDart(turn))
		p.Pieces[0].Lines = []model.Line{level(model.BustLine, 295)}
		got, missing := measured(t, p)
		if len(missing) > 0 {
			t.Fatal(missing)
		}
		near(t, "bust", got[model.Bust].Finished, 2*215, within)
	}
}

// skirt is a quarter skirt, its waist curved down to the centre, with a dart of
// 30 mm in its waist seam.
func skirt() model.Piece {
	q := model.Piece{ID: "s", Name: "Skirt front", Cut: 1}
	pts := []geom.Point{{X: 0, Y: 12}, {X: 90, Y: 9}, {X: 105, Y: 8}, {X: 120, Y: 7}, {X: 210, Y: 0}, {X: 240, Y: 200}, {X: 250, Y: 600}, {X: 0, Y: 610}}
	var edges []geom.Path
	for i, name := range []string{"waistline", "dart", "dart 2", "waistline 2", "side seam", "side seam 2", "hem", "centre"} {
		q.Points = append(q.Points, model.GradePoint{ID: name, Name: map[int]string{0: "centre waist", 4: "side waist", 5: "side hip"}[i]})
		q.Edges = append(q.Edges, model.Edge{ID: name, Name: name})
		edges = append(edges, geom.Polyline(pts[i], pts[(i+1)%len(pts)]))
	}
	q.Edges[7].Kind = model.Fold
	q.Nest = []model.Outline{{Size: "34", Edges: edges}}
	q.Darts = []model.Dart{{ID: "d", Name: "dart", From: "dart", To: "waistline 2", Apex: []model.SizedPoint{{At: geom.Pt(105, 100)}}}}
	return q
}

// A skirt's waist is as long as its waist seam, darts closed. Closed form:
// Pythagoras over its two straight stretches.
func TestWaistSeamOfASkirt(t *testing.T) {
	a, b := geom.Pt(0, 12).Dist(geom.Pt(90, 9)), geom.Pt(120, 7).Dist(geom.Pt(210, 0))
	open := geom.Pt(90, 9).Dist(geom.Pt(120, 7))
	got, missing := measured(t, pattern(skirt()))
	near(t, "waist", got[model.Waist].Finished, 2*(a+b), within)
	near(t, "dart", got[model.Waist].Parts[0].Darts, open, within)
	near(t, "hip", got[model.Hip].Finished, 2*240, within)
	if len(missing) != 1 || missing[0].Measure != model.Bust {
		t.Errorf("a skirt lacks the bust only: %v", missing)
	}

	// The same dart drawn only, up to the seam.
	q := skirt()
	q.Darts = nil
	q.Edges[1].Name, q.Edges[2].Name = "waistline 3", "waistline 4"
	edges := append([]geom.Path(nil), q.Nest[0].Edges...)
	edges[0] = geom.Polyline(geom.Pt(0, 12), geom.Pt(120, 7))
	edges[1] = geom.Polyline(geom.Pt(120, 7), geom.Pt(150, 5))
	edges[2] = geom.Polyline(geom.Pt(150, 5), geom.Pt(180, 3))
	edges[3] = geom.Polyline(geom.Pt(180, 3), geom.Pt(210, 0))
	q.Nest = []model.Outline{{Size: "34", Edges: edges}}
	on := geom.Polyline(geom.Pt(0, 12), geom.Pt(120, 7))[0]
	from, to := on.At(0.4), on.At(0.6)
	q.Lines = []model.Line{dartLine("v", from, geom.Pt(60, 100), to)}
	var whole float64
	for _, e := range edges[:4] {
		whole += e.Start().Dist(e.End())
	}
	got, _ = measured(t, pattern(q))
	near(t, "waist with a drawn dart", got[model.Waist].Finished, 2*(whole-from.Dist(to)), within)
}

// A dress: the waist is taken on its bodice, the hip on its skirt.
func TestDressTakesItsWaistOnceAndItsHipBelow(t *testing.T) {
	bodice := in34("f", "Bodice front", 230, 190, 240)
	got, missing := measured(t, pattern(bodice, skirt()))
	if len(missing) > 0 {
		t.Fatal(missing)
	}
	for m, want := range map[model.Measure]string{model.Bust: "f", model.Waist: "f", model.Hip: "s"} {
		if parts := got[m].Parts; len(parts) != 1 || parts[0].Piece != want {
			t.Errorf("%s: %+v", m, parts)
		}
	}
	// A top that ends above the waist leaves it to the skirt.
	bodice.Points[4].Name = "corner"
	got, _ = measured(t, pattern(bodice, skirt()))
	if parts := got[model.Waist].Parts; len(parts) != 1 || parts[0].Piece != "s" {
		t.Errorf("waist: %+v", parts)
	}
}
