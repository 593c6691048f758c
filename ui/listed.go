package ui

import (
	"strings"

	"quarterstep/assets/words"
)

// listed is names in a row: "a", "a and b", "a, b and c".
func listed(names []string) string {
	n := len(names)
	if n < 2 {
		return strings.Join(names, "")
	}
	return words.F("%s and %s", strings.Join(names[:n-1], ", "), names[n-1])
}
