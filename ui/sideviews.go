package ui

import (
	"quarterstep/app"
	"quarterstep/ui/panel"
)

// checksView is the Checks panel: what to look at, then what was doubtful when
// the nest was brought in.
func checksView(report app.Report, doubts []string) panel.ChecksView {
	v := panel.ChecksView{Empty: "Nothing to look at."}
	for _, f := range ordered(report) {
		v.Findings = append(v.Findings, panel.FindingView{What: f.Say, Help: f.Help})
	}
	for _, d := range doubts {
		v.Findings = append(v.Findings, panel.FindingView{
			What: d, Help: "Add a grade point with the Point tool, or take the one in hand out with Delete.",
		})
	}
	return v
}

// ordered is the findings that want looking at. What is only said for
// information stays out of the panel, and so does a second word on a girth:
// that the chart outgrows the steps is why its ease is lost.
func ordered(report app.Report) []app.Finding {
	var out []app.Finding
	said := map[string]bool{}
	for _, f := range report.Findings {
		if !f.Look || f.Girth != "" && said[f.Girth] {
			continue
		}
		said[f.Girth] = true
		out = append(out, f)
	}
	return out
}
