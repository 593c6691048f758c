package edit

import (
	"maps"

	"quarterstep/assets/words"
	"quarterstep/grading/check"
	"quarterstep/model"
)

// SetLimit sets how far a check lets something go, by the limit's name and in
// its unit. It fails on a limit there is not, and on a value it cannot have.
func SetLimit(name string, to float64) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		l, ok := check.LimitNamed(name)
		if !ok {
			return p, words.Errorf("no check has a limit %q", name)
		}
		if err := l.Allows(to); err != nil {
			return p, err
		}
		limits := maps.Clone(p.Limits)
		if limits == nil {
			limits = map[string]float64{}
		}
		limits[name] = to
		p.Limits = limits
		return p, nil
	}
}

// ResetLimit sets a limit back to what is usual.
func ResetLimit(name string) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		limits := maps.Clone(p.Limits)
		delete(limits, name)
		if len(limits) == 0 {
			limits = nil // as a pattern whose limits nobody touched
		}
		p.Limits = limits
		return p, nil
	}
}
