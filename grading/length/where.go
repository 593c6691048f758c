package length

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"quarterstep/assets/words"
	"quarterstep/model/glossary"
)

// Where is the name of a lengthening inside a sentence where it says a place on
// the body: "above the waist"; false where it does not.
func Where(name string) (string, bool) {
	if said := glossary.English(name); !strings.HasPrefix(said, "above") && !strings.HasPrefix(said, "below") {
		return "", false
	}
	if !words.Capitals() {
		return words.Small(name), true
	}
	r, n := utf8.DecodeRuneInString(name)
	return string(unicode.ToLower(r)) + name[n:], true
}
