package girth

import (
	"slices"
	"strings"
	"unicode"

	"quarterstep/model"
	"quarterstep/model/glossary"
)

// aside are words for pieces that do not go round the body at bust, waist or
// hip, or lie on others that do.
//
// words: none
var aside = wordSet(`facing facings interfacing lining linings underlining interlining
	collar undercollar cuff cuffs sleeve sleeves pocket pockets flap tab welt
	waistband neckband band placket fly belt loop loops strap straps tie ties
	binding hood yoke ruffle frill bow`)

// below are words for pieces that hang from the waist.
//
// words: none
var below = wordSet("skirt trouser trousers pant pants shorts leg culotte culottes peplum")

// oneSide are words for pieces cut for one half of the body only.
//
// words: none
var oneSide = wordSet("left right")

func wordSet(list string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Fields(list) {
		out[w] = true
	}
	return out
}

// wordsOf is the words of a name, in lower-case English.
func wordsOf(name string) []string {
	return strings.FieldsFunc(glossary.English(name), func(r rune) bool { return !unicode.IsLetter(r) })
}

func hasWord(name string, list map[string]bool) bool {
	return slices.ContainsFunc(wordsOf(name), func(w string) bool { return list[w] })
}

// bodyPieces lists the pieces that go round the body, above the waist and
// below it. Pieces whose name says otherwise are left out, and so are those that
// follow another's line.
func bodyPieces(p model.Pattern) (upper, lower []int) {
	for i, q := range p.Pieces {
		switch {
		case follows(p, q.ID) || hasWord(q.Name, aside):
		case hasWord(q.Name, below):
			lower = append(lower, i)
		default:
			upper = append(upper, i)
		}
	}
	return upper, lower
}

// follows reports that a piece lies on another's line.
func follows(p model.Pattern, piece string) bool {
	return slices.ContainsFunc(p.Links, func(l model.Link) bool {
		return l.Kind == model.SameLine && l.Follow.Piece == piece
	})
}
