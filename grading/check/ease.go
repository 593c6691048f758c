package check

import (
	"fmt"
	"math"
	"unicode"
	"unicode/utf8"

	"quarterstep/assets/words"
	"quarterstep/grading/girth"
	"quarterstep/model"
	"quarterstep/model/geom"
)

// measure measures the girths by the stitching lines there are.
func (l *looking) measure(tape *girth.Tape) measured {
	rows, missing, err := tape.TableSewn(l.p, l.r, func(i int) ([]geom.Path, error) { return l.lines.line(i, newLine) })
	return measured{rows, missing, err}
}

// girths looks, at each girth that can be measured, whether the size wanted has
// lost or gained ease against the printed sizes, and what steps leave short there.
func (l *looking) girths(of measured) []Checked {
	if of.err != nil {
		return nil // no result of this pattern: the other checks speak of that
	}
	short := shortfall(l.p, l.r)
	var out []Checked
	for _, row := range of.rows {
		k := Checked{Check: "ease", Title: words.F("%s ease", capital(row.Measure.Said())), Say: l.easeSay(row)}
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
				What: pick(lost > 0, words.T("%s is too tight"), words.T("%s is too wide"), capital(row.Measure.Said())),
				Much: pick(lost > 0, words.T("%s tighter than the printed sizes are"), words.T("%s wider than the printed sizes are"), show(math.Abs(lost), l.p)),
				Say: pick(lost > 0, words.T("%s is %s tighter than the printed sizes are."), words.T("%s is %s wider than the printed sizes are."),
					capital(row.Measure.Said()), show(math.Abs(lost), l.p)),
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
	return words.F("%s; size %s has %s", say, row.Printed[best].Size, show(row.Printed[best].Ease, l.p))
}

// pick is one of two formats filled in.
func pick(first bool, one, other string, args ...any) string {
	if first {
		return fmt.Sprintf(one, args...)
	}
	return fmt.Sprintf(other, args...)
}

func easeAction(t model.Target) Action {
	if t.Method == model.BySteps {
		return Action{Do: ByChart, Label: words.T("Grade by chart")}
	}
	return Action{}
}

func easeHelp(t model.Target) string {
	if t.Method == model.BySteps {
		return words.T("Grade by chart.")
	}
	return words.T("Look at what the side seams follow there, and at corrections by eye.")
}

// capital is words that begin with a capital.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// opening is a name at the head of a few words, where it does not stand behind its
// piece's: languages that write nouns with capitals name the piece first.
func opening(name string) string {
	if words.Capitals() {
		return name
	}
	return capital(name)
}
