package scale

import (
	"math"

	"quarterstep/assets/words"
)

// slips are the ratios of a figure typed in one unit and meant in another.
var slips = []struct {
	ratio float64
	says  words.Text
}{
	{1 / 2.54, words.Text("as if inches were typed as centimetres")},
	{2.54, words.Text("as if centimetres were typed as inches")},
	{1 / 25.4, words.Text("as if inches were typed as millimetres")},
	{25.4, words.Text("as if millimetres were typed as inches")},
	{0.1, words.Text("as if centimetres were typed as millimetres")},
	{10, words.Text("as if millimetres were typed as centimetres")},
}

// nearSlip is how near a ratio must be to a slip, printer's error and all.
const nearSlip = 0.08

// mistyped is a sentence where the figures are those of another unit or of the
// other side, and empty where they are not.
func mistyped(p Printed, m Measured) string {
	near := func(measured, meant float64) bool { return math.Abs(measured/meant-1) <= nearSlip }
	if !near(m.Across, p.Across) && near(m.Across, p.Down) && near(m.Down, p.Across) {
		return words.F("These look like the two lengths the wrong way round: across is the one that should be %s, down the one that should be %s.",
			p.length(p.Across), p.length(p.Down))
	}
	for _, s := range slips {
		ax, ay := near(m.Across, p.Across*s.ratio), near(m.Down, p.Down*s.ratio)
		if !ax && !ay || !ax && !near(m.Across, p.Across) || !ay && !near(m.Down, p.Down) {
			continue
		}
		switch {
		case !ay:
			return words.F("The length across looks %s. Type the unit after the figure, such as 17.9 cm or 7 1/16 in.", s.says)
		case !ax:
			return words.F("The length down looks %s. Type the unit after the figure, such as 17.9 cm or 7 1/16 in.", s.says)
		}
		return words.F("Both lengths look %s. Type the unit after the figure, such as 17.9 cm or 7 1/16 in.", s.says)
	}
	return ""
}
