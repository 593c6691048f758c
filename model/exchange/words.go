package exchange

import (
	"regexp"
	"slices"
	"strings"
	"unicode"

	"quarterstep/model"
	"quarterstep/model/glossary"
)

// kindWords says by which words in its name an open line is known, first come
// first: a waist dart is a dart.
var kindWords = []struct {
	kind  model.LineKind
	words []string
}{
	{model.Grain, []string{"grain", "grainline"}},
	{model.Lengthen, []string{"lengthen", "shorten"}},
	{Notch, []string{"notch", "notches"}},
	{model.DartLine, []string{"dart", "darts"}},
	{model.FoldLine, []string{"fold", "foldline"}},
	{model.BustLine, []string{"bust", "bustline"}},
	{model.WaistLine, []string{"waist", "waistline"}},
	{model.HipLine, []string{"hip", "hips", "hipline"}},
}

// kindOf is the kind of line a name speaks of; false for none.
func kindOf(name string) (model.LineKind, bool) {
	has := map[string]bool{}
	for _, w := range wordsOf(name) {
		has[w] = true
	}
	for _, k := range kindWords {
		for _, w := range k.words {
			if has[w] {
				return k.kind, true
			}
		}
	}
	return model.Inner, false
}

// wordsOf is the words of a name, in lower-case English.
func wordsOf(name string) []string {
	return strings.FieldsFunc(glossary.English(name), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
}

// holds reports whether some words stand in others, one after another.
func holds(words, part []string) bool {
	for i := 0; len(part) > 0 && i+len(part) <= len(words); i++ {
		if slices.Equal(words[i:i+len(part)], part) {
			return true
		}
	}
	return false
}

// machineID is an id given by a drawing program, which names nothing.
var machineID = regexp.MustCompile(`^(?i:(svg|g|path|rect|line|polyline|polygon|circle|ellipse|use|layer|shape)[-_]?\d[-_\d]*|)$`)

// idName is the name an id gives: the layer's label and what joins it taken
// off, the joints turned to spaces.
func idName(id, as string) string {
	if machineID.MatchString(id) {
		return ""
	}
	const joints = " -_.:"
	s := id
	if size := idText(as); size != "" {
		low, mark := strings.ToLower(s), strings.ToLower(size)
		switch {
		case strings.HasSuffix(low, mark) && !digitAt(s, len(s)-len(mark)-1):
			s = s[:len(s)-len(mark)]
		case strings.HasPrefix(low, mark) && !digitAt(s, len(mark)):
			s = s[len(mark):]
		case strings.HasPrefix(strings.TrimLeft(low, "_"), mark):
			s = strings.TrimLeft(s, "_")[len(mark):]
		}
		s = strings.Trim(s, joints)
		if l := strings.ToLower(s); strings.HasSuffix(l, "size") && len(l) > 4 && strings.ContainsRune(joints, rune(s[len(s)-5])) {
			s = s[:len(s)-5]
		}
	}
	s = strings.Trim(s, joints)
	return strings.Join(strings.FieldsFunc(s, func(r rune) bool { return strings.ContainsRune(joints, r) }), " ")
}

func digitAt(s string, i int) bool { return i >= 0 && i < len(s) && s[i] >= '0' && s[i] <= '9' }

// sizeAfter is sizes named after the piece: "Back, size 36", "Cuff, sizes 38/40".
var sizeAfter = regexp.MustCompile(`(?i)[\s,(\[–-]*\b(?:sizes?|gr(?:ö|oe)(?:ß|ss)en?|gr\.)\s*:?\s*(.+?)[)\]]?$`)

// allAfter is "all sizes" said after the piece: "Pocket (all sizes)".
var allAfter = regexp.MustCompile(`(?i)[\s,(\[–-]+((?:all|every|any|one)\s+sizes?|(?:alle|jede|eine)\s+gr(?:ö|oe)(?:ß|ss)en?)[)\]]?$`)

// sizesAfter is the sizes that a title names after the piece, none with all
// where it says that it is for all sizes, and the title without them. Named says
// which sizes a label names.
func sizesAfter(title string, named func(label string) []string) (name string, sizes []string, all bool) {
	if m := allAfter.FindStringSubmatchIndex(title); m != nil && saysAllSizes(title[m[2]:m[3]]) {
		return title[:m[0]], nil, true
	}
	if m := sizeAfter.FindStringSubmatchIndex(title); m != nil {
		if sizes := named(title[m[2]:m[3]]); len(sizes) > 0 {
			return title[:m[0]], sizes, false
		}
	}
	return title, nil, false
}
