package measure

import (
	"math/big"
	"strings"
	"unicode/utf8"

	"quarterstep/assets/words"
)

// NotALength says that words could not be read as a length, and how one is
// written.
type NotALength struct {
	Text string // what was typed
}

func (NotALength) Error() string { return words.T("Type inches like 1 3/8 or mm like 9.5.") }

const (
	maxText   = 60 // letters in what is typed
	maxDigits = 15 // of one number in it
)

// unitNames lists what may stand behind a number in any language, longest names
// first where one ends another.
var unitNames = []struct {
	name string
	unit Unit
}{
	{"mm", Millimetres},
	{"cm", Centimetres},
	{"inches", Inches},
	{"inch", Inches},
	{"in.", Inches},
	{"in", Inches},
	{"zoll", Inches},
	{`"`, Inches},
	{"″", Inches},
	{"”", Inches},
	{"''", Inches},
}

// single are the fractions that have a letter of their own.
var single = map[rune]string{
	'½': "1/2", '⅓': "1/3", '⅔': "2/3", '¼': "1/4", '¾': "3/4", '⅕': "1/5", '⅖': "2/5",
	'⅗': "3/5", '⅘': "4/5", '⅙': "1/6", '⅚': "5/6", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8",
}

// plain takes other signs for minus and slash, and other spaces, to the ones
// of a keyboard.
var plain = strings.NewReplacer("\u2212", "-", "\u2013", "-", "\u2044", "/", "\u2215", "/",
	"\u00a0", " ", "\u2009", " ", "\u202f", " ", "\t", " ")

// Parse reads a length: a whole number, a decimal with point or comma, a
// fraction, or a whole number and a proper fraction, with mm, cm, in, Zoll
// or " behind it; a bare number is in the unit bare. A minus sign may stand before
// it. What cannot be read is a NotALength.
func Parse(s string, bare Unit) (Length, error) {
	fail := NotALength{s}
	if !utf8.ValidString(s) || len(s) > maxText {
		return Length{}, fail
	}
	text, unit := cutUnit(strings.ToLower(strings.TrimSpace(plain.Replace(s))), bare)
	text, negative := strings.CutPrefix(text, "-")
	if !negative {
		text = strings.TrimPrefix(text, "+")
	}
	r, ok := number(strings.TrimSpace(text))
	if !ok {
		return Length{}, fail
	}
	r.Mul(r, unit.mm())
	if negative {
		r.Neg(r)
	}
	return Length{r}, nil
}

// cutUnit takes the unit off the end of text.
func cutUnit(text string, bare Unit) (string, Unit) {
	for _, n := range unitNames {
		if rest, ok := strings.CutSuffix(text, n.name); ok {
			return strings.TrimSpace(rest), n.unit
		}
	}
	return text, bare
}

// number reads "3", "1.125", "2,5", "5/8", "1 1/8", "1-1/8" and "1⅛".
func number(text string) (*big.Rat, bool) {
	if last, size := utf8.DecodeLastRuneInString(text); single[last] != "" {
		text = strings.TrimSpace(text[:len(text)-size]) + " " + single[last]
		text = strings.TrimSpace(text)
	}
	top, bottom, hasFraction := strings.Cut(text, "/")
	if !hasFraction {
		return decimal(text)
	}
	top, bottom = strings.TrimSpace(top), strings.TrimSpace(bottom)
	whole := "0"
	i := strings.LastIndexAny(top, " -")
	if i >= 0 {
		whole, top = strings.TrimSpace(strings.TrimRight(top[:i], " -")), top[i+1:]
	}
	if !digits(whole) || !digits(top) || !digits(bottom) {
		return nil, false
	}
	n, _ := new(big.Int).SetString(top, 10)
	d, _ := new(big.Int).SetString(bottom, 10)
	if d.Sign() == 0 || i >= 0 && n.Cmp(d) >= 0 {
		return nil, false
	}
	w, _ := new(big.Rat).SetString(whole)
	return w.Add(w, new(big.Rat).SetFrac(n, d)), true
}

// decimal reads digits with at most one point or comma among them.
func decimal(text string) (*big.Rat, bool) {
	whole, part, has := strings.Cut(strings.Replace(text, ",", ".", 1), ".")
	if whole == "" && digits(part) {
		whole = "0"
	}
	if !digits(whole) || has && !digits(part) {
		return nil, false
	}
	if !has {
		part = "0"
	}
	return new(big.Rat).SetString(whole + "." + part)
}

// digits reports that s is one or more digits, not too many of them.
func digits(s string) bool {
	return s != "" && len(s) <= maxDigits && strings.Trim(s, "0123456789") == ""
}
