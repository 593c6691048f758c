package handsheet

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/model/measure"
)

// Ruler is what a sheet's amounts are read off.
type Ruler struct {
	unit  measure.Unit
	grain measure.Grain
}

// exactBeyond is how far an amount may be rounded before its exact value is
// put beside it, mm: 1/64 in.
const exactBeyond = inch / 64

const inch = 25.4

// RulerFor is the ruler for a sheet: millimetres to a half, or inches to 1/16;
// to 1/32 where the printed gaps were made in 1/32, that is, all of them lie on
// a 1/32 and not all on a 1/16, to 0.02 mm.
func RulerFor(s Sheet, unit measure.Unit) Ruler {
	if unit != measure.Inches {
		return Ruler{measure.Millimetres, measure.HalfMM}
	}
	const same = 0.02
	onAll := func(parts float64) bool {
		for _, p := range s.Points {
			for _, m := range []Moves{p.Out, p.Down} {
				for _, g := range m.Gaps {
					if math.IsNaN(g) {
						continue
					}
					if off := math.Remainder(g, inch/parts); math.Abs(off) > same {
						return false
					}
				}
			}
		}
		return true
	}
	if !onAll(16) && onAll(32) {
		return Ruler{measure.Inches, measure.ThirtySeconds}
	}
	return Ruler{measure.Inches, measure.Sixteenths}
}

// Amount is mm, at least 0, as it is read off the ruler, and its exact value
// where that is more than 1/64 in away: "1 11/16" and "1.703".
func (r Ruler) Amount(mm float64) (shown, exact string) {
	mm = math.Abs(mm)
	shown = measure.Format(mm, r.grain)
	read, err := measure.Parse(shown, r.unit)
	if err != nil || math.Abs(read.MM()-mm) <= exactBeyond {
		return shown, ""
	}
	if r.unit == measure.Inches {
		mm /= inch
	}
	return shown, words.Figure(mm, 3)
}

// unitWord is the ruler's unit as it is shown.
func (r Ruler) unitWord() string {
	if r.unit == measure.Inches {
		return words.C("inches", "in")
	}
	return string(r.unit)
}

// zero reports that mm reads as nothing on the ruler.
func (r Ruler) zero(mm float64) bool { return measure.Format(mm, r.grain) == "0" }

// way is the word for a direction: out or in across the grain, down or up
// along it; the direction's own name where there is nothing to add.
func (r Ruler) way(mm float64, along bool) string {
	ways := [3]string{words.C("way on the sheet", "out"), words.C("way on the sheet", "in"), words.C("way on the sheet", "across")}
	if along {
		ways = [3]string{words.C("way on the sheet", "down"), words.C("way on the sheet", "up"), words.C("way on the sheet", "along")}
	}
	switch {
	case r.zero(mm):
		return ways[2]
	case mm < 0:
		return ways[1]
	}
	return ways[0]
}

// cell is an amount in a row whose word is way: with its own word where it goes
// the other way.
func (r Ruler) cell(mm float64, along bool, way string) (shown, exact string) {
	if math.IsNaN(mm) {
		return "–", ""
	}
	shown, exact = r.Amount(mm)
	if own := r.way(mm, along); own != way && !r.zero(mm) {
		shown = own + " " + shown
	}
	return shown, exact
}
