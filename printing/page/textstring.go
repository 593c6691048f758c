package page

import (
	"strings"
	"unicode/utf16"
)

// textString is s as a PDF text string: UTF-16 after its mark (ISO 32000-1,
// 7.9.2.2). The PDF writer's own way cannot go beyond Unicode's first 65,536
// characters.
func textString(s string) string {
	out := []byte{0xFE, 0xFF}
	for _, u := range utf16.Encode([]rune(s)) {
		out = append(out, byte(u>>8), byte(u))
	}
	return string(out)
}

// plainName is s with a stand-in for what the PDF writer cannot put in a name:
// characters beyond Unicode's first 65,536, and bytes that are no character.
func plainName(s string) string {
	return strings.Map(func(r rune) rune {
		if r > 0xFFFF {
			return '\uFFFD'
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
}
