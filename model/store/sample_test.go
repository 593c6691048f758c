package store

import (
	"fmt"
	"math"

	"pgregory.net/rapid"

	"quarterstep/model"
	"quarterstep/model/geom"
)

// anyWords are names a person could type, and some she could not.
var anyWords = rapid.OneOf(rapid.SampledFrom([]string{"", "side seam", "Rücken, 2× zuschneiden", `a "b" \ <c> & {d}: [e]`, "\u2028\n\t"}), rapid.String())

// number is any ordinary number that could be a length, with all its bits.
var number = rapid.OneOf(rapid.Float64Range(-5000, 5000), rapid.SampledFrom([]float64{0, math.Copysign(0, -1), 1.0 / 3, 1e-17, 0.1 + 0.2}))

func drawVec(t *rapid.T) geom.Vec { return geom.Vec{X: number.Draw(t, "x"), Y: number.Draw(t, "y")} }

func drawPath(t *rapid.T, from, to geom.Point) geom.Path {
	var p geom.Path
	for range rapid.IntRange(0, 2).Draw(t, "curves") {
		end := geom.Point(drawVec(t))
		p = append(p, geom.Cubic{P0: from, P1: geom.Point(drawVec(t)), P2: geom.Point(drawVec(t)), P3: end})
		from = end
	}
	return append(p, geom.Line(from, to))
}

// drawPattern is a random pattern that breaks no rule.
func drawPattern(t *rapid.T) model.Pattern {
	p := model.Pattern{
		Name: anyWords.Draw(t, "name"), Note: anyWords.Draw(t, "note"),
		Unit: rapid.SampledFrom([]model.Unit{"", model.Centimetres, model.Inches}).Draw(t, "unit"),
	}
	p.Chart = model.SizeChart{ID: "c", Name: anyWords.Draw(t, "chart"), Measures: []model.Measure{model.Bust, "upper chest"}}
	n := rapid.IntRange(1, 4).Draw(t, "sizes")
	for i := range n {
		s := model.ChartSize{Name: fmt.Sprint(30 + 2*i), Alt: rapid.SampledFrom([]string{"", fmt.Sprintf("S%d", i)}).Draw(t, "code")}
		if rapid.Bool().Draw(t, "measured") {
			s.Body = map[model.Measure]float64{model.Bust: rapid.Float64Range(1, 2000).Draw(t, "bust"), "upper chest": 700}
		}
		p.Chart.Sizes = append(p.Chart.Sizes, s)
	}
	p.Target = model.Target{
		Place:  rapid.Float64Range(0, float64(n-1)).Draw(t, "place"),
		Method: rapid.SampledFrom([]model.Method{"", model.ByChart, model.BySteps}).Draw(t, "method"),
		Wearer: anyWords.Draw(t, "wearer"), Stages: rapid.Bool().Draw(t, "stages"),
	}
	if rapid.Bool().Draw(t, "own") {
		p.Target.Body = map[model.Measure]float64{model.Bust: rapid.Float64Range(1, 2000).Draw(t, "own bust"), "knee": 400}
	}
	for i := range rapid.IntRange(0, 3).Draw(t, "pieces") {
		p.Pieces = append(p.Pieces, drawPiece(t, fmt.Sprintf("q%d", i), n))
	}
	if len(p.Pieces) > 1 {
		p.Links = []model.Link{{
			ID: "k", Kind: rapid.SampledFrom([]model.LinkKind{model.SameLine, model.Sewn}).Draw(t, "kind"),
			Lead:   model.Stretch{Piece: "q0", Edges: []string{"e0", "e1"}, Reverse: rapid.Bool().Draw(t, "reverse")},
			Follow: model.Stretch{Piece: "q1", Edges: []string{"e1"}},
			Ease:   number.Draw(t, "ease"), EaseFixed: rapid.Bool().Draw(t, "fixed"),
			Room: rapid.Float64Range(0, 50).Draw(t, "room"),
		}}
		if p.Links[0].Kind == model.Sewn {
			p.Links[0].Refit = rapid.SampledFrom(model.Refits).Draw(t, "refit")
			p.Links[0].And = []model.Stretch{{Piece: "q1", Edges: []string{"e0"}}}
		}
		p.Lengths = []model.Lengthening{{
			ID: "a", Name: anyWords.Draw(t, "lengthening"), By: rapid.Float64Range(-900, 900).Draw(t, "by"),
			Hems: []model.Stretch{{Piece: "q1", Edges: []string{"e0"}}},
		}}
		p.Pictures = []model.Picture{{ID: "f", Name: anyWords.Draw(t, "picture"), File: "a.jpg", PerMM: rapid.Float64Range(0.1, 50).Draw(t, "per mm"), At: drawVec(t), Faded: 0.5}}
		p.Pieces[0].Picture = "f"
		from, to := geom.Point(drawVec(t)), geom.Point(drawVec(t))
		p.Tracings = []model.Tracing{{
			ID: "t", Picture: "f", Name: anyWords.Draw(t, "tracing"), Cut: 1,
			Sizes:   []model.TracedSize{{Size: "30", Corners: []geom.Point{from, to}, Edges: []geom.Path{drawPath(t, from, to)}}},
			Notches: []model.TracedNotch{{At: to, Double: true}},
		}}
		p.Limits = map[string]float64{anyWords.Draw(t, "limit"): 3}
	}
	return p
}

func drawPiece(t *rapid.T, id string, sizes int) model.Piece {
	q := model.Piece{ID: id, Name: anyWords.Draw(t, "piece"), Cut: rapid.IntRange(0, 4).Draw(t, "cut"), Lining: rapid.IntRange(0, 2).Draw(t, "lining"), At: drawVec(t)}
	n := rapid.IntRange(2, 5).Draw(t, "edges")
	for i := range n {
		q.Points = append(q.Points, model.GradePoint{
			ID: fmt.Sprintf("p%d", i), Name: anyWords.Draw(t, "point"), Smooth: rapid.Bool().Draw(t, "smooth"),
			Across: model.Measure(rapid.SampledFrom([]string{"", "bust"}).Draw(t, "across")), Along: "steps", Locked: rapid.Bool().Draw(t, "locked"),
		})
		q.Edges = append(q.Edges, model.Edge{
			ID: fmt.Sprintf("e%d", i), Name: anyWords.Draw(t, "edge"),
			Kind:      rapid.SampledFrom([]model.EdgeKind{model.Plain, model.Fold, model.Centre, model.Hem}).Draw(t, "kind"),
			Allowance: rapid.Float64Range(0, 99).Draw(t, "allowance"),
		})
	}
	printed := rapid.IntRange(1, sizes).Draw(t, "printed")
	for s := range printed {
		o := model.Outline{Size: fmt.Sprint(30 + 2*s)}
		if s == printed-1 && printed < sizes {
			o.Also = []string{fmt.Sprint(30 + 2*printed)}
		}
		corner := make([]geom.Point, n)
		for i := range corner {
			corner[i] = geom.Point(drawVec(t))
		}
		for i := range corner {
			o.Edges = append(o.Edges, drawPath(t, corner[i], corner[(i+1)%n]))
		}
		q.Nest = append(q.Nest, o)
	}
	if rapid.Bool().Draw(t, "marks") {
		a, b := geom.Point(drawVec(t)), geom.Point(drawVec(t))
		q.Lines = []model.Line{{ID: "l", Name: anyWords.Draw(t, "line"), Kind: model.Grain, Drawn: []model.SizedPath{{Path: drawPath(t, a, b)}, {Size: "30", Path: drawPath(t, b, a)}}}}
		q.Notches = []model.Notch{{ID: "n", Edge: "e1", Double: true, Spots: []model.Spot{{Size: "30", S: 0.125}}}}
		q.Darts = []model.Dart{{ID: "d", Name: anyWords.Draw(t, "dart"), From: "p0", To: "p1", Across: model.Bust, Along: "steps", Trued: rapid.Bool().Draw(t, "trued"), TakeUpKept: true, Apex: []model.SizedPoint{{At: a}, {Size: "30", At: b}}}}
		q.Hand = model.Hand{
			Curves:  []model.EdgeCurve{{Edge: "e1", Kind: model.PrintedCurve, Size: "30"}, {Edge: "e0", Kind: model.NearestCurve}},
			Moves:   []model.PointMove{{Point: "p1", By: drawVec(t)}, {Point: "p1", By: drawVec(t), Stage: "30", Style: anyWords.Draw(t, "style")}},
			Shifts:  []model.EdgeShift{{Edge: "e1", Out: number.Draw(t, "out"), Stage: "30"}},
			Shapes:  []model.EdgeShape{{Edge: "e0", By: []geom.Vec{drawVec(t), drawVec(t)}}, {Edge: "e0", Stage: "30"}},
			Through: []string{"p0"},
		}
		q.Gaps = []model.Gap{{Point: "p1", Across: number.Draw(t, "gap"), Along: 3}}
		q.Cuts = []model.Cut{{ID: "c", From: geom.Pt(0, 0), To: geom.Pt(0, 9), Measure: model.Bust, Share: number.Draw(t, "share")}}
		q.OneForAll = true
	}
	return q
}

// sample is a small invented pattern for tests that need just one.
func sample() File {
	f := first()
	later(&f.Pattern)
	third(&f.Pattern)
	fourth(&f.Pattern)
	latest(&f.Pattern)
	return f
}

// first is the sample as files of the first version hold it.
func first() File {
	box := func(size string, w float64) model.Outline {
		a, b, c, d := geom.Pt(0, 0), geom.Pt(w, 0), geom.Pt(w, 400), geom.Pt(0, 400)
		return model.Outline{Size: size, Edges: []geom.Path{geom.Polyline(a, b), geom.Polyline(b, c), geom.Polyline(c, d), geom.Polyline(d, a)}}
	}
	q := model.Piece{ID: "q1", Name: "Front", Cut: 2, At: geom.Vec{X: 20, Y: 30}, Nest: []model.Outline{box("38", 220), box("40", 230)}}
	for i, name := range []string{"shoulder", "side seam", "hem", "centre"} {
		q.Points = append(q.Points, model.GradePoint{ID: fmt.Sprintf("p%d", i+1)})
		q.Edges = append(q.Edges, model.Edge{ID: fmt.Sprintf("e%d", i+1), Name: name, Allowance: 15})
	}
	q.Edges[3].Kind, q.Edges[3].Allowance = model.Centre, 0
	q.Lines = []model.Line{{ID: "l1", Kind: model.Grain, Drawn: []model.SizedPath{{Path: geom.Polyline(geom.Pt(60, 50), geom.Pt(60, 350))}}}}
	q.Notches = []model.Notch{{ID: "n1", Edge: "e2", Spots: []model.Spot{{Size: "38", S: 120}, {Size: "40", S: 122.5}}}}
	q.Hand.Moves = []model.PointMove{{Point: "p2", By: geom.Vec{X: 3, Y: -1.5}}}
	p := model.Pattern{Name: "Street apron", Note: "invented", Unit: model.Centimetres, Pieces: []model.Piece{q}}
	p.Chart = model.SizeChart{ID: "street", Name: "Street wardrobe", Source: "invented", Measures: []model.Measure{model.Bust, model.Waist}}
	for i, s := range []string{"36", "38", "40", "42"} {
		p.Chart.Sizes = append(p.Chart.Sizes, model.ChartSize{Name: s, Body: map[model.Measure]float64{model.Bust: 840 + 40*float64(i), model.Waist: 680 + 40*float64(i)}})
	}
	p.Target = model.Target{Place: 3, Wearer: "Maren"}
	return File{Pattern: p, Pictures: map[string][]byte{"front.jpg": {0xff, 0xd8, 0, 1}, "back.jpg": {0xff, 0xd8}}}
}

// later adds what files of the second version can hold.
func later(p *model.Pattern) {
	p.Target.Body = map[model.Measure]float64{model.Bust: 975}
	p.Target.Stages = true
	q := &p.Pieces[0]
	q.Nest[1].Also = []string{"42"}
	q.Hand.Curves = []model.EdgeCurve{{Edge: "e2", Kind: model.PrintedCurve, Size: "38"}}
	q.Hand.Moves = append(q.Hand.Moves, model.PointMove{Point: "p3", By: geom.Vec{X: -10}, Stage: "42", Style: "Narrower hem"})
	q.Hand.Shifts = []model.EdgeShift{{Edge: "e1", Out: 2.5}}
	q.Hand.Through = []string{"p2"}
	q.Gaps = []model.Gap{{Point: "p1", Across: 6.35}}
	q.Cuts = []model.Cut{{ID: "c1", From: geom.Pt(110, 0), To: geom.Pt(110, 400), Measure: model.Bust, Share: 0.125}}
}

// second is the sample as files of the second version hold it.
func second() File {
	f := first()
	later(&f.Pattern)
	return f
}

// latest adds what files of the fifth version can hold.
func latest(p *model.Pattern) { p.Pieces[0].Lining = 1 }

// fourthFile is the sample as files of the fourth version hold it.
func fourthFile() File {
	f := thirdFile()
	fourth(&f.Pattern)
	return f
}

// fourth adds what files of the fourth version can hold.
func fourth(p *model.Pattern) {
	p.Pictures = []model.Picture{{ID: "f1", Name: "the front", File: "front.jpg", PerMM: 4.5, At: geom.Vec{X: 10}, Faded: 0.25, Off: 0.4}}
	p.Pieces[0].Picture = "f1"
	a, b := geom.Pt(0, 0), geom.Pt(100.5, 0)
	p.Tracings = []model.Tracing{{
		ID: "t1", Picture: "f1", Name: "Pocket", Cut: 2, Edges: []model.Edge{{ID: "e1", Name: "mouth", Kind: model.Hem}},
		Sizes:   []model.TracedSize{{Size: "38", Corners: []geom.Point{a, b}, Edges: []geom.Path{geom.Polyline(a, b), geom.Polyline(b, a)}, Closed: true}},
		Lines:   []model.Line{{ID: "g", Kind: model.Grain, Drawn: []model.SizedPath{{Path: geom.Polyline(a, b)}}}},
		Notches: []model.TracedNotch{{At: geom.Pt(50, 0), Size: "38", Double: true}},
		Darts:   []model.TracedDart{{Name: "dart", From: a, Apex: geom.Pt(9, 40), To: b}},
	}}
}

// thirdFile is the sample as files of the third version hold it.
func thirdFile() File {
	f := second()
	third(&f.Pattern)
	return f
}

// third adds what files of the third version can hold.
func third(p *model.Pattern) {
	q := &p.Pieces[0]
	q.Darts = []model.Dart{{ID: "d1", From: "p2", To: "p3", Apex: []model.SizedPoint{{At: geom.Pt(150, 200)}}, TakeUpKept: true, Trued: true}}
	q.Lines = append(q.Lines, model.Line{ID: "l2", Kind: model.Lengthen, Drawn: []model.SizedPath{{Path: geom.Polyline(geom.Pt(0, 250), geom.Pt(220, 250))}}})
	p.Links = []model.Link{{
		ID: "k1", Kind: model.Sewn, Ease: 4, Room: 2.5, EaseFixed: true, Refit: model.EndAlong,
		Lead: model.Stretch{Piece: "q1", Edges: []string{"e2"}}, And: []model.Stretch{{Piece: "q1", Edges: []string{"e3"}}},
		Follow: model.Stretch{Piece: "q1", Edges: []string{"e4"}, Reverse: true},
	}}
	p.Lengths = []model.Lengthening{{
		ID: "n1", Name: "Below the waist", By: -12.5, Lines: []model.PieceLine{{Piece: "q1", Line: "l2"}},
		Hems: []model.Stretch{{Piece: "q1", Edges: []string{"e3"}}},
	}}
	p.Limits = map[string]float64{"seam": 2}
}
