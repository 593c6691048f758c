package words

import (
	"embed"
	"errors"
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"
	"sync/atomic"

	"github.com/leonelquinteros/gotext"
)

//go:embed po
var catalogues embed.FS

// spoken is a language other than English in use.
type spoken struct {
	code  string
	texts map[string]string // by Key
	po    *gotext.Po        // for the rule of one and many
	by    func(string) string
}

var now atomic.Pointer[spoken] // nil for English

// Language is one the program speaks.
type Language struct {
	Code string // of ISO 639-1
	Name string // in itself
}

// Languages are all there are, English first.
func Languages() []Language {
	return []Language{{"en", "English"}, {"de", "Deutsch"}}
}

// Use makes the program speak the language of a code like "de" or "de_AT.UTF-8".
// A language it does not speak is an error, and the language stays as it was.
func Use(code string) error {
	code, _, _ = strings.Cut(strings.ToLower(code), ".")
	code, _, _ = strings.Cut(strings.ReplaceAll(code, "_", "-"), "-")
	if code == "en" || code == "" {
		now.Store(nil)
		return nil
	}
	if !slices.ContainsFunc(Languages(), func(l Language) bool { return l.Code == code }) {
		return fmt.Errorf("there is no language %q in Quarterstep", code)
	}
	text, err := catalogues.ReadFile(path.Join("po", code+".po"))
	if err != nil {
		return fmt.Errorf("reading the texts of %q: %w", code, err)
	}
	po := gotext.NewPo()
	po.Parse(text)
	now.Store(spokenFrom(code, po))
	return nil
}

func spokenFrom(code string, po *gotext.Po) *spoken {
	l := &spoken{code: code, texts: map[string]string{}, po: po}
	for id, t := range po.GetDomain().GetTranslations() {
		l.texts[id] = t.Trs[0]
	}
	for context, ts := range po.GetDomain().GetCtxTranslations() {
		for id, t := range ts {
			l.texts[key(context, id)] = t.Trs[0]
		}
	}
	return l
}

// key is what a text in a context is found by, as in compiled catalogues.
func key(context, text string) string { return context + "\x04" + text }

// lookup is the translation of a text, or else the text itself.
func lookup(key, text string) string {
	l := now.Load()
	switch {
	case l == nil, text == "":
	case l.by != nil:
		return l.by(text)
	case l.texts[key] != "":
		return l.texts[key]
	}
	return text
}

// UseMade makes every text go through made instead of a catalogue, for tests:
// what is shown and did not go through it is a text that was forgotten.
func UseMade(made func(text string) string) { now.Store(&spoken{code: "made", by: made}) }

// Figure is a number to some places after the decimal mark.
func Figure(x float64, places int) string {
	return strings.Replace(strconv.FormatFloat(x, 'f', places, 64), ".", Decimal(), 1)
}

// Digits is a number to so many digits, without zeros at its end.
func Digits(x float64, digits int) string {
	return strings.Replace(strconv.FormatFloat(x, 'g', digits, 64), ".", Decimal(), 1)
}

// Now is the code of the language in use.
func Now() string {
	if l := now.Load(); l != nil {
		return l.code
	}
	return "en"
}

// Decimal is the mark between whole and broken part of a number.
func Decimal() string {
	if Now() == "de" {
		return ","
	}
	return "."
}

// Capitals reports whether the language in use writes nouns with capitals, so
// that a name keeps its own in the middle of a sentence.
func Capitals() bool { return Now() == "de" }

// Small is a name as it stands in the middle of a sentence: in small letters,
// but where nouns have capitals as it is.
func Small(name string) string {
	if Capitals() {
		return name
	}
	return strings.ToLower(name)
}

// T is a text as it stands.
func T(text string) string { return lookup(text, text) }

// C is a text whose meaning needs a word of context, which is not shown.
func C(context, text string) string { return lookup(key(context, text), text) }

// F is a text with figures, as fmt.Sprintf writes them.
func F(format string, args ...any) string {
	if false {
		_ = fmt.Sprintf(format, args...) // so that vet looks at the figures
	}
	return fmt.Sprintf(T(format), args...)
}

// N is one text for one of a thing and another for more or none; the figures
// are those of either.
func N(n int, one, many string, args ...any) string {
	l := now.Load()
	format := many
	switch {
	case l != nil && l.po != nil:
		format = l.po.GetN(one, many, n)
	case n == 1:
		format = one
	}
	if l != nil && l.by != nil {
		format = l.by(format)
	}
	if !strings.Contains(format, "%") {
		return format // one of a thing may be said without its figure
	}
	return fmt.Sprintf(format, args...)
}

// Errorf is an error, as fmt.Errorf makes it; %w is kept.
func Errorf(format string, args ...any) error {
	if false {
		_ = fmt.Errorf(format, args...) // so that vet looks at the figures
	}
	return fmt.Errorf(T(format), args...)
}

// Error is an error whose text has no figures.
func Error(text string) error { return errors.New(T(text)) }

// Text is a text that is kept before the language is known; it is translated
// when it is shown.
type Text string

func (t Text) String() string { return T(string(t)) }

// Fault is an error kept at package level, translated when it is shown. Every
// call makes another error, as errors.New does.
func Fault(text Text) error { return &fault{text} }

type fault struct{ text Text }

func (f *fault) Error() string { return f.text.String() }
