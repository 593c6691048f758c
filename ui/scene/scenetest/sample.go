// words: none
package scenetest

import (
	"fmt"
	"strconv"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

// chart is an invented chart: 32 to 54, the bust 4 cm a size up to 44 and 6 cm
// beyond, as charts commonly grow.
func chart() model.SizeChart {
	c := model.SizeChart{ID: "sample", Name: "Sample", Measures: []model.Measure{model.Bust, model.Waist, model.Hip}}
	bust := 760.0
	for i := range 12 {
		c.Sizes = append(c.Sizes, model.ChartSize{Name: strconv.Itoa(32 + 2*i), Body: map[model.Measure]float64{
			model.Bust: bust, model.Waist: bust - 160, model.Hip: bust + 80,
		}})
		if bust += 40; i >= 6 {
			bust += 20
		}
	}
	return c
}

// Blouse is the front bodice and its facing, printed in n sizes from 34 on and
// graded to 48. The front lies at (40, 30), the facing at (420, 60).
func Blouse(n int) (scene.Input, error) {
	c := chart()
	front, facing := frontPiece(), facingPiece()
	for i := range n {
		addFront(&front, c, i)
		addFacing(&facing, c.Sizes[1+i].Name, float64(i))
	}
	p := model.Pattern{
		Name: "Sample blouse", Unit: model.Inches, Chart: c,
		Pieces: []model.Piece{front, facing},
		Links: []model.Link{{
			ID: "l1", Kind: model.SameLine,
			Lead:   model.Stretch{Piece: "front", Edges: []string{"neckline"}},
			Follow: model.Stretch{Piece: "facing", Edges: []string{"neckline"}},
		}},
		Target: model.Target{Place: 8},
	}
	return Graded(p)
}

// Graded is the Table with p graded at its target and nothing in hand.
func Graded(p model.Pattern) (scene.Input, error) {
	var g grading.Grader
	r, err := g.Grade(p)
	if err != nil {
		return scene.Input{}, fmt.Errorf("grading the sample: %w", err)
	}
	return scene.Input{Pattern: p, Result: r, Nest: true, Scale: 1}, nil
}

// Wardrobe is a dozen pieces in n sizes each, laid out in four columns over
// about 1600 by 1900 mm: as much as a Table has to draw.
func Wardrobe(n int) (scene.Input, error) {
	one, err := Blouse(n)
	if err != nil {
		return scene.Input{}, err
	}
	p := one.Pattern
	p.Pieces, p.Links = nil, nil
	for i := range 12 {
		q := one.Pattern.Pieces[0]
		q.ID = fmt.Sprint(q.ID, i)
		q.At = geom.Vec{X: 20 + 400*float64(i%4), Y: 20 + 630*float64(i/4)}
		p.Pieces = append(p.Pieces, q)
	}
	return Graded(p)
}

func frontPiece() model.Piece {
	edge := func(name string) model.Edge { return model.Edge{ID: name, Name: name, Allowance: 15} }
	q := model.Piece{
		ID: "front", Name: "Front bodice", Cut: 2, At: geom.Vec{X: 40, Y: 30},
		Points: []model.GradePoint{
			{ID: "cf-neck", Name: "Centre neck"},
			{ID: "hps", Name: "Neck point"},
			{ID: "tip", Name: "Shoulder tip"},
			{ID: "pitch", Name: "Pitch point", Smooth: true},
			{ID: "underarm", Name: "Underarm"},
			{ID: "dart-up", Name: "Upper dart leg"},
			{ID: "dart-low", Name: "Lower dart leg"},
			{ID: "side-hem", Name: "Side hem"},
			{ID: "cf-hem", Name: "Centre hem", Locked: true},
		},
		Edges: []model.Edge{
			edge("neckline"), edge("shoulder"), edge("armhole top"), edge("armhole foot"), edge("side top"),
			edge("dart cap"), edge("side seam"), edge("hem"),
			{ID: "centre", Name: "centre front", Kind: model.Centre},
		},
		Lines: []model.Line{
			{ID: "grain", Kind: model.Grain, Drawn: []model.SizedPath{{Path: geom.Polyline(geom.Pt(60, 230), geom.Pt(60, 340))}}},
			{ID: "lengthen", Kind: model.Lengthen, Drawn: []model.SizedPath{{Path: geom.Polyline(geom.Pt(0, 370), geom.Pt(215, 370))}}},
		},
		Notches: []model.Notch{
			{ID: "n1", Edge: "armhole foot", Spots: []model.Spot{{S: 40}}},
			{ID: "n2", Edge: "side seam", Double: true, Spots: []model.Spot{{S: 120}}},
		},
		Darts: []model.Dart{{ID: "dart", Name: "bust dart", From: "dart-up", To: "dart-low"}},
	}
	return q
}

// addFront adds the i-th printed size of the front.
func addFront(q *model.Piece, c model.SizeChart, i int) {
	k := float64(i)
	body := c.Sizes[1+i]
	bust, waist, hip := body.Body[model.Bust]/4+12, body.Body[model.Waist]/4+34, body.Body[model.Hip]/4+4
	neck, hps, tip := geom.Pt(0, 90-2*k), geom.Pt(66+1.7*k, 6-2*k), geom.Pt(168+2.8*k, 44-1.5*k)
	arm, low := geom.Pt(bust, 215+2.4*k), geom.Pt(hip, 545+4*k)
	pitch := geom.Pt(157+4*k, 150+k)
	upper, lower := geom.Pt(bust-3, 262+2.4*k), geom.Pt(bust-4, 284+2.4*k)
	cf := geom.Pt(0, 555+4*k)
	q.Nest = append(q.Nest, model.Outline{Size: body.Name, Edges: []geom.Path{
		{{P0: neck, P1: neck.Add(geom.Vec{X: 36 + k}), P2: hps.Add(geom.Vec{X: -2, Y: 40 + k}), P3: hps}},
		geom.Polyline(hps, tip),
		{{P0: tip, P1: tip.Add(geom.Vec{X: -8, Y: 35}), P2: pitch.Add(geom.Vec{Y: -36}), P3: pitch}},
		{{P0: pitch, P1: pitch.Add(geom.Vec{Y: 38}), P2: arm.Add(geom.Vec{X: -34, Y: -2}), P3: arm}},
		geom.Polyline(arm, upper),
		geom.Polyline(upper, geom.Pt(bust+4, 274+2.4*k), lower),
		{{P0: lower, P1: geom.Pt(waist-16, 380+3*k), P2: geom.Pt(waist-16, 430+3*k), P3: low}},
		{{P0: low, P1: low.Add(geom.Vec{X: -60, Y: 6}), P2: cf.Add(geom.Vec{X: 80}), P3: cf}},
		geom.Polyline(cf, neck),
	}})
	q.Darts[0].Apex = append(q.Darts[0].Apex, model.SizedPoint{Size: body.Name, At: geom.Pt(bust-95, 268+2.4*k)})
}

func facingPiece() model.Piece {
	q := model.Piece{ID: "facing", Name: "Front neck facing", Cut: 2, At: geom.Vec{X: 420, Y: 60}}
	for _, id := range []string{"neckline", "shoulder", "outer", "centre"} {
		q.Edges = append(q.Edges, model.Edge{ID: id, Name: id, Allowance: 15})
		q.Points = append(q.Points, model.GradePoint{ID: "p-" + id})
	}
	q.Edges[3].Kind = model.Centre
	return q
}

func addFacing(q *model.Piece, size string, k float64) {
	neck, hps := geom.Pt(0, 90-2*k), geom.Pt(66+1.7*k, 6-2*k)
	out, low := hps.Add(geom.Vec{X: 48, Y: 18}), neck.Add(geom.Vec{Y: 55})
	q.Nest = append(q.Nest, model.Outline{Size: size, Edges: []geom.Path{
		{{P0: neck, P1: neck.Add(geom.Vec{X: 36 + k}), P2: hps.Add(geom.Vec{X: -2, Y: 40 + k}), P3: hps}},
		geom.Polyline(hps, out),
		{{P0: out, P1: out.Add(geom.Vec{X: -4, Y: 62}), P2: low.Add(geom.Vec{X: 62}), P3: low}},
		geom.Polyline(low, neck),
	}})
}
