// words: none (names that said translates)
package draft

import (
	"quarterstep/model"
	"quarterstep/model/geom"
)

// facingDeep is how far the facings reach below the neckline at the centre, mm.
const facingDeep = 68

func blouseFrontFacing() part {
	return part{
		id: "front-facing", name: "Front neck facing", cut: 2,
		corners: []corner{
			{"front edge neck", model.Steps, false, "stand top", model.Plain, blouseNeck},
			{"centre front neck", model.Steps, true, "neckline", model.Plain, blouseNeck},
			{"neck point", model.Steps, false, "shoulder", model.Plain, blouseSeam},
			{"outer shoulder", model.Steps, false, "outer edge", model.Plain, 0},
			{"front edge foot", model.Steps, false, "front edge", model.Centre, blouseSeam},
		},
		lines: []mark{{"grain", model.Grain}},
	}
}

// drawBlouseFrontFacing lies on the front with its neckline and shoulder.
func drawBlouseFrontFacing(front sheet) sheet {
	stand, neck, shoulder := front.edges[0], front.edges[1], front.edges[2]
	outer := shoulder.End()
	foot := by(stand.Start(), 0, facingDeep)
	centre := by(stand.End(), 0, facingDeep)
	square := frontSlope.Perp()
	round := curve(outer, outer.Add(square.Scale(72)), between(centre, outer, 0.52, 0, 0, 0), centre)
	return sheet{
		edges: []geom.Path{
			stand, neck, shoulder,
			geom.Join(round, line(centre, foot)),
			line(foot, stand.Start()),
		},
		lines: []geom.Path{line(by(stand.Start(), 18, 14), by(foot, 18, -8))},
	}
}

func blouseBackFacing() part {
	return part{
		id: "back-facing", name: "Back neck facing", cut: 1,
		corners: []corner{
			{"centre back neck", model.Steps, false, "neckline", model.Plain, blouseNeck},
			{"neck point", model.Steps, false, "shoulder", model.Plain, blouseSeam},
			{"outer shoulder", model.Steps, false, "outer edge", model.Plain, 0},
			{"centre back foot", model.Steps, false, "centre back", model.Fold, 0},
		},
		lines: []mark{{"grain", model.Grain}},
	}
}

// drawBlouseBackFacing lies on the back with its neckline and shoulder.
func drawBlouseBackFacing(back sheet) sheet {
	neck, shoulder := back.edges[0], back.edges[1]
	outer := shoulder.End()
	foot := by(neck.Start(), 0, facingDeep)
	square := backSlope.Perp()
	return sheet{
		edges: []geom.Path{
			neck, shoulder,
			curve(outer, outer.Add(square.Scale(40)), between(foot, outer, 0.55, 0, 0, 0), foot),
			line(foot, neck.Start()),
		},
		lines: []geom.Path{line(by(neck.Start(), 14, 12), by(foot, 14, -8))},
	}
}
