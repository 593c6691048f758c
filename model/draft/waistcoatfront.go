// words: none (names that said translates)
package draft

import (
	"quarterstep/model"
	"quarterstep/model/geom"
)

// overlapEdge is where the cutting line of the front edge lies: 5/8 in of
// overlap and a seam beyond the centre front.
const overlapEdge = -2 * waistcoatSeam

func waistcoatFront() part {
	return part{
		id: "front", name: "Front", cut: 2, lining: 2,
		corners: []corner{
			{"foot of the V", model.Steps, false, "V neck", model.Plain, waistcoatSeam},
			{"neck point", model.Steps, false, "shoulder by the neck", model.Plain, waistcoatSeam},
			{"facing mark", model.Steps, true, "shoulder", model.Plain, waistcoatSeam},
			{"shoulder tip", model.Steps, false, "armhole", model.Plain, waistcoatSeam},
			{"underarm", model.Bust, false, "side seam", model.Plain, waistcoatSeam},
			{"side waist", model.Waist, true, "side below the waist", model.Plain, waistcoatSeam},
			{"side hem", model.Hip, false, "hem", model.Plain, waistcoatSeam},
			{"facing mark at the hem", model.Hip, true, "hem by the facing", model.Plain, waistcoatSeam},
			{"tip of the point", model.Steps, false, "point", model.Plain, waistcoatSeam},
			{"front edge hem", model.Steps, false, "front edge", model.Centre, waistcoatSeam},
		},
		lines: []mark{
			{"grain", model.Grain},
			{"centre front", model.Inner},
			{"lengthen above the waist", model.Lengthen},
			{"bust line", model.BustLine},
			{"waist line", model.WaistLine},
			{"waist dart", model.DartLine},
		},
		notches: []notch{{"armhole", false}, {"V neck", false}},
	}
}

// fitWaistcoatFront draws the front so that its shoulder and its side, above
// and below the waist, meet the back's.
func fitWaistcoatFront(b body, back sheet) (sheet, error) {
	stretches := [][]string{shoulderEdges, {"side seam"}, {"side below the waist"}}
	sewnBack, err := waistcoatBack().stitch(back.edges)
	if err != nil {
		return sheet{}, err
	}
	want, err := sewnBack.lengths(stretches...)
	if err != nil {
		return sheet{}, err
	}
	want[0] -= shoulderEase
	fit, err := settle([]float64{0, 0, 0}, func(x []float64) ([]float64, error) {
		s, err := waistcoatFront().stitch(drawWaistcoatFront(b, x[0], x[1], x[2]).edges)
		if err != nil {
			return nil, err
		}
		return less(s, want, stretches...)
	})
	if err != nil {
		return sheet{}, err
	}
	s := drawWaistcoatFront(b, fit[0], fit[1], fit[2])
	in, err := jointOf(s.edges[3], 0)
	s.notches = []float64{in, 120}
	return s, err
}

// drawWaistcoatFront draws the front; reach lengthens the shoulder, lower the
// side above the waist, longer the side below it.
func drawWaistcoatFront(b body, reach, lower, longer float64) sheet {
	shoulder := slope(22)
	neck := geom.Pt(64+2*b.step, -18-b.down)
	tip := by(neck, shoulder.X*(120+2.6*b.step+reach), shoulder.Y*(120+reach))
	facing := between(neck, tip, 0.45, 0.45, 0, 0)
	arm := geom.Pt(b.bust+41, 226+3.175*b.down)
	waist := geom.Pt(b.waist+64, 431+6.35*b.down+lower)
	hem := geom.Pt(b.hip+8, 507+6.35*b.down+lower+longer)
	point := geom.Pt(42, 585+6.35*b.down)
	mark := between(point, hem, 0.25, 0.25, 0, 0)
	foot := geom.Pt(overlapEdge, 532+6.35*b.down)
	v := geom.Pt(overlapEdge, 238+3.175*b.down)
	dart := geom.Pt(0.4*b.bust, 431+6.35*b.down)
	return sheet{
		edges: []geom.Path{
			curve(v, by(v, 34, -74), by(neck, -20, 78), neck),
			line(neck, facing),
			line(facing, tip),
			armhole(tip, arm, shoulder, 18, 0.56),
			curve(arm, between(arm, waist, 0, 1.0/3, -11.2, 0), by(waist, 0, -60), waist),
			curve(waist, by(waist, 0, 24), between(waist, hem, 0.7, 0.66, 0, 0), hem),
			line(hem, mark),
			line(mark, point),
			line(point, foot),
			line(foot, v),
		},
		lines: []geom.Path{
			line(geom.Pt(60, 180+b.down), geom.Pt(60, 380+b.down)),
			line(geom.Pt(0, v.Y-40), geom.Pt(0, 545+6.35*b.down)),
			levelLine(overlapEdge, waist, -aboveWaist),
			line(geom.Pt(overlapEdge, arm.Y+14), by(arm, -8, 14)),
			line(geom.Pt(overlapEdge, dart.Y), geom.Pt(waist.X-8, dart.Y)),
			fisheye(dart, 9, 125, 52),
		},
	}
}

func waistcoatFrontFacing() part {
	return part{
		id: "front-facing", name: "Front facing", cut: 2,
		corners: []corner{
			{"foot of the V", model.Steps, false, "V neck", model.Plain, waistcoatSeam},
			{"neck point", model.Steps, false, "shoulder", model.Plain, waistcoatSeam},
			{"outer shoulder", model.Steps, false, "inner edge", model.Plain, 0},
			{"inner hem", model.Hip, false, "hem", model.Plain, waistcoatSeam},
			{"tip of the point", model.Steps, false, "point", model.Plain, waistcoatSeam},
			{"front edge hem", model.Steps, false, "front edge", model.Centre, waistcoatSeam},
		},
		lines:   []mark{{"grain", model.Grain}, {"lengthen above the waist", model.Lengthen}},
		notches: []notch{{"V neck", false}},
	}
}

// drawWaistcoatFrontFacing lies on the front along its shoulder, V neck, front
// edge and point.
func drawWaistcoatFrontFacing(front sheet) sheet {
	v, shoulder, hem, point, edge := front.edges[0], front.edges[1], front.edges[7], front.edges[8], front.edges[9]
	outer, mark := shoulder.End(), hem.Start()
	above := front.lines[2].Start()
	inner := curve(outer, outer.Add(slope(22).Perp().Scale(180)), by(mark, -46, -210), mark)
	return sheet{
		edges: []geom.Path{v, shoulder, inner, hem, point, edge},
		lines: []geom.Path{
			line(by(edge.End(), 36, 30), by(edge.End(), 36, 190)),
			line(above, by(above, 70, 0)),
		},
		notches: front.notches[1:],
	}
}
