package scene

import "fmt"

// Ink names a colour by its use.
type Ink uint16

// The inks of the Table. The zero Ink is the ink of words.
const (
	InkWords Ink = iota
	InkSoft
	InkFaint
	InkTable
	InkGrid
	InkGridMajor
	InkRuler
	InkSheet // a page of paper
	InkEdge
	InkAccent
	InkAccentWords
	InkAccentTint
	InkOnAccent
	InkRaised
	InkLookFill
	InkLookLine
	InkOnLook

	namedInks
)

var inkNames = [namedInks]string{
	"words", "soft", "faint", "table", "grid", "grid-major", "ruler", "sheet", "edge",
	"accent", "accent-words", "accent-tint", "on-accent", "raised", "look-fill", "look-line", "on-look",
}

// nestInks is where the inks of printed sizes begin: one for each place i among
// n sizes, i and n below 64.
const nestInks = 1 << 12

// NestInk is the ink of the i-th of n printed sizes, smallest first.
func NestInk(i, n int) Ink {
	n = min(max(n, 1), 63)
	return nestInks + Ink(n*64+min(max(i, 0), n-1))
}

// Nest is the inverse of NestInk; false for another ink.
func (k Ink) Nest() (i, n int, ok bool) {
	if k < nestInks {
		return 0, 0, false
	}
	return int(k-nestInks) % 64, int(k-nestInks) / 64, true
}

// String is the ink's name, for tests and faults.
//
// words: none
func (k Ink) String() string {
	if i, n, ok := k.Nest(); ok {
		return fmt.Sprintf("nest %d/%d", i+1, n)
	}
	if k < namedInks {
		return inkNames[k]
	}
	return fmt.Sprintf("ink %d", uint16(k))
}
