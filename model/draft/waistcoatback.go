// words: none (names that said translates)
package draft

import (
	"quarterstep/model"
	"quarterstep/model/geom"
)

func waistcoatBack() part {
	return part{
		id: "back", name: "Back", cut: 2, lining: 2,
		corners: []corner{
			{"centre back neck", model.Steps, false, "neckline", model.Plain, waistcoatSeam},
			{"neck point", model.Steps, false, "shoulder by the neck", model.Plain, waistcoatSeam},
			{"facing mark", model.Steps, true, "shoulder", model.Plain, waistcoatSeam},
			{"shoulder tip", model.Steps, false, "armhole", model.Plain, waistcoatSeam},
			{"underarm", model.Bust, false, "side seam", model.Plain, waistcoatSeam},
			{"side waist", model.Waist, true, "side below the waist", model.Plain, waistcoatSeam},
			{"side hem", model.Hip, false, "hem", model.Plain, waistcoatSeam},
			{"centre back hem", model.Steps, false, "centre back", model.Centre, waistcoatSeam},
		},
		lines: []mark{
			{"grain", model.Grain},
			{"lengthen above the waist", model.Lengthen},
			{"bust line", model.BustLine},
			{"waist line", model.WaistLine},
			{"waist dart", model.DartLine},
		},
		notches: []notch{{"armhole", true}},
	}
}

// drawWaistcoatBack draws the back; x is 0 on the cutting line of the centre
// back seam.
func drawWaistcoatBack(b body) (sheet, error) {
	shoulder := slope(19)
	centre := geom.Pt(0, 8)
	neck := geom.Pt(78+2*b.step, -18-b.down)
	tip := by(neck, shoulder.X*(126+2.6*b.step), shoulder.Y*126)
	facing := between(neck, tip, 0.43, 0.43, 0, 0)
	arm := geom.Pt(b.bust+53, 232+3.175*b.down)
	waist := geom.Pt(b.waist+76, 437+6.35*b.down)
	hem := geom.Pt(b.hip+18, 513+6.35*b.down)
	centreHem := geom.Pt(0, 516+6.35*b.down)
	s := sheet{
		edges: []geom.Path{
			neckline(centre, neck, shoulder, 0.6, 13),
			line(neck, facing),
			line(facing, tip),
			armhole(tip, arm, shoulder, 12, 0.52),
			curve(arm, between(arm, waist, 0, 1.0/3, -11.2, 0), by(waist, 0, -60), waist),
			curve(waist, by(waist, 0, 24), between(waist, hem, 0.7, 0.66, 0, 0), hem),
			curve(hem, between(hem, centreHem, 0.33, 0, 0, 2), between(hem, centreHem, 0.67, 1, 0, 0), centreHem),
			line(centreHem, centre),
		},
		lines: []geom.Path{
			line(geom.Pt(60, 130+b.down), geom.Pt(60, 370+b.down)),
			levelLine(0, waist, -aboveWaist),
			line(geom.Pt(0, arm.Y+14), geom.Pt(arm.X-8, arm.Y+14)),
			line(geom.Pt(0, waist.Y), geom.Pt(waist.X-8, waist.Y)),
			fisheye(geom.Pt(0.45*b.bust+12, waist.Y), 11, 150, 50),
		},
	}
	in, err := jointOf(s.edges[3], 0)
	s.notches = []float64{in}
	return s, err
}

func waistcoatBackFacing() part {
	return part{
		id: "back-facing", name: "Back neck facing", cut: 2,
		corners: []corner{
			{"centre back neck", model.Steps, false, "neckline", model.Plain, waistcoatSeam},
			{"neck point", model.Steps, false, "shoulder", model.Plain, waistcoatSeam},
			{"outer shoulder", model.Steps, false, "outer edge", model.Plain, 0},
			{"centre back foot", model.Steps, false, "centre back", model.Centre, waistcoatSeam},
		},
		lines: []mark{{"grain", model.Grain}},
	}
}

// drawWaistcoatBackFacing lies on the back with its neckline and shoulder.
func drawWaistcoatBackFacing(back sheet) sheet {
	neck, shoulder := back.edges[0], back.edges[1]
	outer, foot := shoulder.End(), by(neck.Start(), 0, 66)
	return sheet{
		edges: []geom.Path{
			neck, shoulder,
			curve(outer, outer.Add(slope(19).Perp().Scale(38)), between(foot, outer, 0.55, 0, 0, 0), foot),
			line(foot, neck.Start()),
		},
		lines: []geom.Path{line(by(neck.Start(), 26, 14), by(foot, 26, -10))},
	}
}
