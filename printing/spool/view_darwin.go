package spool

import (
	"quarterstep/assets/words"
)

// macOS prints through CUPS.
const direct = true

func viewer(path string) (string, []string) { return "open", []string{path} }

func viewerAdvice(paper string) []string {
	return []string{
		words.F("Print from the viewer, with your printer and paper size %s chosen.", paper),
		words.T("Choose \"Scale: 100 %\", not \"Scale to Fit\". If you do not see it, press \"Show Details\"."),
	}
}
