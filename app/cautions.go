package app

import (
	"slices"
	"strings"
	"unicode"

	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/measure"
)

// childWords in the name of a size chart say that it is one of children.
var childWords = []string{
	"child", "children", "kid", "kids", "boy", "boys", "girl", "girls", "baby", "babies",
	"infant", "infants", "toddler", "toddlers", "teen", "teens", "youth", "months", "years",
	"kinder", "kindergrößen", "kleinkinder", "jungen", "knaben", "mädchen", "babys", "jugendliche", "monate", "jahre",
}

// forChildren reports whether a size chart speaks of children, by its name.
func forChildren(c model.SizeChart) bool {
	said := strings.FieldsFunc(strings.ToLower(c.ID+" "+c.Name), func(r rune) bool { return !unicode.IsLetter(r) })
	return slices.ContainsFunc(said, func(w string) bool { return slices.Contains(childWords, w) })
}

// cautions is what to mind before cutting. The names of rules are from memory.
func (a accounts) cautions() []string {
	square := "5 cm"
	if a.p.Unit == model.Inches {
		square = "2 " + measure.Inches.Name()
	}
	out := []string{
		words.F("Print at 100 %%, with \"fit to page\" off. Measure the test square with a ruler: cut nothing before it is %s each way.", square),
	}
	if a.workedOut() {
		out = append(out, words.F("Sew a toile first: %s was not printed but worked out, and nobody has worn it yet.", sizesNamed([]string{a.p.Target.NameOn(a.p.Chart)})))
	} else {
		out = append(out, words.T("Sew a toile first where the fit matters, and after every correction by hand."))
	}
	if a.p.Chart.Status != "" {
		out = append(out, words.T("The size chart's figures are no surer than is said above: measure the wearer before you cut good cloth."))
	}
	out = append(out, words.T("A bought pattern is licensed for your own use, and so are the sizes made from it. Keep these pages to yourself."))
	if forChildren(a.p.Chart) {
		out = append(out,
			words.T("This is for a child. Nightwear must meet rules on how it burns: EN 14878 in Europe, 16 CFR 1615 and 1616 in the United States, among others. Look up the rules that hold where you live before you choose cloth."),
			words.T("Cords and drawstrings on children's clothes are restricted, at hood and neck above all: EN 14682 in Europe, ASTM F1816 in the United States, among others. Leave them out, or look up what is allowed."))
	} else {
		out = append(out, words.T("If it is for a child: nightwear and drawstrings fall under safety rules. See the ones of your country."))
	}
	return append(out, words.T("Other rules differ from place to place: labels on what is sold, cloth that must not catch fire on a stage. Ask where you live."))
}

// workedOut reports that a piece is drawn in a size that was not printed of it.
func (a accounts) workedOut() bool {
	for i, q := range a.r.Pieces {
		if !q.Printed && !q.Frozen && !a.p.Pieces[i].OneForAll {
			return true
		}
	}
	return false
}
