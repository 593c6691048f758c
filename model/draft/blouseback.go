// words: none (names that said translates)
package draft

import (
	"quarterstep/model"
	"quarterstep/model/geom"
)

// facingShoulder is how much of the cutting line's shoulder a facing takes, mm.
const facingShoulder = 62

func blouseBack() part {
	return part{
		id: "back", name: "Back bodice", cut: 1,
		corners: []corner{
			{"centre back neck", model.Steps, false, "neckline", model.Plain, blouseNeck},
			{"neck point", model.Steps, false, "shoulder by the neck", model.Plain, blouseSeam},
			{"facing mark", model.Steps, true, "shoulder", model.Plain, blouseSeam},
			{"shoulder tip", model.Steps, false, "armhole", model.Plain, blouseSeam},
			{"underarm", model.Bust, false, "side seam", model.Plain, blouseSeam},
			{"side waist", model.Waist, true, "side above the hip", model.Plain, blouseSeam},
			{"side hip", model.Hip, true, "side below the hip", model.Plain, blouseSeam},
			{"side hem", model.Hip, false, "hem", model.Hem, blouseHem},
			{"centre back hem", model.Steps, false, "centre back", model.Fold, 0},
		},
		lines: []mark{
			{"grain", model.Grain},
			{"lengthen above the waist", model.Lengthen},
			{"bust line", model.BustLine},
			{"waist line", model.WaistLine},
			{"hip line", model.HipLine},
			{"waist dart", model.DartLine},
			{"lengthen below the waist", model.Lengthen},
		},
		notches: []notch{{"armhole", true}},
	}
}

var backSlope = slope(19)

func drawBlouseBack(b body) (sheet, error) {
	centre := geom.Pt(0, 12)
	neck := geom.Pt(67.5+2*b.step, -17.5-b.down)
	facing := neck.Add(backSlope.Scale(facingShoulder))
	tip := neck.Add(backSlope.Scale(153 + 2.6*b.step))
	arm := geom.Pt(b.bust+37, 217+4*b.down)
	waist := geom.Pt(b.waist+55, 432+4*b.down)
	hip := geom.Pt(b.hip+26.3, waist.Y+hipDepth(b))
	hem := geom.Pt(b.hip+33, 645+5*b.down)
	centreHem := geom.Pt(0, 653+5*b.down)
	s := sheet{
		edges: []geom.Path{
			neckline(centre, neck, backSlope, 0.62, 13),
			line(neck, facing),
			line(facing, tip),
			armhole(tip, arm, backSlope, 17, 0.52),
			curve(arm, between(arm, waist, 0, 1.0/3, -31.0/3, 0), by(waist, 0, -62), waist),
			sideAboveHip(waist, hip, hem),
			line(hip, hem),
			curve(hem, between(hem, centreHem, 0.33, 0, 0, 5), between(hem, centreHem, 0.67, 1, 0, 0), centreHem),
			line(centreHem, centre),
		},
		lines: []geom.Path{
			line(geom.Pt(70, 130+2*b.down), geom.Pt(70, 350+2*b.down)),
			levelLine(0, waist, -aboveWaist),
			line(geom.Pt(0, arm.Y+15), by(arm, -8, 15)),
			line(geom.Pt(0, waist.Y), by(waist, -8, 0)),
			line(geom.Pt(0, hip.Y), by(hip, -8, 0)),
			fisheye(geom.Pt(0.42*b.bust, waist.Y), 12, 165, 130),
			levelLine(0, waist, belowWaistLine),
		},
	}
	notch, err := jointOf(s.edges[3], 0)
	s.notches = []float64{notch}
	return s, err
}

// The lengthen lines of a bodice lie as far from its waist in every piece, mm:
// 2 1/2 in above it, as an American dressmaking manual of 1921 has it, and 80
// below, our own.
const (
	aboveWaist     = 63.5
	belowWaistLine = 80
)

// levelLine is level, down mm below a side waist, from x to near the side.
func levelLine(x float64, waist geom.Point, down float64) geom.Path {
	return line(geom.Pt(x, waist.Y+down), by(waist, -20, down))
}

// fisheye is a dart inside a piece: half mm to either side of its middle, above
// mm high and below mm deep.
func fisheye(middle geom.Point, half, above, below float64) geom.Path {
	top, bottom := by(middle, 0, -above), by(middle, 0, below)
	return geom.Polyline(top, by(middle, half, 0), bottom, by(middle, -half, 0), top)
}

// hipDepth is how far below the waist the hip line lies, mm: nearly 7 in, above
// the hem's stitching line in every size.
func hipDepth(b body) float64 { return 0.82 * (213 + b.down) }

// sideAboveHip runs from the waist into the straight side from hip to hem: its
// last handle lies on that line drawn on upwards, some 60 mm.
func sideAboveHip(waist, hip, hem geom.Point) geom.Path {
	return curve(waist, by(waist, 0, 47.5), between(hip, hem, -1.57, -1.57, 0, 0), hip)
}

// jointOf is how far along an edge its cubic k ends, mm.
func jointOf(edge geom.Path, k int) (float64, error) { return edge[:k+1].Length(lineTol) }
