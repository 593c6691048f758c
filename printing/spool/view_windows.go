package spool

import (
	"quarterstep/assets/words"
)

// Windows has no program of its own that prints a PDF true to scale.
const direct = false

func viewer(path string) (string, []string) {
	return "rundll32", []string{"url.dll,FileProtocolHandler", path}
}

func viewerAdvice(paper string) []string {
	return []string{
		words.F("Print from the viewer, with your printer and %s chosen.", paper),
		words.T("Under page size or scale choose \"Actual size\" or \"100 %\", not \"Fit\" or \"Shrink\". In a web browser it is under \"More settings\", \"Scale\"."),
	}
}
