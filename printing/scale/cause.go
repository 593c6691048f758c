package scale

import (
	"math"

	"quarterstep/assets/words"
	"quarterstep/printing/tile"
)

// cause is a print setting that brings lengths out at Least to Most of their
// size, the same across and down.
type cause struct {
	least, most float64
	says        string // what it looks like
	choose      string // what to choose instead
}

// What printers leave white on each side when they fit a page to the paper,
// mm: 3 is what inkjets do, 18 pt what the usual PostScript printer does (its
// model file in CUPS). Between them A4 comes out at 94 to 97 %.
const (
	leastMargin = 3.0
	mostMargin  = 18 * 25.4 / 72
)

// Borderless printing enlarges the page so that its edges go beyond the
// paper's. From memory: the three steps of one common driver reach about 3 %.
const (
	leastBorderless = 1.015
	mostBorderless  = 1.035
)

// fitAt is what a page comes out at when it is made to fit paper t less a
// margin on each side.
func fitAt(page, t tile.Paper, margin float64) float64 {
	return math.Min((t.Width-2*margin)/page.Width, (t.Height-2*margin)/page.Height)
}

// fillAt is what it comes out at when it is made to cover paper t.
func fillAt(page, t tile.Paper) float64 {
	return math.Max(t.Width/page.Width, t.Height/page.Height)
}

// causesOf lists the settings that bring the page out so, the commonest first.
// Across and down must agree as well as two readings can.
func causesOf(p Printed, across, down float64) []cause {
	slackX, slackY := misread/p.Across, misread/p.Down
	if math.Abs(across-down) > slackX+slackY {
		return nil
	}
	var out []cause
	for _, c := range settings(p.Paper, math.Max(mostMargin, p.Margin)) {
		if within(across, c, slackX) && within(down, c, slackY) {
			out = append(out, c)
		}
	}
	return out
}

func within(r float64, c cause, slack float64) bool {
	return r >= c.least-slack && r <= c.most+slack
}

// telling is how far a page must be brought out of its size by another paper
// for that to tell anything.
const telling = 0.01

// settings lists what can go wrong with a page on that paper, by a printer that
// leaves at most that much white.
func settings(page tile.Paper, white float64) []cause {
	out := []cause{{
		fitAt(page, page, white), fitAt(page, page, leastMargin),
		words.T("the page was shrunk to fit inside the printer's margins"),
		words.T(`Choose "Actual size" or "100 %" in the print window, with "Fit to page" off.`),
	}}
	for _, t := range others(page) {
		choose := words.F(`Choose "Actual size" or "100 %%" in the print window, with "Fit to page" off, and %s as the paper, both there and in the printer's own settings.`, page.Said())
		most := fitAt(page, t, 0)
		if most > 1-telling {
			most = fitAt(page, t, leastMargin)
		}
		out = append(out, cause{
			fitAt(page, t, white), most,
			words.F("the %s page was shrunk to fit on %s", page.Said(), t.Said()), choose,
		})
		if fill := fillAt(page, t); fill > 1+telling {
			out = append(out, cause{fill, fill, words.F("the %s page was enlarged to cover %s", page.Said(), t.Said()), choose})
		}
	}
	out = append(out, cause{
		leastBorderless, mostBorderless,
		words.T("the page was enlarged for printing without a border"),
		words.T(`Turn "Borderless" off in the printer's settings, and choose "Actual size" or "100 %".`),
	})
	for _, n := range []struct {
		says string
		page tile.Paper
	}{
		{words.T("two pages were put on one sheet"), tile.Paper{Width: page.Height / 2, Height: page.Width}},
		{words.T("four pages were put on one sheet"), tile.Paper{Width: page.Width / 2, Height: page.Height / 2}},
	} {
		out = append(out, cause{
			fitAt(page, n.page, white), fitAt(page, n.page, 0),
			n.says,
			words.T(`Choose one page on each sheet, and "Actual size" or "100 %".`),
		})
	}
	return out
}

// homePapers are what a print window has chosen before anyone looks.
var homePapers = []string{"A4", "Letter", "A3", "Tabloid"}

// others are the papers that a page may have been put on by mistake: those of
// the home not much larger than its own.
func others(page tile.Paper) []tile.Paper {
	const larger = 1.1
	var out []tile.Paper
	for _, t := range tile.Papers() {
		for _, name := range homePapers {
			if t.Name == name && t.Name != page.Name && t.Width*t.Height <= larger*page.Width*page.Height {
				out = append(out, t)
			}
		}
	}
	return out
}
