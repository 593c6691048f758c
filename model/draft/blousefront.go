// words: none (names that said translates)
package draft

import (
	"quarterstep/model"
	"quarterstep/model/geom"
)

// standEdge is where the cutting line of the button stand lies: 18 mm of stand
// and a seam beyond the centre front.
const standEdge = -18 - blouseSeam

func blouseFront() part {
	return part{
		id: "front", name: "Front bodice", cut: 2,
		corners: []corner{
			{"front edge neck", model.Steps, false, "stand top", model.Plain, blouseNeck},
			{"centre front neck", model.Steps, true, "neckline", model.Plain, blouseNeck},
			{"neck point", model.Steps, false, "shoulder by the neck", model.Plain, blouseSeam},
			{"facing mark", model.Steps, true, "shoulder", model.Plain, blouseSeam},
			{"shoulder tip", model.Steps, false, "armhole", model.Plain, blouseSeam},
			{"underarm", model.Bust, false, "side above the dart", model.Plain, blouseSeam},
			{"upper dart leg", model.Bust, false, "upper half of the dart cap", model.Plain, blouseSeam},
			{"dart peak", model.Bust, false, "lower half of the dart cap", model.Plain, blouseSeam},
			{"lower dart leg", model.Bust, false, "side seam", model.Plain, blouseSeam},
			{"side waist", model.Waist, true, "side above the hip", model.Plain, blouseSeam},
			{"side hip", model.Hip, true, "side below the hip", model.Plain, blouseSeam},
			{"side hem", model.Hip, false, "hem", model.Hem, blouseHem},
			{"centre front hem", model.Steps, true, "stand hem", model.Hem, blouseHem},
			{"front edge hem", model.Steps, false, "front edge", model.Centre, blouseSeam},
		},
		lines: []mark{
			{"grain", model.Grain},
			{"centre front", model.Inner},
			{"lengthen above the waist", model.Lengthen},
			{"bust line", model.BustLine},
			{"waist line", model.WaistLine},
			{"hip line", model.HipLine},
			{"lengthen below the waist", model.Lengthen},
		},
		notches: []notch{{"armhole", false}},
		dart:    dart{"bust dart", "upper dart leg", "lower dart leg"},
	}
}

var frontSlope = slope(23)

// fitBlouseFront draws the front so that its shoulder and, with the dart
// closed, its side above and below the waist meet the back's.
func fitBlouseFront(b body, back sheet) (sheet, error) {
	sewnBack, err := blouseBack().stitch(back.edges)
	if err != nil {
		return sheet{}, err
	}
	want, err := sewnBack.lengths(shoulderEdges, []string{"side seam"}, belowWaist)
	if err != nil {
		return sheet{}, err
	}
	want[0] -= shoulderEase
	fit, err := settle([]float64{0, 0, 0}, func(x []float64) ([]float64, error) {
		s, err := blouseFront().stitch(drawBlouseFront(b, x[0], x[1], x[2]).edges)
		if err != nil {
			return nil, err
		}
		return less(s, want, shoulderEdges, frontSide, belowWaist)
	})
	if err != nil {
		return sheet{}, err
	}
	s := drawBlouseFront(b, fit[0], fit[1], fit[2])
	notch, err := jointOf(s.edges[4], 0)
	s.notches = []float64{notch}
	return s, err
}

// less is by how much the stretches are longer than wanted, mm.
func less(s stitching, want []float64, stretches ...[]string) ([]float64, error) {
	out, err := s.lengths(stretches...)
	for i := range out {
		out[i] -= want[i]
	}
	return out, err
}

// drawBlouseFront draws the front; reach lengthens the shoulder, wide the dart,
// longer the side below the hip.
func drawBlouseFront(b body, reach, wide, longer float64) sheet {
	centre := geom.Pt(0, 66+b.down)
	neck := geom.Pt(66.3+2*b.step, -17.7-b.down)
	facing := neck.Add(frontSlope.Scale(facingShoulder))
	tip := neck.Add(frontSlope.Scale(147 + 2.6*b.step + reach))
	arm := geom.Pt(b.bust+40, 217+4*b.down)
	upper := by(arm, -2, 75)
	lower := by(upper, 0, 28+wide)
	waist := geom.Pt(b.waist+58, 459+4*b.down)
	hip := geom.Pt(b.hip+29.3, waist.Y+hipDepth(b))
	hem := geom.Pt(b.hip+36, 672+5*b.down+longer)
	centreHem := geom.Pt(0, 690+5*b.down)
	side := curve(lower, by(lower, -7, 44), by(waist, 0, -46), waist)
	apex := geom.Pt(0.45*b.bust+28, upper.Lerp(lower, 0.5).Y)
	peak := foldedPeak(apex, upper, lower, side.StartDir())
	edge := geom.Pt(standEdge, centre.Y)
	return sheet{
		apex: apex,
		edges: []geom.Path{
			line(edge, centre),
			neckline(centre, neck, frontSlope, 0.72, 42),
			line(neck, facing),
			line(facing, tip),
			armhole(tip, arm, frontSlope, 22, 0.56),
			line(arm, upper),
			line(upper, peak),
			line(peak, lower),
			side,
			sideAboveHip(waist, hip, hem),
			line(hip, hem),
			curve(hem, between(hem, centreHem, 0.33, 0, 0, 10), between(hem, centreHem, 0.6, 1, 0, 0), centreHem),
			line(centreHem, geom.Pt(standEdge, centreHem.Y)),
			line(geom.Pt(standEdge, centreHem.Y), edge),
		},
		lines: []geom.Path{
			line(geom.Pt(75, 180+2*b.down), geom.Pt(75, 400+2*b.down)),
			line(centre, centreHem),
			levelLine(standEdge, waist, -aboveWaist),
			line(geom.Pt(standEdge, apex.Y), geom.Pt(apex.X, apex.Y)),
			line(geom.Pt(standEdge, waist.Y), by(waist, -8, 0)),
			line(geom.Pt(standEdge, hip.Y), by(hip, -8, 0)),
			levelLine(standEdge, waist, belowWaistLine),
		},
	}
}
