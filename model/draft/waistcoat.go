// words: none (names that said translates)
package draft

import (
	"quarterstep/model"
)

// waistcoatSeam is the allowance on every edge of the waistcoat but the inner
// edges of its facings, mm: 5/8 in.
const waistcoatSeam = 15.875

// Waistcoat drafts the demo waistcoat in the named sizes of a chart that has
// bust, waist and hip, smallest first: front, back and two facings, in inches.
// Otherwise as Blouse.
func Waistcoat(chart model.SizeChart, sizes []string) (model.Pattern, error) {
	return waistcoat().pattern(chart, sizes)
}

// WaistcoatAt drafts the waistcoat at any place of the chart, pieces in the
// order of Waistcoat.
func WaistcoatAt(chart model.SizeChart, place float64) ([]Drafted, error) {
	return waistcoat().at(chart, place)
}

func waistcoat() garment {
	return garment{
		name:    "Lantern waistcoat",
		note:    demoNote(),
		unit:    model.Inches,
		parts:   []part{waistcoatFront(), waistcoatBack(), waistcoatFrontFacing(), waistcoatBackFacing()},
		columns: [][]int{{0}, {2}, {1}, {3}},
		links: []model.Link{
			sameLine("front-edge",
				edges("front", "hem by the facing", "point", "front edge", "V neck", "shoulder by the neck"),
				edges("front-facing", "hem", "point", "front edge", "V neck", "shoulder")),
			sameLine("back-neckline",
				edges("back", "neckline", "shoulder by the neck"),
				edges("back-facing", "neckline", "shoulder")),
			sewn("shoulders", edges("front", shoulderEdges...), edges("back", shoulderEdges...), shoulderEase),
			sewn("sides", edges("back", "side seam"), edges("front", "side seam"), 0),
			sewn("sides-below-the-waist", edges("back", "side below the waist"), edges("front", "side below the waist"), 0),
		},
		draft: draftWaistcoat,
	}
}

func draftWaistcoat(b body) ([]sheet, error) {
	back, err := drawWaistcoatBack(b)
	if err != nil {
		return nil, err
	}
	front, err := fitWaistcoatFront(b, back)
	if err != nil {
		return nil, err
	}
	return []sheet{front, back, drawWaistcoatFrontFacing(front), drawWaistcoatBackFacing(back)}, nil
}
