//go:build !windows && !darwin

package spool

// Linux and its kin print through CUPS.
const direct = true

func viewer(path string) (string, []string) { return "xdg-open", []string{path} }

func viewerAdvice(paper string) []string {
	return []string{
		"Print from the viewer, with your printer and " + paper + " chosen.",
		"Under page handling choose scaling \"None\", \"Actual size\" or \"100 %\", and nothing that fits the page to the paper.",
	}
}
