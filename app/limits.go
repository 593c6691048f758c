package app

import (
	"fmt"
	"strconv"
	"strings"

	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/grading/check"
	"quarterstep/model"
	"quarterstep/model/measure"
)

// LimitFigure is a limit's value without its unit, as p shows lengths: "1/16",
// "1.6", "2.5".
func LimitFigure(p model.Pattern, l check.Limit, v float64) string {
	figure, _ := limitParts(p, l, v)
	return figure
}

// LimitUnit is the unit a limit's value is shown in: "in", "mm", "°", "steps".
func LimitUnit(p model.Pattern, l check.Limit) string {
	_, unit := limitParts(p, l, 0)
	return unit
}

// LimitShown is a limit's value with its unit: "1.6 mm", "5°".
func LimitShown(p model.Pattern, l check.Limit, v float64) string {
	figure, unit := limitParts(p, l, v)
	if l.Unit == check.Degrees {
		return figure + unit
	}
	return figure + " " + unit
}

func limitParts(p model.Pattern, l check.Limit, v float64) (figure, unit string) {
	switch {
	case l.Unit == check.MM && p.Unit == model.Inches:
		return measure.Format(v, measure.ThirtySeconds), measure.Inches.Name()
	case l.Unit == check.MM:
		return measure.Format(v, measure.TenthMM), "mm"
	case l.Unit == check.Degrees:
		return words.Digits(v, 4), "°"
	}
	return words.Digits(v, 4), l.Unit.Said()
}

// ReadLimit reads what was typed for a limit, in the limit's unit: a length, an
// angle or a number of steps. The error says in a sentence what to type.
func ReadLimit(p model.Pattern, l check.Limit, text string) (float64, error) {
	if l.Unit == check.MM {
		bare := measure.Millimetres
		if p.Unit == model.Inches {
			bare = measure.Inches
		}
		length, err := measure.Parse(text, bare)
		if err != nil {
			return 0, err
		}
		return length.MM(), l.Allows(length.MM())
	}
	bare := strings.TrimSpace(text)
	for _, word := range []string{"°", "degrees", "degree", "Grad", "steps", "step", "Größensprünge", "Größensprung", "Sprünge", "Sprung"} {
		bare = strings.TrimSpace(strings.TrimSuffix(bare, word))
	}
	v, err := strconv.ParseFloat(strings.ReplaceAll(bare, ",", "."), 64)
	if err != nil {
		return 0, words.Errorf("type a number of %s such as %s", l.Unit.Said(), words.Digits(l.Default, 6))
	}
	return v, l.Allows(v)
}

// SetLimits sets limits of p as typed, each "seams=1mm".
func SetLimits(p model.Pattern, typed []string) (model.Pattern, error) {
	for _, t := range typed {
		name, value, _ := strings.Cut(t, "=")
		l, ok := check.LimitNamed(strings.TrimSpace(name))
		if !ok {
			return p, NoLimit{name}
		}
		v, err := ReadLimit(p, l, value)
		if err != nil {
			return p, words.Errorf("setting the limit %q: %w", l.Name, err)
		}
		if p, err = edit.SetLimit(l.Name, v)(p); err != nil {
			return p, err
		}
	}
	return p, nil
}

// NoLimit is the error for a limit no check has.
type NoLimit struct{ Name string }

// Error names it.
func (e NoLimit) Error() string { return words.F("no check has a limit %q", e.Name) }

// LimitsText lists every limit of p with where its figure is from, for qstep.
//
// words: none
func LimitsText(p model.Pattern) string {
	var b strings.Builder
	for _, l := range check.Limits() {
		now := check.LimitOf(p, l.Name)
		fmt.Fprintf(&b, "%s: %s %s", l.Name, l.Title, LimitShown(p, l, now))
		if now != l.Default {
			fmt.Fprintf(&b, ", as usual %s", LimitShown(p, l, l.Default))
		}
		fmt.Fprintf(&b, "\n  %s (%s)\n", l.Source, l.Status)
	}
	return b.String()
}
