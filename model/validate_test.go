package model_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// sound is a small pattern that breaks no rule: two pieces of four edges,
// printed in sizes 38 and 40 of a chart of three, with one of everything.
func sound() model.Pattern {
	p := model.Pattern{Name: "Invented", Chart: model.SizeChart{ID: "c", Name: "Invented chart", Measures: []model.Measure{model.Bust}}}
	for i, n := range []string{"38", "40", "42"} {
		p.Chart.Sizes = append(p.Chart.Sizes, model.ChartSize{Name: n, Alt: "code " + n, Body: map[model.Measure]float64{model.Bust: 880 + 40*float64(i)}})
	}
	p.Target = model.Target{Place: 1.5}
	for k, name := range []string{"Front bodice", "Back bodice"} {
		q := model.Piece{ID: fmt.Sprintf("q%d", k), Name: name}
		for i, n := range []string{"shoulder", "side seam", "hem", ""} {
			q.Points = append(q.Points, model.GradePoint{ID: fmt.Sprintf("p%d", i+1)})
			q.Edges = append(q.Edges, model.Edge{ID: fmt.Sprintf("e%d", i+1), Name: n, Allowance: 15})
		}
		q.Nest = []model.Outline{box("38", 200), box("40", 210)}
		q.Lines = []model.Line{
			{ID: "l1", Kind: model.Grain, Drawn: []model.SizedPath{{Path: geom.Polyline(geom.Pt(50, 50), geom.Pt(50, 300))}}},
			{ID: "long", Kind: model.Lengthen, Drawn: []model.SizedPath{{Path: geom.Polyline(geom.Pt(0, 250), geom.Pt(200, 250))}}},
		}
		q.Notches = []model.Notch{{ID: "n1", Edge: "e2", Spots: []model.Spot{{Size: "38", S: 120}, {Size: "40", S: 125}}}}
		q.Darts = []model.Dart{{ID: "d1", Name: "waist dart", From: "p3", To: "p4", Apex: []model.SizedPoint{{At: geom.Pt(100, 200)}}}}
		q.Hand = model.Hand{
			Moves:  []model.PointMove{{Point: "p2", By: geom.Vec{X: 3}}},
			Shapes: []model.EdgeShape{{Edge: "e1", By: []geom.Vec{{Y: 1}}}},
		}
		p.Pieces = append(p.Pieces, q)
	}
	p.Links = []model.Link{{
		ID: "k1", Kind: model.Sewn,
		Lead:   model.Stretch{Piece: "q0", Edges: []string{"e2"}},
		Follow: model.Stretch{Piece: "q1", Edges: []string{"e2"}, Reverse: true},
	}}
	p.Lengths = []model.Lengthening{{
		ID: "n1", Name: "Below the waist", By: -12,
		Lines: []model.PieceLine{{Piece: "q0", Line: "long"}, {Piece: "q1", Line: "long"}},
		Hems:  []model.Stretch{{Piece: "q0", Edges: []string{"e3"}}},
	}}
	p.Limits = map[string]float64{"seam": 2}
	p.Pictures = []model.Picture{{ID: "f1", Name: "front.jpg", File: "f1.jpg", PerMM: 5}}
	p.Tracings = []model.Tracing{{ID: "t1", Picture: "f1", Name: "Sleeve", Sizes: []model.TracedSize{
		{Size: "38", Corners: []geom.Point{geom.Pt(0, 0), geom.Pt(10, 0)}, Edges: []geom.Path{geom.Polyline(geom.Pt(0, 0), geom.Pt(10, 0))}},
	}}}
	return p
}

// lengthen spoils a pattern by lengthening it at these lines.
func lengthen(at ...model.PieceLine) func(*model.Pattern) {
	return func(p *model.Pattern) {
		p.Lengths = []model.Lengthening{{ID: "a", Name: "Longer", By: 10, Lines: at}}
	}
}

func box(size string, w float64) model.Outline {
	a, b, c, d := geom.Pt(0, 0), geom.Pt(w, 0), geom.Pt(w, 400), geom.Pt(0, 400)
	return model.Outline{Size: size, Edges: []geom.Path{geom.Polyline(a, b), geom.Polyline(b, c), geom.Polyline(c, d), geom.Polyline(d, a)}}
}

func TestSoundPatternHasNoProblems(t *testing.T) {
	if err := sound().Validate(); err != nil {
		t.Fatal(err)
	}
	if err := (model.Pattern{}).Validate(); err != nil {
		t.Errorf("the empty document: %v", err)
	}
}

// Each way to break a rule is found as that rule, and said with its place.
func TestEveryRuleIsHeld(t *testing.T) {
	nan := math.NaN()
	front := func(change func(q *model.Piece)) func(*model.Pattern) {
		return func(p *model.Pattern) { change(&p.Pieces[0]) }
	}
	cases := []struct {
		rule  int
		spoil func(*model.Pattern)
		want  string
	}{
		{1, func(p *model.Pattern) { p.Chart.Sizes = nil }, "size chart: it has no sizes"},
		{1, func(p *model.Pattern) { p.Chart.Sizes[2].Name = "" }, "size chart: a size has no name"},
		{1, func(p *model.Pattern) { p.Chart.Sizes[2].Alt = "CODE 38" }, "size 42, size chart: another size is called code 38 too"},
		{1, func(p *model.Pattern) { p.Chart.Sizes[2].Body[model.Bust] = 0 }, "size 42, size chart: bust cannot be 0 mm"},
		{1, func(p *model.Pattern) { p.Chart.Sizes[2].Body["waist"] = math.Inf(1) }, "waist cannot be +Inf mm"},
		{1, func(p *model.Pattern) { p.Chart.Sizes[2].Body[model.Steps] = 2 }, "steps cannot be 2 mm"},
		{2, func(p *model.Pattern) { p.Target.Place = 2.1 }, "size wanted: it lies off the chart, at place 2.1 of 3"},
		{2, func(p *model.Pattern) { p.Target.Place = nan }, "size wanted: it lies off the chart"},
		{2, func(p *model.Pattern) { p.Target.Method = "guess" }, `called "guess"`},
		{2, func(p *model.Pattern) { p.Unit = "ell" }, `cannot be shown in "ell"`},
		{3, front(func(q *model.Piece) { q.ID = "" }), "Front bodice: it has no ID"},
		{3, func(p *model.Pattern) { p.Pieces[0].ID, p.Links = "q1", nil }, `Back bodice: its ID "q1" is taken`},
		{3, front(func(q *model.Piece) { q.Points[3].ID = "p1" }), `Front bodice, grade point 4: its ID "p1" is taken`},
		{3, front(func(q *model.Piece) { q.Edges[3].ID = "e1" }), `Front bodice, edge 4: its ID "e1" is taken`},
		{3, front(func(q *model.Piece) { q.Lines[0].ID = "" }), "Front bodice, line 1: it has no ID"},
		{3, front(func(q *model.Piece) { q.Notches[0].ID = "" }), "Front bodice, notch 1: it has no ID"},
		{3, front(func(q *model.Piece) { q.Darts[0].ID = "" }), "Front bodice, waist dart: it has no ID"},
		{3, func(p *model.Pattern) { p.Links[0].ID = "" }, "link 1: it has no ID"},
		{4, front(func(q *model.Piece) { q.Points = q.Points[:3]; q.Darts = nil }), "Front bodice: it has 3 grade points and 4 edges"},
		{4, front(func(q *model.Piece) { q.Cut = -1 }), "Front bodice: it cannot be cut -1 times"},
		{4, front(func(q *model.Piece) { q.Lining = -2 }), "Front bodice: it cannot be cut -2 times in lining"},
		{4, front(func(q *model.Piece) { q.At.Y = nan }), "Front bodice: its place on the Table"},
		{5, front(func(q *model.Piece) { q.Edges[1].Kind = "wavy" }), `Front bodice, side seam: "wavy" is no kind of edge`},
		{5, front(func(q *model.Piece) { q.Edges[1].Allowance = -1 }), "Front bodice, side seam: a seam allowance of -1 mm"},
		{5, front(func(q *model.Piece) { q.Edges[1].Allowance = 100 }), "Front bodice, side seam: a seam allowance of 100 mm"},
		{5, front(func(q *model.Piece) { q.Edges[1].Allowance = nan }), "Front bodice, side seam: a seam allowance of NaN mm"},
		{5, front(func(q *model.Piece) { q.Lines[0].Kind = "wavy" }), `line 1: "wavy" is no kind of line`},
		{5, func(p *model.Pattern) { p.Links[0].Kind = "glued" }, `link 1: "glued" is no kind of link`},
		{6, front(func(q *model.Piece) { q.Nest = nil }), "Front bodice: no size of it is printed"},
		{6, front(func(q *model.Piece) { q.Nest[1].Size = "44" }), "Front bodice, size 44: the chart has no such size"},
		{6, front(func(q *model.Piece) { q.Nest[1].Size = "38" }), "Front bodice, size 38: printed sizes must go"},
		{6, front(func(q *model.Piece) { slices.Reverse(q.Nest) }), "Front bodice, size 38: printed sizes must go"},
		{7, front(func(q *model.Piece) { q.Nest[1].Edges = q.Nest[1].Edges[:3] }), "Front bodice, size 40: its line has 3 edges, the piece 4"},
		{7, front(func(q *model.Piece) { q.Nest[1].Edges[1] = nil }), "Front bodice, size 40, side seam: there is no line"},
		{7, front(func(q *model.Piece) { q.Nest[1].Edges[1][0].P1.X = nan }), "Front bodice, size 40, side seam: curve 1"},
		{7, front(func(q *model.Piece) { q.Nest[1].Edges[1][0].P3.X += 1e-3 }), "Front bodice, size 40, side seam: it ends 0.001 mm from where hem starts"},
		{7, front(func(q *model.Piece) { q.Nest[0].Edges[3][0].P3.Y = 1 }), "Front bodice, size 38, edge 4: it ends 1 mm from where shoulder starts"},
		{8, front(func(q *model.Piece) { q.Lines[0].Drawn[0].Path = nil }), "Front bodice, line 1: there is no line"},
		{8, front(func(q *model.Piece) { q.Lines[0].Drawn[0].Size = "44" }), "Front bodice, size 44, line 1: the chart has no such size"},
		{8, front(func(q *model.Piece) { q.Lines[0].Drawn = append(q.Lines[0].Drawn, q.Lines[0].Drawn[0]) }), "line 1: it is marked twice"},
		{9, front(func(q *model.Piece) { q.Notches[0].Edge = "e9" }), "Front bodice, notch 1: the edge it is on is not there"},
		{9, front(func(q *model.Piece) { q.Notches[0].Spots = nil }), "notch 1 on side seam: it is marked in no size"},
		{9, front(func(q *model.Piece) { q.Notches[0].Spots[1].S = 400.6 }), "Front bodice, size 40, notch 1 on side seam: it lies 400.6 mm"},
		{9, front(func(q *model.Piece) { q.Notches[0].Spots[1].S = -0.6 }), "Front bodice, size 40, notch 1 on side seam: it cannot lie -0.6 mm"},
		{9, front(func(q *model.Piece) { q.Notches[0].Spots = []model.Spot{{S: nan}} }), "Front bodice, notch 1 on side seam: it cannot lie NaN mm"},
		{9, front(func(q *model.Piece) { q.Notches[0].Spots = []model.Spot{{S: 500}} }), "Front bodice, size 38, notch 1 on side seam: it lies 500.0 mm"},
		{10, front(func(q *model.Piece) { q.Darts[0].To = "p9" }), "Front bodice, waist dart: its legs"},
		{10, front(func(q *model.Piece) { q.Darts[0].To = "p3" }), "Front bodice, waist dart: its legs"},
		{10, front(func(q *model.Piece) { q.Darts[0].Apex = nil }), "Front bodice, waist dart: it has no point"},
		{10, front(func(q *model.Piece) { q.Darts[0].Apex[0].At.X = nan }), "Front bodice, waist dart: the place of its point"},
		{11, front(func(q *model.Piece) { q.Hand.Moves[0].Point = "p9" }), "Front bodice, hand corrections: a corrected grade point"},
		{11, front(func(q *model.Piece) { q.Hand.Moves[0].By.X = nan }), "Front bodice, grade point 2: its correction"},
		{11, front(func(q *model.Piece) { q.Hand.Moves = append(q.Hand.Moves, q.Hand.Moves[0]) }), "Front bodice, grade point 2: its correction"},
		{11, front(func(q *model.Piece) { q.Hand.Shapes[0].Edge = "e9" }), "Front bodice, hand corrections: a corrected edge"},
		{11, front(func(q *model.Piece) { q.Hand.Shapes[0].By[0].Y = nan }), "Front bodice, shoulder: its correction"},
		{2, func(p *model.Pattern) { p.Target.Body = map[model.Measure]float64{model.Bust: 0} }, "wearer: bust cannot be 0 mm"},
		{2, func(p *model.Pattern) { p.Target.Body = map[model.Measure]float64{model.Steps: 2} }, "wearer: steps cannot be 2 mm"},
		{6, front(func(q *model.Piece) { q.Nest[0].Also = []string{"44"} }), "Front bodice, size 44: the chart has no such size"},
		{6, front(func(q *model.Piece) { q.Nest[0].Also = []string{"40"} }), "Front bodice, size 40: printed sizes must go"},
		{11, front(func(q *model.Piece) { q.Hand.Moves[0].Stage = "44" }), "Front bodice, size 44, grade point 2: it was corrected at a size"},
		{11, front(func(q *model.Piece) { q.Hand.Through = []string{"p1", "p1"} }), "Front bodice, grade point 1: its correction"},
		{11, front(func(q *model.Piece) { q.Hand.Shifts = []model.EdgeShift{{Edge: "e2", Out: nan}} }), "Front bodice, side seam: its correction"},
		{11, front(func(q *model.Piece) { q.Hand.Curves = []model.EdgeCurve{{Edge: "e2", Kind: "wavy"}} }), "Front bodice, side seam: its correction"},
		{11, front(func(q *model.Piece) {
			q.Hand.Curves = []model.EdgeCurve{{Edge: "e2", Kind: model.PrintedCurve, Size: "42"}}
		}), "Front bodice, side seam: its correction"},
		{13, front(func(q *model.Piece) { q.Gaps = []model.Gap{{Point: "p9"}} }), "Front bodice, typed gaps: a grade point"},
		{13, front(func(q *model.Piece) { q.Gaps = []model.Gap{{Point: "p1"}, {Point: "p1"}} }), "Front bodice, grade point 1: its typed gap"},
		{13, front(func(q *model.Piece) { q.Cuts = []model.Cut{{ID: "c", Measure: model.Bust, Share: 0.1}} }), "Front bodice, cut line 1: it must have a length"},
		{3, front(func(q *model.Piece) { q.Cuts = []model.Cut{{To: geom.Pt(9, 9), Measure: model.Bust}} }), "Front bodice, cut line 1: it has no ID"},
		{12, func(p *model.Pattern) { p.Links[0].Lead.Piece = "q9" }, "link 1: a piece it joins is not there"},
		{12, func(p *model.Pattern) { p.Links[0].Follow.Edges = nil }, "link 1: it joins no edge of Back bodice"},
		{12, func(p *model.Pattern) { p.Links[0].Follow.Edges[0] = "e9" }, "link 1: an edge it joins is not on Back bodice"},
		{12, func(p *model.Pattern) { p.Links[0].Ease = nan }, "link 1: its ease"},
		{12, func(p *model.Pattern) { p.Links[0].Room = -1 }, "link 1: its ease"},
		{12, func(p *model.Pattern) { p.Links[0].Refit = "wishes" }, "link 1: nothing gives way by"},
		{12, func(p *model.Pattern) { p.Links[0].And = []model.Stretch{{Piece: "q9"}} }, "link 1: a piece it joins is not there"},
		{12, func(p *model.Pattern) { p.Links[0].Kind, p.Links[0].Refit = model.SameLine, model.EndAlong }, "link 1: a line that follows"},
		{14, func(p *model.Pattern) { p.Lengths = []model.Lengthening{{ID: "a", By: 1001}} }, "lengthening 1: it cannot be by 1001 mm"},
		{14, lengthen(model.PieceLine{Piece: "q9", Line: "l1"}), "Longer: a piece it lengthens"},
		{14, lengthen(model.PieceLine{Piece: "q0", Line: "l9"}), "Longer: its lengthen line is not on Front bodice"},
		{14, lengthen(model.PieceLine{Piece: "q0", Line: "long"}, model.PieceLine{Piece: "q0", Line: "long"}), "Longer: it lengthens Front bodice twice"},
		{14, func(p *model.Pattern) {
			p.Lengths = []model.Lengthening{{ID: "a", Name: "Hem", Hems: []model.Stretch{{Piece: "q0", Edges: []string{"e9"}}}}}
		}, "Hem: an edge it joins is not on Front bodice; take it off"},
		{3, func(p *model.Pattern) { p.Lengths = []model.Lengthening{{By: 1}} }, "lengthening 1: it has no ID"},
		{16, func(p *model.Pattern) { p.Pictures[0].PerMM = 0 }, "front.jpg: it cannot have 0 pixels"},
		{16, func(p *model.Pattern) { p.Pictures[0].File = "" }, "front.jpg: it has no file"},
		{16, func(p *model.Pattern) { p.Pictures[0].File = "../f1.jpg" }, `whose name "../f1.jpg" cannot be`},
		{17, func(p *model.Pattern) { p.Pieces = make([]model.Piece, 501) }, "it has 501 pieces, more than the 500"},
		{17, func(p *model.Pattern) { p.Links = make([]model.Link, 5001) }, "5001 links"},
		{17, func(p *model.Pattern) { p.Chart.Sizes = make([]model.ChartSize, 201) }, "201 sizes on its chart"},
		{17, func(p *model.Pattern) { p.Name = strings.Repeat("x", 1001) }, "longer than 1000 letters; shorten it"},
		{17, func(p *model.Pattern) { p.Note = strings.Repeat("x", 100_001) }, "its note is longer"},
		{17, func(p *model.Pattern) { p.Links[0].Lead.Edges = make([]string, 301) }, "301 edges in a link"},
		{17, func(p *model.Pattern) { p.Tracings[0].Notches = []model.TracedNotch{{At: geom.Pt(0, -1e7)}} }, "Sleeve: something on it lies at (0, -1e+07) mm"},
		{17, front(func(q *model.Piece) { q.Points = make([]model.GradePoint, 301) }), "Front bodice: it has 301 grade points"},
		{17, front(func(q *model.Piece) { q.Notches = make([]model.Notch, 501) }), "Front bodice: it has 501 marks"},
		{17, front(func(q *model.Piece) { q.Cut = 1001 }), "Front bodice: it cannot be cut more than 1000 times"},
		{17, front(func(q *model.Piece) { q.Nest[1].Edges[1] = make(geom.Path, 2001) }), "Front bodice: it has 2001 curves in a line"},
		{17, front(func(q *model.Piece) { q.Nest[1].Edges[1][0].P1.X = 2e6 }), "Front bodice, size 40: something on it lies at (2e+06"},
		{17, front(func(q *model.Piece) { q.Darts[0].Apex[0].At.Y = -2e6 }), "Front bodice: something"},
		{4, front(func(q *model.Piece) { q.At.X = 2e6 }), "its place on the Table"},
		{16, func(p *model.Pattern) { p.Pictures[0].Faded = 2 }, "front.jpg: its place or its dimming"},
		{16, front(func(q *model.Piece) { q.Picture = "gone" }), "Front bodice: the picture it was traced from"},
		{16, func(p *model.Pattern) { p.Tracings[0].Picture = "gone" }, "Sleeve: the picture it is traced from"},
		{16, func(p *model.Pattern) { p.Tracings[0].Sizes[0].Size = "99" }, "size 99, Sleeve: it is traced in a size"},
		{16, func(p *model.Pattern) { p.Tracings[0].Sizes[0].Edges = nil }, "its line has 2 corners and 0 edges"},
		{16, func(p *model.Pattern) { p.Tracings[0].Sizes[0].Corners[1].X = 7 }, "its edge 1 does not end at its corners"},
		{16, func(p *model.Pattern) { p.Tracings[0].Notches = []model.TracedNotch{{At: geom.Pt(nan, 0)}} }, "a notch lies nowhere"},
		{15, func(p *model.Pattern) { p.Limits = map[string]float64{"seam": nan} }, `checks: the limit "seam" cannot be NaN`},
	}
	held := map[int]bool{}
	for _, c := range cases {
		p := sound()
		c.spoil(&p)
		var found model.Problems
		if !errors.As(p.Validate(), &found) {
			t.Errorf("rule %d, %s: nothing found", c.rule, c.want)
			continue
		}
		if !slices.ContainsFunc(found, func(f model.Problem) bool { return f.Rule == c.rule && strings.Contains(f.Error(), c.want) }) {
			t.Errorf("rule %d, want %q, got:\n%v", c.rule, c.want, found)
		}
		held[c.rule] = true
	}
	if len(held) != 17 {
		t.Errorf("only %d of 17 rules are tested", len(held))
	}
}

func TestAllProblemsAreFound(t *testing.T) {
	p := sound()
	p.Target.Place = 9
	p.Pieces[0].Cut = -1
	p.Pieces[1].Name, p.Pieces[1].Edges[1].Allowance = "", 200
	p.Links[0].Ease = math.Inf(1)
	const want = "size wanted: it lies off the chart, at place 9 of 3\n" +
		"Front bodice: it cannot be cut -1 times\n" +
		"piece 2, side seam: a seam allowance of 200 mm cannot be: it is from 0 to below 100\n" +
		"link 1: its ease is no number"
	if err := p.Validate(); err == nil || err.Error() != want {
		t.Errorf("got\n%v\nwant\n%s", err, want)
	}
}

// A notch on a curve is measured along it: the quarter circle of radius 100 mm
// is 157.08 mm long (closed form), its chord 141.42.
func TestNotchOnACurve(t *testing.T) {
	const k = 0.5522847498 * 100 // handles of the usual cubic quarter circle
	for _, c := range []struct {
		s  float64
		ok bool
	}{{141, true}, {157.5, true}, {157.7, false}, {200, false}} {
		p := sound()
		q := &p.Pieces[0]
		for i := range q.Nest {
			from := q.Nest[i].Edges[1].Start()
			to := from.Add(geom.Vec{X: 100, Y: 100})
			q.Nest[i].Edges[1] = geom.Path{{P0: from, P1: from.Add(geom.Vec{X: k}), P2: to.Add(geom.Vec{Y: -k}), P3: to}}
			q.Nest[i].Edges[2] = geom.Polyline(to, q.Nest[i].Edges[2].End())
		}
		q.Notches[0].Spots = []model.Spot{{S: c.s}}
		if err := p.Validate(); (err == nil) != c.ok {
			t.Errorf("%v mm along: %v", c.s, err)
		}
	}
}

// Twelve pieces of four sizes must be looked at in well under a millisecond.
func BenchmarkValidate(b *testing.B) {
	p := sound()
	for i := range 10 {
		q := p.Pieces[0]
		q.ID = fmt.Sprintf("more%d", i)
		p.Pieces = append(p.Pieces, q)
	}
	for b.Loop() {
		if err := p.Validate(); err != nil {
			b.Fatal(err)
		}
	}
}
