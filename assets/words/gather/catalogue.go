package gather

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/leonelquinteros/gotext"
)

// Translation is what a language has for a message: one text, or for one and
// for many.
type Translation []string

// Catalogue is the translations of one language, by Message.Key.
type Catalogue map[string]Translation

// Read is what a catalogue in the portable object format holds.
func Read(text []byte) Catalogue {
	po := gotext.NewPo()
	po.Parse(text)
	out := Catalogue{}
	keep := func(context string, t *gotext.Translation) {
		if t.ID != "" && t.Trs[0] != "" {
			out[Message{Context: context, ID: t.ID}.Key()] = Translation{t.Trs[0], t.Trs[1]}
		}
	}
	for _, t := range po.GetDomain().GetTranslations() {
		keep("", t)
	}
	for context, ts := range po.GetDomain().GetCtxTranslations() {
		for _, t := range ts {
			keep(context, t)
		}
	}
	return out
}

// Write is the catalogue of messages in a language; what has no translation is
// left empty. With no language it is the template to translate from.
func Write(lang string, ms []Message, c Catalogue) string {
	var b strings.Builder
	b.WriteString("msgid \"\"\nmsgstr \"\"\n\"Content-Type: text/plain; charset=UTF-8\\n\"\n")
	if lang != "" {
		fmt.Fprintf(&b, "\"Language: %s\\n\"\n", lang)
	}
	b.WriteString("\"Plural-Forms: nplurals=2; plural=(n != 1);\\n\"\n")
	for _, m := range ms {
		t := c[m.Key()]
		fmt.Fprintf(&b, "\n#: %s\n", strings.Join(m.Files, " "))
		if m.Context != "" {
			fmt.Fprintf(&b, "msgctxt %s\n", quote(m.Context))
		}
		fmt.Fprintf(&b, "msgid %s\n", quote(m.ID))
		if m.Plural == "" {
			fmt.Fprintf(&b, "msgstr %s\n", quote(at(t, 0)))
			continue
		}
		fmt.Fprintf(&b, "msgid_plural %s\nmsgstr[0] %s\nmsgstr[1] %s\n", quote(m.Plural), quote(at(t, 0)), quote(at(t, 1)))
	}
	return b.String()
}

func at(t Translation, i int) string {
	if i < len(t) {
		return t[i]
	}
	return ""
}

// quote writes a text as the format does: its own escapes, the rest as it is.
func quote(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`, "\t", `\t`).Replace(s) + `"`
}

// Faults tells what is wrong with a catalogue, one sentence each: a message
// without a translation, or one that asks for other figures than the original.
func Faults(ms []Message, c Catalogue) []string {
	var out []string
	for _, m := range ms {
		t := c[m.Key()]
		ways := []string{m.ID}
		if m.Plural != "" {
			ways = append(ways, m.Plural)
		}
		for i, original := range ways {
			switch got := at(t, i); {
			case got == "":
				out = append(out, fmt.Sprintf("%s: no translation of %q", m.Files[0], original))
			case i < len(ways)-1 && m.Plural != "" && fewer(figures(got), figures(original)):
				// "one page" may leave the figure out
			case !slices.Equal(figures(got), figures(original)):
				out = append(out, fmt.Sprintf("%s: %q asks for other figures than %q", m.Files[0], got, original))
			}
		}
	}
	return out
}

var verb = regexp.MustCompile(`%(\[\d+\])?[-+ #0]*(\[\d+\])?(\*|\d+)?(\.(\*|\d+))?(\[\d+\])?([a-zA-Z%])`)

// figures are the verbs of a format, each with the place of its argument,
// sorted; how wide or exact they are written is left to the language.
func figures(format string) []string {
	var out []string
	next := 1
	for _, v := range verb.FindAllStringSubmatch(format, -1) {
		if v[7] == "%" {
			continue
		}
		for _, index := range []string{v[1], v[2], v[6]} {
			if index != "" {
				next, _ = strconv.Atoi(strings.Trim(index, "[]"))
			}
		}
		for _, star := range []string{v[3], v[5]} {
			if star == "*" {
				next++
			}
		}
		out = append(out, fmt.Sprint(next, v[7]))
		next++
	}
	slices.Sort(out)
	return out
}

// fewer tells whether all of a are in b.
func fewer(a, b []string) bool {
	return !slices.ContainsFunc(a, func(s string) bool { return !slices.Contains(b, s) })
}
