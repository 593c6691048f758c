package app

import (
	"fmt"
	"strings"

	"quarterstep/grading"
	"quarterstep/grading/check"
	"quarterstep/model"
)

// Report is what checking a pattern found, in a form for programs and people.
type Report struct {
	Pattern  string    `json:"pattern"`
	Size     string    `json:"size"`
	Method   string    `json:"method"`
	Look     int       `json:"look"` // how many findings want looking at
	Findings []Finding `json:"findings"`
}

// Finding is one thing found; X and Y are where, in mm of the piece.
type Finding struct {
	Code  string  `json:"code"`
	Look  bool    `json:"look"`
	Girth string  `json:"girth,omitempty"` // "bust", where it speaks of a girth
	Piece string  `json:"piece,omitempty"`
	Edge  string  `json:"edge,omitempty"`
	X     float64 `json:"x"`
	Y     float64 `json:"y"`
	By    float64 `json:"by_mm"`
	Say   string  `json:"say"`
	Help  string  `json:"help"`
}

// Check grades p and looks it over.
func Check(p model.Pattern) (Report, error) {
	r, err := Grade(p)
	if err != nil {
		return Report{}, err
	}
	return ReportOf(p, r), nil
}

// Checker reports on patterns and measures them, and remembers what it measured
// of their print. The zero Checker is ready; it is not safe for use from two
// goroutines at once.
type Checker struct{ look check.Checker }

// ReportOf is Checker.ReportOf for once.
func ReportOf(p model.Pattern, r grading.Result) Report { return new(Checker).ReportOf(p, r) }

// ReportOf looks over p, graded as r.
func (c *Checker) ReportOf(p model.Pattern, r grading.Result) Report {
	out := Report{Pattern: p.Name, Size: p.Target.NameOn(p.Chart), Method: methodName(p.Target), Findings: []Finding{}}
	for _, f := range c.look.Findings(p, r) {
		g := Finding{Code: f.Code, Look: f.Look, Girth: string(f.Measure), X: f.Where.X, Y: f.Where.Y, By: f.By, Say: f.Say, Help: f.Help}
		if i := p.PieceIndex(f.Piece); i >= 0 {
			g.Piece = p.Pieces[i].Name
			if j := p.Pieces[i].EdgeIndex(f.Edge); j >= 0 {
				g.Edge = p.Pieces[i].Edges[j].Name
			}
		}
		if g.Look {
			out.Look++
		}
		out.Findings = append(out.Findings, g)
	}
	return out
}

// Text is the report for a person to read or copy.
func (r Report) Text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s, %s by %s: %d to look at\n", r.Pattern, sizesNamed([]string{r.Size}), r.Method, r.Look)
	for _, f := range r.Findings {
		mark := "  fine"
		if f.Look {
			mark = "  look"
		}
		fmt.Fprintf(&b, "%s  %s %s\n", mark, f.Say, f.Help)
	}
	return b.String()
}
