package girth_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"quarterstep/grading"
	"quarterstep/grading/girth"
	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
)

// within is what package girth promises of a width, mm, twice over two pieces.
const within = 0.04

// Two half blocks on the fold: the girth is twice the sum of their widths.
// Closed form.
func TestGirthOfPlainBlocks(t *testing.T) {
	p := pattern(in34("f", "Front", 230, 190, 240), in34("b", "Back", 225, 185, 250))
	got, missing := measured(t, p)
	if len(missing) != 0 {
		t.Fatal(missing)
	}
	near(t, "bust", got[model.Bust].Finished, 2*(230+225), within)
	near(t, "waist", got[model.Waist].Finished, 2*(190+185), within)
	near(t, "hip", got[model.Hip].Finished, 2*(240+250), within)
	near(t, "bust ease", got[model.Bust].Ease, 110, within)
	if q := got[model.Bust].Parts[1]; q.Piece != "b" || q.Times != 2 || q.Halves || q.Darts != 0 || q.Allowances != 0 {
		t.Errorf("%+v", q)
	}
}

// A line drawn on the piece goes before a grade point: at y 320 the side is
// half way from underarm to waist. A line that tilts counts at its middle.
func TestDrawnLevelGoesFirst(t *testing.T) {
	p := pattern(in34("f", "Front", 230, 190, 240))
	p.Pieces[0].Lines = []model.Line{level(model.BustLine, 320)}
	got, _ := measured(t, p)
	near(t, "bust", got[model.Bust].Finished, 2*210, within)
	tilted := level(model.BustLine, 0)
	tilted.Drawn[0].Path = geom.Polyline(geom.Pt(0, 310), geom.Pt(200, 330))
	p.Pieces[0].Lines[0] = tilted
	got, _ = measured(t, p)
	near(t, "tilted", got[model.Bust].Finished, 2*210, within)
}

// A seam allowance a on a side that leans by an angle takes a / cos(angle) of
// the width, at an underarm corner as elsewhere; on the fold nothing. Closed
// form: the parallel of a straight line.
func TestAllowancesComeOffSquareToTheEdge(t *testing.T) {
	for _, a := range []float64{1, 10, 15.875} {
		p := pattern(in34("f", "Front", 230, 190, 240))
		q := &p.Pieces[0]
		for _, e := range []string{"armhole", "side seam", "side below the waist"} {
			q.Edges[q.EdgeIndex(e)].Allowance = a
		}
		q.Lines = []model.Line{level(model.BustLine, 320)}
		got, missing := measured(t, p)
		if len(missing) != 0 {
			t.Fatal(missing)
		}
		lean := a / math.Cos(math.Atan2(40, 200))
		part := got[model.Bust].Parts[0]
		near(t, "width", part.Width, 210, within)
		near(t, "allowance", part.Allowances, lean, within)
		near(t, "bust", got[model.Bust].Finished, 2*(210-lean), within)

		// At the grade point the level is that of the stitched underarm.
		q.Lines = nil
		got, _ = measured(t, p)
		sewn, err := geom.OffsetOutline(q.Nest[0].Edges, []float64{0, 0, -a, -a, -a, 0, 0, 0}, 1e-4)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "at the stitched underarm", got[model.Bust].Finished, 2*sewn[3].Start().X, within)
	}
}

// A side seam that is a parabola, x = 200 + 30 u (1-u) over its height: at half
// its height 7.5 mm out. Closed form.
func TestCurvedSide(t *testing.T) {
	p := pattern(in34("f", "Front", 200, 200, 240))
	q := &p.Pieces[0]
	edges := append([]geom.Path(nil), q.Nest[0].Edges...)
	edges[3] = geom.Path{{P0: geom.Pt(200, 220), P1: geom.Pt(210, 220+200.0/3), P2: geom.Pt(210, 220+400.0/3), P3: geom.Pt(200, 420)}}
	q.Nest = []model.Outline{{Size: "34", Edges: edges}}
	q.Lines = []model.Line{level(model.BustLine, 320)}
	got, _ := measured(t, p)
	near(t, "bust", got[model.Bust].Finished, 2*207.5, within)
}

// A button stand beyond the centre line lies on the other front and counts for
// nothing: two fronts from centre to side. Closed form.
func TestStandBeyondTheCentreIsLeftOut(t *testing.T) {
	stood := in34("f", "Front", 230, 190, 240)
	edges := append([]geom.Path(nil), stood.Nest[0].Edges...)
	edges[0] = geom.Polyline(geom.Pt(-33, 20), geom.Pt(60, 0))
	edges[6] = geom.Polyline(geom.Pt(240, 700), geom.Pt(-33, 700))
	edges[7] = geom.Polyline(geom.Pt(-33, 700), geom.Pt(-33, 20))
	stood.Nest = []model.Outline{{Size: "34", Edges: edges}}
	stood.Cut = 2
	stood.Lines = []model.Line{{
		ID: "cf", Name: "Centre front", Kind: model.Inner,
		Drawn: []model.SizedPath{{Path: geom.Polyline(geom.Pt(0, 100), geom.Pt(0, 200))}},
	}}
	for _, kind := range []model.EdgeKind{model.Centre, model.Plain} {
		q := stood
		q.Edges = append([]model.Edge(nil), q.Edges...)
		q.Edges[7].Kind, q.Edges[7].Allowance = kind, 15
		got, missing := measured(t, pattern(q))
		if len(missing) > 0 {
			t.Fatal(missing)
		}
		near(t, "bust", got[model.Bust].Finished, 2*230, within)
		near(t, "allowance beyond the centre", got[model.Bust].Parts[0].Allowances, 0, within)

		// Without the line drawn, the edge itself is the end, less its allowance.
		q.Lines = nil
		got, _ = measured(t, pattern(q))
		near(t, "no centre line", got[model.Bust].Finished, 2*(230+33-15), within)
	}
}

// A whole front with its centre line drawn down its middle keeps both halves.
func TestCentreLineInTheMiddleCutsNothingOff(t *testing.T) {
	q := in34("f", "Front", 230, 190, 240)
	q.Edges[7].Kind = model.Plain
	q.Lines = []model.Line{{
		ID: "cf", Name: "Centre front", Kind: model.Inner,
		Drawn: []model.SizedPath{{Path: geom.Polyline(geom.Pt(110, 100), geom.Pt(110, 200))}},
	}}
	got, _ := measured(t, pattern(q))
	near(t, "bust", got[model.Bust].Finished, 230, within)
}

func TestHowOftenAPieceCounts(t *testing.T) {
	for _, c := range []struct {
		name   string
		cut    int
		kind   model.EdgeKind
		times  int
		halves bool
	}{
		{"Front", 1, model.Fold, 2, false},
		{"Front", 2, model.Fold, 4, false},
		{"Front", 2, model.Centre, 2, false},
		{"Front", 1, model.Centre, 2, true},
		{"Front", 0, model.Centre, 2, true},
		{"Left front", 1, model.Centre, 1, false},
		{"Front", 1, model.Plain, 1, false},
		{"Side panel", 2, model.Plain, 2, false},
	} {
		q := in34("f", c.name, 230, 190, 240)
		q.Cut, q.Edges[7].Kind = c.cut, c.kind
		got, _ := measured(t, pattern(q))
		part := got[model.Bust].Parts[0]
		if part.Times != c.times || part.Halves != c.halves {
			t.Errorf("%s cut %d, %q: %+v", c.name, c.cut, c.kind, part)
		}
		near(t, c.name, got[model.Bust].Finished, float64(c.times)*230, within)
	}
}

// Sleeves, facings and the like do not go round the body, whatever is drawn on
// them; nor does a piece that follows another's line.
func TestPiecesThatAreNotCounted(t *testing.T) {
	front := in34("f", "Front", 230, 190, 240)
	for _, name := range []string{
		"Sleeve", "Front facing", "Front neck facing", "Collar stand", "Cuff", "Front pocket", "Back lining",
		"Waistband", "Interfacing of the front", "Hood", "SLEEVES",
	} {
		got, missing := measured(t, pattern(front, in34("x", name, 500, 500, 500)))
		if len(missing) > 0 {
			t.Errorf("%s: %v", name, missing)
		}
		near(t, name, got[model.Bust].Finished, 2*230, within)
	}
	p := pattern(front, in34("x", "Inner front", 500, 500, 500))
	p.Links = []model.Link{{
		ID: "l", Kind: model.SameLine,
		Lead:   model.Stretch{Piece: "f", Edges: []string{"neckline"}},
		Follow: model.Stretch{Piece: "x", Edges: []string{"neckline"}},
	}}
	got, _ := measured(t, p)
	near(t, "follower", got[model.Bust].Finished, 2*230, within)
	p.Links[0].Kind = model.Sewn
	got, _ = measured(t, p)
	near(t, "sewn together", got[model.Bust].Finished, 2*(230+500), within)
}

// What cannot be measured is said, with the piece and why.
func TestWhatIsMissingIsSaid(t *testing.T) {
	plain := func() model.Piece { return in34("f", "Front", 230, 190, 240) }
	unnamed := plain()
	unnamed.Points = append([]model.GradePoint(nil), unnamed.Points...)
	for k := range unnamed.Points {
		unnamed.Points[k].Name = ""
	}
	short := plain()
	short.Lines = []model.Line{level(model.HipLine, 710)}
	short.Points[5].Name = "mark"
	high := plain()
	high.Lines = []model.Line{level(model.BustLine, 10)}
	high.Points[3].Name = "corner"
	narrow := plain()
	narrow.Edges[3].Allowance, narrow.Edges[7].Allowance = 130, 130
	noHip := pattern(plain())
	noHip.Chart.Sizes = []model.ChartSize{{Name: "34", Body: map[model.Measure]float64{model.Bust: 800, model.Waist: 640}}}
	for _, c := range []struct {
		name  string
		p     model.Pattern
		m     model.Measure
		piece string
		why   string
	}{
		{"no level", pattern(plain(), unnamed), model.Bust, "f", "Front has no bust line and no grade point named underarm: draw the one or name the other."},
		{"hem above", pattern(short), model.Hip, "f", "Front does not reach the hip."},
		{"through the neck", pattern(high), model.Bust, "f", "The bust level of Front runs out at its neckline, not at a seam along the body."},
		{"no seam", pattern(narrow), model.Waist, "f", "The seam allowances of Front do not fit into it."},
		{"no measure", noHip, model.Hip, "", "The size chart has no hip for this size."},
		{"no body piece", pattern(in34("s", "Sleeve", 100, 100, 100)), model.Bust, "", "The pattern has no piece that goes round the body at the bust."},
	} {
		got, missing := measured(t, c.p)
		if _, ok := got[c.m]; ok {
			t.Errorf("%s: there is a figure for the %s", c.name, c.m)
		}
		found := false
		for _, x := range missing {
			found = found || x.Measure == c.m && x.Piece == c.piece && x.Why == c.why
		}
		if !found {
			t.Errorf("%s: %q is not in %v", c.name, c.why, missing)
		}
	}
}

func TestPrintedSizesOnly(t *testing.T) {
	both := blockPiece("f", "Front", model.Outline{Size: "34", Edges: block(230, 190, 240)}, model.Outline{Size: "36", Edges: block(240, 200, 250)})
	p := pattern(both, in34("p", "Side panel", 60, 50, 60))
	p.Pieces[1].Gaps = []model.Gap{{Point: "underarm", Across: 3}} // it grows: other sizes of it are not known in print
	girths, missing, err := girth.Printed(p, "36")
	if err != nil || len(girths) != 0 || len(missing) != 3 || missing[0].Size != "36" || !strings.Contains(missing[0].Why, "Side panel was not printed in this size.") {
		t.Errorf("%v %v %v", girths, missing, err)
	}
	p.Pieces[1].Gaps, p.Pieces[1].OneForAll = nil, true
	girths, _, err = girth.Printed(p, "36")
	if err != nil || len(girths) != 3 {
		t.Fatalf("%v %v", girths, err)
	}
	near(t, "bust", girths[0].Finished, 2*(240+60), within)
	near(t, "body", girths[0].Body, 840, 0)
	// Two sizes on one line.
	p.Pieces[0].Nest = []model.Outline{{Size: "34", Also: []string{"36"}, Edges: block(230, 190, 240)}}
	girths, _, err = girth.Printed(p, "36")
	if err != nil || len(girths) != 3 {
		t.Fatalf("%v %v", girths, err)
	}
	near(t, "shared line", girths[0].Finished, 2*(230+60), within)
	if _, _, err = girth.Printed(p, "99"); err == nil {
		t.Error("size 99 is not on the chart")
	}
	if _, _, err = girth.Of(p, grading.Result{}); err == nil {
		t.Error("a result of another pattern was measured")
	}
}

// The wearer's own measurements are the body.
func TestBodyIsTheWearers(t *testing.T) {
	p := pattern(in34("f", "Front", 230, 190, 240))
	p.Target.Body = map[model.Measure]float64{model.Waist: 333}
	got, _, err := girth.Of(p, result(p))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "bust", got[0].Body, 800, 0)
	near(t, "waist", got[1].Body, 333, 0)
	near(t, "waist ease", got[1].Ease, 2*190-333, within)
}

// The girth of a garment is the same however its pieces lie on the paper.
func TestGirthDoesNotCareHowPiecesLie(t *testing.T) {
	chart, ok := sizechart.ByID("en13402-women")
	if !ok {
		t.Fatal("no chart")
	}
	blouse, err := draft.Blouse(chart, []string{"34", "36", "38", "40"})
	if err != nil {
		t.Fatal(err)
	}
	want, _, err := girth.Printed(blouse, "38")
	if err != nil || len(want) != 3 {
		t.Fatalf("%v %v", want, err)
	}
	rapid.Check(t, func(t *rapid.T) {
		p := blouse
		p.Pieces = append([]model.Piece(nil), p.Pieces...)
		for i, q := range p.Pieces {
			m := geom.Translate(geom.Vec{X: rapid.Float64Range(-900, 900).Draw(t, "x"), Y: rapid.Float64Range(-900, 900).Draw(t, "y")}).
				Mul(geom.Rotate(rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "turn")))
			if rapid.Bool().Draw(t, "mirror") {
				m = m.Mul(geom.ScaleXY(-1, 1))
			}
			p.Pieces[i] = laid(q, m)
		}
		got, missing, err := girth.Printed(p, "38")
		if err != nil || len(got) != len(want) {
			t.Fatalf("%v %v", missing, err)
		}
		for i, g := range got {
			if d := math.Abs(g.Finished - want[i].Finished); d > within {
				t.Fatalf("%s is %.4f mm off", g.Measure, d)
			}
		}
	})
}

// laid is q's size 38 with every mark taken through m.
func laid(q model.Piece, m geom.Affine) model.Piece {
	nest := make([]model.Outline, len(q.Nest))
	for i, o := range q.Nest {
		nest[i] = o
		nest[i].Edges = make([]geom.Path, len(o.Edges))
		for k, e := range o.Edges {
			nest[i].Edges[k] = e.Transform(m)
		}
	}
	q.Nest = nest
	lines := append([]model.Line(nil), q.Lines...)
	for i, l := range lines {
		lines[i].Drawn = nil
		for _, d := range l.Drawn {
			lines[i].Drawn = append(lines[i].Drawn, model.SizedPath{Size: d.Size, Path: d.Path.Transform(m)})
		}
	}
	q.Lines = lines
	darts := append([]model.Dart(nil), q.Darts...)
	for i, d := range darts {
		darts[i].Apex = nil
		for _, a := range d.Apex {
			darts[i].Apex = append(darts[i].Apex, model.SizedPoint{Size: a.Size, At: m.Apply(a.At)})
		}
	}
	q.Darts = darts
	return q
}
