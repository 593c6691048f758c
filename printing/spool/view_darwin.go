package spool

// macOS prints through CUPS.
const direct = true

func viewer(path string) (string, []string) { return "open", []string{path} }

func viewerAdvice(paper string) []string {
	return []string{
		"Print from the viewer, with your printer and paper size " + paper + " chosen.",
		"Choose \"Scale: 100 %\", not \"Scale to Fit\". If you do not see it, press \"Show Details\".",
	}
}
