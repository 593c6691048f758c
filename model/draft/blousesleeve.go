// words: none (names that said translates)
package draft

import (
	"quarterstep/model"
	"quarterstep/model/geom"
)

func blouseSleeve() part {
	return part{
		id: "sleeve", name: "Sleeve", cut: 2,
		corners: []corner{
			{"back underarm", model.Bust, false, "back cap", model.Plain, blouseSeam},
			{"crown", model.Steps, true, "front cap", model.Plain, blouseSeam},
			{"front underarm", model.Bust, false, "front sleeve seam", model.Plain, blouseSeam},
			{"front hem", model.Bust, false, "hem", model.Plain, blouseSeam},
			{"back hem", model.Bust, false, "back sleeve seam", model.Plain, blouseSeam},
		},
		lines: []mark{
			{"grain", model.Grain},
			{"lengthen or shorten here", model.Lengthen},
		},
		notches: []notch{{"back cap", true}, {"front cap", false}},
		// The height of the cap must follow the width of the sleeve and the
		// armhole, which go by the bust.
		along: map[string]model.Measure{"crown": model.Bust},
	}
}

var sleeveStretches = [][]string{{"back cap"}, {"front cap"}, {"front sleeve seam"}}

// fitBlouseSleeve draws the sleeve so that each half of its cap meets its
// armhole with ease and the two ends of its seam meet each other.
func fitBlouseSleeve(b body, front, back sheet) (sheet, error) {
	sewnFront, err := blouseFront().stitch(front.edges)
	if err != nil {
		return sheet{}, err
	}
	sewnBack, err := blouseBack().stitch(back.edges)
	if err != nil {
		return sheet{}, err
	}
	inFront, err := sewnFront.length("armhole")
	if err != nil {
		return sheet{}, err
	}
	inBack, err := sewnBack.length("armhole")
	if err != nil {
		return sheet{}, err
	}
	sleeve := blouseSleeve()
	fit, err := settle([]float64{0, 0, 0}, func(x []float64) ([]float64, error) {
		s, err := sleeve.stitch(drawBlouseSleeve(b, x[0], x[1], x[2]).edges)
		if err != nil {
			return nil, err
		}
		seam, err := s.length("back sleeve seam")
		if err != nil {
			return nil, err
		}
		return less(s, []float64{inBack + backCapEase, inFront + frontCapEase, seam}, sleeveStretches...)
	})
	if err != nil {
		return sheet{}, err
	}
	s := drawBlouseSleeve(b, fit[0], fit[1], fit[2])
	sewnSleeve, err := sleeve.stitch(s.edges)
	if err != nil {
		return sheet{}, err
	}
	return s, notchCap(&s, sewnSleeve, [2]sheet{back, front}, [2]stitching{sewnBack, sewnFront})
}

// notchCap marks the cap where the armholes' notches meet it: as far from the
// underarm, along the stitching line, as they are.
func notchCap(s *sheet, sleeve stitching, armholes [2]sheet, sewn [2]stitching) error {
	s.notches = make([]float64, 2)
	for i, half := range [2]string{"back cap", "front cap"} {
		at, err := sewn[i].sewnAt(armholes[i].edges, "armhole", armholes[i].notches[0])
		if err != nil {
			return err
		}
		whole, err := sewn[i].length("armhole")
		if err != nil {
			return err
		}
		from := whole - at // the underarm
		if half == "front cap" {
			long, err := sleeve.length(half)
			if err != nil {
				return err
			}
			from = long - from
		}
		if s.notches[i], err = sleeve.cutAt(s.edges, half, from); err != nil {
			return err
		}
	}
	return nil
}

// drawBlouseSleeve draws the sleeve; forward and higher move its crown, longer
// its front hem corner.
func drawBlouseSleeve(b body, forward, higher, longer float64) sheet {
	crown := geom.Pt(4+forward, -150-4*b.down-higher)
	back, front := geom.Pt(-0.6*b.bust-47, 0), geom.Pt(0.6*b.bust+49, 0)
	length := 345 + 3*b.down
	frontHem, backHem := geom.Pt(0.4*b.bust+47, length+longer), geom.Pt(-0.4*b.bust-45, length)
	return sheet{
		edges: []geom.Path{
			capBack.from(back, crown),
			capFront.from(front, crown).Reverse(),
			line(front, frontHem),
			line(frontHem, backHem),
			line(backHem, back),
		},
		lines: []geom.Path{
			line(geom.Pt(0, 20), geom.Pt(0, 240)),
			line(by(back.Lerp(backHem, 0.5), 12, 0), by(front.Lerp(geom.Pt(frontHem.X, length), 0.5), -12, 0)),
		},
	}
}

func blouseCuff() part {
	return part{
		id: "cuff", name: "Cuff", cut: 2,
		corners: []corner{
			{"upper left", model.Bust, false, "top", model.Plain, blouseSeam},
			{"upper right", model.Bust, false, "right end", model.Plain, blouseSeam},
			{"lower right", model.Bust, false, "lower edge", model.Plain, blouseSeam},
			{"lower left", model.Bust, false, "left end", model.Plain, blouseSeam},
		},
		lines: []mark{{"grain", model.Grain}, {"fold", model.FoldLine}},
	}
}

// drawBlouseCuff draws a straight cuff, folded along its middle to 50 mm, as
// long as the sleeve's hem.
func drawBlouseCuff(sleeve sheet) (sheet, error) {
	const deep = 2*50 + 2*blouseSeam
	sewn, err := blouseSleeve().stitch(sleeve.edges)
	if err != nil {
		return sheet{}, err
	}
	hem, err := sewn.length("hem")
	if err != nil {
		return sheet{}, err
	}
	half := hem/2 + blouseSeam
	a, c := geom.Pt(-half, 0), geom.Pt(half, deep)
	z, d := geom.Pt(half, 0), geom.Pt(-half, deep)
	return sheet{
		edges: []geom.Path{line(a, z), line(z, c), line(c, d), line(d, a)},
		lines: []geom.Path{
			line(geom.Pt(0, 25), geom.Pt(0, deep-25)),
			line(geom.Pt(-half, deep/2), geom.Pt(half, deep/2)),
		},
	}, nil
}
