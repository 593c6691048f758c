// words: none (words to read names by, not to show)
package glossary

import (
	"strings"
	"sync"
	"unicode"
)

// heard is what names said before: the same few are asked for at every grading.
var heard = struct {
	sync.RWMutex
	names map[string]string
}{names: map[string]string{}}

// mostHeard is how many names are kept in mind.
const mostHeard = 2000

// English is what a name says, in lower-case English words where its words are
// known German ones: "Hintere Mitte" is "centre back", "Seitennaht 2" is "side
// seam 2".
func English(name string) string {
	heard.RLock()
	said, ok := heard.names[name]
	heard.RUnlock()
	if ok {
		return said
	}
	said = english(name)
	heard.Lock()
	if len(heard.names) >= mostHeard {
		clear(heard.names)
	}
	heard.names[name] = said
	heard.Unlock()
	return said
}

func english(name string) string {
	low := strings.ToLower(name)
	var b strings.Builder
	german := false
	for len(low) > 0 {
		n := wordLength(low)
		if n == 0 {
			n = strings.IndexFunc(low, unicode.IsLetter)
			if n < 0 {
				n = len(low)
			}
			b.WriteString(low[:n])
			low = low[n:]
			continue
		}
		word := low[:n]
		low = low[n:]
		if said, ok := read(Plain(word)); ok {
			german = german || said != word
			word = said
		}
		b.WriteString(word)
	}
	if !german {
		return b.String()
	}
	return put(b.String())
}

// wordLength is how many bytes of letters s begins with, marks that make an
// umlaut of the letter before them among them.
func wordLength(s string) int {
	n := strings.IndexFunc(s, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.Is(unicode.Mn, r) })
	if n < 0 {
		return len(s)
	}
	return n
}

var umlauts = strings.NewReplacer("ä", "ae", "ö", "oe", "ü", "ue", "ß", "ss", "a\u0308", "ae", "o\u0308", "oe", "u\u0308", "ue")

// Plain is a name in lower case with its umlauts written out.
func Plain(name string) string { return umlauts.Replace(strings.ToLower(name)) }

// put brings the words of a German name into the order and form in which
// English has them.
func put(said string) string {
	var out []string
	for _, w := range strings.Fields(said) {
		if !small[w] {
			out = append(out, w)
		}
	}
	said = strings.Join(out, " ")
	for _, c := range customs {
		said = c.is.ReplaceAllString(said, c.as)
	}
	return strings.TrimSpace(said)
}

// read is a German word in English; false where it is none.
func read(word string) (string, bool) {
	if english, ok := alone[word]; ok {
		return english, true
	}
	if parts, ok := parted(word); ok && len(parts) > 0 {
		return strings.Join(parts, " "), true
	}
	return byHead(word)
}

// parted is the English of the parts of a compound, in their order: its longest
// first part that leaves a rest which can be parted too.
func parted(word string) ([]string, bool) {
	for n := len(word); n >= shortest; n-- {
		english, ok := german[word[:n]]
		if !ok {
			continue
		}
		var head []string
		if english != "" {
			head = []string{english}
		}
		rest := word[n:]
		if endings[rest] {
			return head, true
		}
		for _, joint := range joints {
			if after, ok := strings.CutPrefix(rest, joint); ok && after != "" {
				if tail, ok := parted(after); ok {
					return append(head, tail...), true
				}
			}
		}
	}
	return nil, false
}

// byHead reads a compound of which only the last part is known, which says what
// the thing is: a "Bubikragen" is a collar.
func byHead(word string) (string, bool) {
	for _, head := range heads {
		if before, ok := strings.CutSuffix(word, head); ok && len(before) >= shortest {
			english, _ := read(head)
			return before + " " + english, true
		}
	}
	return "", false
}
