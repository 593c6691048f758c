package check

import (
	"fmt"
	"math"
	"strings"

	"quarterstep/grading/girth"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// girths looks, at each girth that can be measured, whether the size wanted has
// lost or gained ease against the printed sizes, and what steps leave short there.
func (l *looking) girths(tape *girth.Tape) []Checked {
	rows, _, err := tape.TableSewn(l.p, l.r, func(i int) ([]geom.Path, error) { return l.lines.line(i, newLine) })
	if err != nil {
		return nil // no result of this pattern: the other checks speak of that
	}
	short := shortfall(l.p, l.r)
	var out []Checked
	for _, row := range rows {
		k := Checked{Check: "ease", Title: capital(string(row.Measure)) + " ease", Say: l.easeSay(row)}
		for _, f := range short {
			if f.Measure == row.Measure {
				k.Findings = append(k.Findings, f)
				l.told[row.Measure] = true
			}
		}
		lost := row.Lost()
		if math.Abs(lost) > l.limit(LimitEase) {
			k.Findings = append(k.Findings, Finding{
				Code: "ease", Measure: row.Measure, By: lost, Look: true,
				What: fmt.Sprintf("%s is too %s", capital(string(row.Measure)), tight(lost)),
				Much: fmt.Sprintf("%s %s than the printed sizes are", show(math.Abs(lost), l.p), tighter(lost)),
				Say:  fmt.Sprintf("%s is %s %s than the printed sizes are.", capital(string(row.Measure)), show(math.Abs(lost), l.p), tighter(lost)),
				Help: easeHelp(l.p.Target), Action: easeAction(l.p.Target),
			})
		}
		out = append(out, k)
	}
	return out
}

// easeSay is "106 mm; size 40 has 114": against the nearest printed size.
func (l *looking) easeSay(row girth.Row) string {
	say := show(row.Target.Ease, l.p)
	best, least := -1, math.Inf(1)
	for i, g := range row.Printed {
		if d := math.Abs(g.Body - row.Target.Body); d < least {
			best, least = i, d
		}
	}
	if best < 0 {
		return say
	}
	return fmt.Sprintf("%s; size %s has %s", say, row.Printed[best].Size, show(row.Printed[best].Ease, l.p))
}

func tight(lost float64) string {
	if lost > 0 {
		return "tight"
	}
	return "wide"
}

func tighter(lost float64) string {
	if lost > 0 {
		return "tighter"
	}
	return "wider"
}

func easeAction(t model.Target) Action {
	if t.Method == model.BySteps {
		return Action{Do: ByChart, Label: "Grade by chart"}
	}
	return Action{}
}

func easeHelp(t model.Target) string {
	if t.Method == model.BySteps {
		return "Grade by chart."
	}
	return "Look at what the side seams follow there, and at corrections by eye."
}

func capital(s string) string {
	return strings.ToUpper(s[:1]) + s[1:]
}
