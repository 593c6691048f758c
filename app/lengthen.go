package app

import (
	"errors"
	"fmt"
	"strings"

	"quarterstep/app/edit"
	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/measure"
)

// LengthNames is the names of what of p can be made longer or shorter.
func LengthNames(p model.Pattern) []string {
	groups := edit.LengthGroups(p)
	out := make([]string, len(groups))
	for i, g := range groups {
		out[i] = g.Name
	}
	return out
}

// NoLength says that a pattern has nothing of that name to lengthen.
type NoLength struct {
	Name  string
	Names []string // what it has
}

func (e NoLength) Error() string {
	if len(e.Names) == 0 {
		return words.T("the pattern has no lengthen line and no hem")
	}
	return words.F("the pattern has nothing to lengthen called %q; it has %s", e.Name, strings.Join(e.Names, ", "))
}

// Lengthen makes p longer by what is asked, each "NAME=LENGTH", such as
// "Hem=2cm" or "Above the waist=-10mm"; below nothing is shorter. A name the
// pattern lacks is a NoLength. What cannot be put into a piece is an error in
// plain words.
func Lengthen(p model.Pattern, asked []string) (model.Pattern, error) {
	for _, a := range asked {
		i := strings.LastIndex(a, "=")
		if i < 0 {
			return p, words.Errorf("%q has no length; say it like Hem=20mm", a)
		}
		by, err := measure.Parse(a[i+1:], measure.Millimetres)
		if err != nil {
			return p, fmt.Errorf("%s: %w", a[:i], err)
		}
		if _, ok := edit.FindLength(edit.LengthGroups(p), a[:i]); !ok {
			return p, NoLength{a[:i], LengthNames(p)}
		}
		if p, err = edit.SetLength(a[:i], by.MM())(p); err != nil {
			return p, err
		}
	}
	if len(asked) == 0 {
		return p, nil
	}
	r, err := Grade(p)
	if err != nil {
		return p, err
	}
	return p, LengthRefused(p, r)
}

// LengthRefused says in plain words why what p puts into the length of one of
// its pieces is not in it as graded; nil where all is.
func LengthRefused(p model.Pattern, r grading.Result) error {
	for _, g := range edit.LengthGroups(p) {
		for _, id := range g.Pieces {
			if q := r.Pieces[p.PieceIndex(id)]; g.By != 0 && q.Put == nil {
				return errors.New(q.Unlaid)
			}
		}
	}
	return nil
}

// LengthText says what of p is made longer or shorter, a sentence each.
func LengthText(p model.Pattern) []string {
	var out []string
	for _, g := range edit.LengthGroups(p) {
		if g.By == 0 {
			continue
		}
		names := make([]string, len(g.Pieces))
		for i, id := range g.Pieces {
			names[i] = p.Pieces[p.PieceIndex(id)].Name
		}
		if g.By < 0 {
			out = append(out, words.F("%s: %s shorter in %s.", g.Name, measure.FormatMM(-g.By, p.Unit), strings.Join(names, ", ")))
		} else {
			out = append(out, words.F("%s: %s longer in %s.", g.Name, measure.FormatMM(g.By, p.Unit), strings.Join(names, ", ")))
		}
	}
	return out
}
