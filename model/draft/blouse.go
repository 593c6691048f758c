// words: none (names that said translates)
package draft

import (
	"quarterstep/assets/words"
	"quarterstep/model"
)

// Seam allowances of the blouse, mm: what home patterns have in metric sizes,
// common practice.
const (
	blouseSeam = 15
	blouseNeck = 10
	blouseHem  = 25
)

// Ease, mm.
const (
	// shoulderEase is by how much the back shoulder is longer than the front's,
	// 1/4 in: Every Woman's Encyclopaedia, vol. 4, about 1911, dressmaking
	// lessons.
	shoulderEase = 6.35
	// frontCapEase and backCapEase are by how much each half of the sleeve cap
	// is longer than its armhole: above the 3/8 in of a sewing school's rule,
	// seen quoted.
	frontCapEase = 10
	backCapEase  = 12
)

func demoNote() string {
	return words.T("Invented for trying Quarterstep: a wardrobe for the Lantern Street Players, a theatre that does not exist. Nobody has sewn it; make a toile first.")
}

// Blouse drafts the demo blouse in the named sizes of a chart that has bust,
// waist and hip, smallest first: front and back bodice, sleeve, cuff and two
// neck facings, with every seam meant to be sewn together declared as a link.
// Seams meet their stated ease on the stitching line within 0.001 mm. It fails
// on a size or measure the chart lacks.
func Blouse(chart model.SizeChart, sizes []string) (model.Pattern, error) {
	return blouse().pattern(chart, sizes)
}

// BlouseAt drafts the blouse at any place of the chart, pieces in the order of
// Blouse. At a size's own place its lines are those of Blouse exactly.
func BlouseAt(chart model.SizeChart, place float64) ([]Drafted, error) {
	return blouse().at(chart, place)
}

func blouse() garment {
	front, back, sleeve := blouseFront(), blouseBack(), blouseSleeve()
	frontFacing, backFacing, cuff := blouseFrontFacing(), blouseBackFacing(), blouseCuff()
	return garment{
		name:    "Lantern blouse",
		note:    demoNote(),
		unit:    model.Centimetres,
		parts:   []part{front, back, sleeve, frontFacing, backFacing, cuff},
		columns: [][]int{{0}, {3, 4, 5}, {1}, {2}},
		links: []model.Link{
			sameLine("front-neckline", edges("front", "stand top", "neckline"), edges("front-facing", "stand top", "neckline")),
			sameLine("front-facing-shoulder", edges("front", "shoulder by the neck"), edges("front-facing", "shoulder")),
			sameLine("back-neckline", edges("back", "neckline"), edges("back-facing", "neckline")),
			sameLine("back-facing-shoulder", edges("back", "shoulder by the neck"), edges("back-facing", "shoulder")),
			sewn("shoulders", edges("front", shoulderEdges...), edges("back", shoulderEdges...), shoulderEase),
			sewn("sides", edges("back", "side seam"), edges("front", frontSide...), 0),
			sewn("sides-below-the-waist", edges("back", belowWaist...), edges("front", belowWaist...), 0),
			capInArmhole(),
			sewn("sleeve-seam", edges("sleeve", "front sleeve seam"), backwards(edges("sleeve", "back sleeve seam")), 0),
			sewn("cuff", edges("sleeve", "hem"), backwards(edges("cuff", "top")), 0),
		},
		draft: draftBlouse,
	}
}

// capInArmhole sews the cap, from its back underarm over the crown, into back
// and front armhole. Between 18 and 25 mm of ease is wanted: below the inch to
// inch and a half that textbooks ask for woven cloth, as a sewing school's
// 3/8 in for each half has it, seen quoted.
func capInArmhole() model.Link {
	l := sewn("cap", backwards(edges("back", "armhole")), edges("sleeve", "back cap", "front cap"), 18)
	l.And = []model.Stretch{edges("front", "armhole")}
	l.Room = 7
	return l
}

var (
	shoulderEdges = []string{"shoulder by the neck", "shoulder"}
	frontSide     = []string{"side above the dart", "side seam"} // to the waist, its dart closed
	belowWaist    = []string{"side above the hip", "side below the hip"}
)

func draftBlouse(b body) ([]sheet, error) {
	back, err := drawBlouseBack(b)
	if err != nil {
		return nil, err
	}
	front, err := fitBlouseFront(b, back)
	if err != nil {
		return nil, err
	}
	sleeve, err := fitBlouseSleeve(b, front, back)
	if err != nil {
		return nil, err
	}
	cuff, err := drawBlouseCuff(sleeve)
	if err != nil {
		return nil, err
	}
	return []sheet{front, back, sleeve, drawBlouseFrontFacing(front), drawBlouseBackFacing(back), cuff}, nil
}
