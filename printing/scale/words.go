package scale

import (
	"math"
	"strconv"
	"strings"

	"quarterstep/assets/words"
	"quarterstep/model/measure"
)

// percent writes 0.9942 as "99.4 %".
func percent(r float64) string {
	return strings.Replace(strconv.FormatFloat(math.Round(r*1000)/10, 'f', -1, 64), ".", words.Decimal(), 1) + " %"
}

// length shows mm in the unit chosen.
func (p Printed) length(mm float64) string {
	return measure.FormatMM(mm, p.Unit)
}

func (p Printed) fine() string {
	kx, ky := p.With.Scale()
	if kx == 1 && ky == 1 {
		return words.T("This printer is true to scale. Nothing needs to change.")
	}
	return words.T("With its correction this printer is true to scale. The correction stays as it is.")
}

// corrected says what the printer does and what it will do, over a length at
// which a small error shows: that of a bodice's front.
func (p Printed) corrected(v Verdict) []string {
	out := []string{words.F("This printer brings lengths out at %s across and %s down. It will be corrected by that from now on.",
		percent(v.Across), percent(v.Down))}
	worst := v.Across
	if math.Abs(v.Down-1) > math.Abs(v.Across-1) {
		worst = v.Down
	}
	far := 600.0
	if p.Unit == measure.Inches {
		far = 24 * 25.4
	}
	left := words.F("Left as it is, %s of a pattern would come out %s too short.", p.length(far), p.length((1-worst)*far))
	if worst > 1 {
		left = words.F("Left as it is, %s of a pattern would come out %s too long.", p.length(far), p.length((worst-1)*far))
	}
	return append(out, left,
		words.T("Print the test page once more to see it come out right."))
}

// settingSays says what the setting looks like and what to choose.
func settingSays(p Printed, v Verdict, causes []cause) []string {
	head := words.F("Lengths come out at %s across and %s down.", percent(v.Across), percent(v.Down))
	if len(causes) == 0 {
		return []string{
			head + " " + words.T("That is more than a printer is out by itself, so some setting changes the size."),
			words.F(`Choose "Actual size" or "100 %%" in the print window, with "Fit to page" off and %s as the paper, and print the test page again.`, p.Paper.Said()),
		}
	}
	var looks, choose []string
	for _, c := range causes {
		looks = append(looks, c.says)
		if len(choose) == 0 || choose[len(choose)-1] != c.choose {
			choose = append(choose, c.choose)
		}
	}
	return append(append([]string{head + " " + words.F("It looks as if %s.", strings.Join(looks, words.T(", or ")))}, choose...), words.T("Then print the test page again."))
}
