package edit

import (
	"fmt"
	"math"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/model"
)

// SetLength makes what is one group of LengthGroups, by its name or ID, longer
// by that many mm in all; below 0 shorter, and 0 takes it back. Where the
// lengthening in force lacked a line or a hem of the group, it has it now.
func SetLength(group string, by float64) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		g, ok := FindLength(LengthGroups(p), group)
		if !ok {
			return p, words.Errorf("the pattern has nothing to lengthen called %q", group)
		}
		if math.IsNaN(by) || math.Abs(by) > model.MaxLengthening {
			return p, words.Errorf("the pattern can be made up to %d mm longer or shorter there", model.MaxLengthening)
		}
		p.Lengths = lessGroup(p.Lengths, g)
		if by == 0 {
			return p, nil
		}
		l := model.Lengthening{ID: g.ID, Name: g.Name, By: by, Lines: g.Lines, Hems: g.Hems}
		if l.ID == "" || slices.ContainsFunc(p.Lengths, func(o model.Lengthening) bool { return o.ID == l.ID }) {
			l.ID = newLengthID(p.Lengths)
		}
		p.Lengths = append(p.Lengths, l)
		return p, nil
	}
}

// EvenLength puts what a lengthening puts in into every piece that goes together
// there, drawing the lengthen lines that are missing on linked pieces.
func EvenLength(id string) func(model.Pattern) (model.Pattern, error) {
	return func(p model.Pattern) (model.Pattern, error) {
		i := slices.IndexFunc(p.Lengths, func(l model.Lengthening) bool { return l.ID == id })
		if i < 0 {
			return p, words.Error("that lengthening is no longer there")
		}
		l := p.Lengths[i]
		out := p
		for _, at := range l.Lines {
			out = carryLine(out, at)
		}
		out, err := SetLength(id, l.By)(out)
		if err != nil {
			return p, err
		}
		return out, nil
	}
}

// lessGroup is the lengthenings less the lines and hems of g; those with none left
// are gone.
func lessGroup(all []model.Lengthening, g LengthGroup) []model.Lengthening {
	var out []model.Lengthening
	for _, l := range all {
		l.Lines = slices.DeleteFunc(slices.Clone(l.Lines), func(at model.PieceLine) bool { return slices.Contains(g.Lines, at) })
		l.Hems = slices.DeleteFunc(slices.Clone(l.Hems), g.hasHem)
		if len(l.Lines)+len(l.Hems) > 0 {
			out = append(out, l)
		}
	}
	return out
}

func newLengthID(all []model.Lengthening) string {
	for n := len(all) + 1; ; n++ {
		id := fmt.Sprintf("length-%d", n)
		if !slices.ContainsFunc(all, func(l model.Lengthening) bool { return l.ID == id }) {
			return id
		}
	}
}
