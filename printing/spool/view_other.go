//go:build !windows && !darwin

package spool

import (
	"quarterstep/assets/words"
)

// Linux and its kin print through CUPS.
const direct = true

func viewer(path string) (string, []string) { return "xdg-open", []string{path} }

func viewerAdvice(paper string) []string {
	return []string{
		words.F("Print from the viewer, with your printer and %s chosen.", paper),
		words.T("Under page handling choose scaling \"None\", \"Actual size\" or \"100 %\", and nothing that fits the page to the paper."),
	}
}
