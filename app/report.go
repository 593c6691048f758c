package app

import (
	"fmt"
	"strings"

	"quarterstep/assets/words"
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
	Checks   []Checked `json:"checks"` // every check that applies, whether it found something or not
	// Measured is the girths the checks went by; empty where none can be measured.
	Measured GirthTable `json:"-"`
}

// Checked is one check or seam and how it stands; with Look it has findings to
// look at.
type Checked struct {
	Check string `json:"check"`
	Link  string `json:"link,omitempty"`
	Title string `json:"title"`
	Say   string `json:"say"`
	Look  bool   `json:"look"`
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
	What  string  `json:"what"` // in few words
	Much  string  `json:"much"` // by how much, in few words
	Say   string  `json:"say"`
	Help  string  `json:"help"`
	// Action is the one thing offered to do about it.
	Action Action `json:"action"`
	// Found is the finding with the IDs of the pattern it was found in.
	Found check.Finding `json:"-"`
}

// Action is what a finding offers: "show" its place, or an edit by its stable
// name with what it is done to, by the pattern's IDs.
type Action struct {
	Do     string   `json:"do"`
	Label  string   `json:"label"`
	Piece  string   `json:"piece,omitempty"`
	Edges  []string `json:"edges,omitempty"`
	Points []string `json:"points,omitempty"`
	Link   string   `json:"link,omitempty"`
	Refit  string   `json:"refit,omitempty"`
	Length string   `json:"length,omitempty"`
}

// Check grades p and looks it over.
func Check(p model.Pattern) (Report, error) {
	r, err := Grade(p)
	if err != nil {
		return Report{}, err
	}
	return new(Checker).ReportOf(p, r), nil
}

// Checker reports on patterns and measures them, and remembers what it measured
// of their print. The zero Checker is ready; it is not safe for use from two
// goroutines at once.
type Checker struct{ look check.Checker }

// ReportOf looks over p, graded as r.
func (c *Checker) ReportOf(p model.Pattern, r grading.Result) Report {
	out := Report{Pattern: p.Name, Size: p.Target.NameOn(p.Chart), Method: methodName(p.Target), Findings: []Finding{}, Checks: []Checked{}}
	for _, k := range c.look.Look(p, r) {
		if k.Title != "" {
			out.Checks = append(out.Checks, Checked{k.Check, k.Link, k.Title, k.Say, k.Look()})
		}
		for _, f := range k.Findings {
			if f.Look {
				out.Look++
			}
			out.Findings = append(out.Findings, findingOf(p, f))
		}
	}
	if rows, missing, err := c.look.Girths(); err == nil {
		out.Measured = girthTable(p, r, rows, missing)
	}
	return out
}

func findingOf(p model.Pattern, f check.Finding) Finding {
	out := Finding{
		Code: f.Code, Look: f.Look, Girth: string(f.Measure), X: f.Where.X, Y: f.Where.Y, By: f.By,
		What: f.What, Much: f.Much, Say: f.Say, Help: f.Help, Action: actionOf(f.Action), Found: f,
	}
	if out.What == "" {
		out.What = strings.TrimSuffix(f.Say, ".")
	}
	if i := p.PieceIndex(f.Piece); i >= 0 {
		out.Piece = p.Pieces[i].Name
		if j := p.Pieces[i].EdgeIndex(f.Edge); j >= 0 {
			out.Edge = p.Pieces[i].Edges[j].Name
		}
	}
	return out
}

func actionOf(a check.Action) Action {
	if a.Do == check.Show {
		return Action{Do: "show", Label: words.T("Show")}
	}
	return Action{string(a.Do), a.Label, a.Piece, a.Edges, a.Points, a.Link, string(a.Refit), a.Length}
}

// Text is the report for a person to read or copy, for qstep.
//
// words: none
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
	for _, k := range r.Checks {
		if !k.Look {
			fmt.Fprintf(&b, "  fine  %s: %s\n", k.Title, k.Say)
		}
	}
	return b.String()
}
