package app

import (
	"fmt"
	"math"
	"strings"

	"quarterstep/grading"
	"quarterstep/grading/girth"
	"quarterstep/model"
	"quarterstep/model/measure"
)

// FullReport is a Report with the target and the girths, for programs. Its
// field names in JSON stay as they are; every length is in mm, to 0.001.
type FullReport struct {
	Report
	Target  TargetReport    `json:"target"`
	Girths  []GirthReport   `json:"girths"`
	NoGirth []NoGirthReport `json:"no_girth"`
	Steps   []StepsReport   `json:"by_steps"`
}

// TargetReport is what the pattern was graded for: the place counts sizes from
// the chart's first, which is 0.
type TargetReport struct {
	Size   string       `json:"size"`
	Place  float64      `json:"place"`
	Method string       `json:"method"`
	Wearer string       `json:"wearer,omitempty"`
	Body   []BodyReport `json:"body"`
}

// BodyReport is one body measure of the target; Own where the wearer gave it,
// Says where it lies on the chart.
type BodyReport struct {
	Measure string  `json:"measure"`
	MM      float64 `json:"mm"`
	Own     bool    `json:"own"`
	Says    string  `json:"says"`
}

// GirthReport is one girth in every printed size and in the size wanted.
type GirthReport struct {
	Girth   string         `json:"girth"`
	Printed []SizedReport  `json:"printed"`
	Target  SizedReport    `json:"target"`
	Carried *float64       `json:"carried_ease_mm"` // null without a printed size to compare with
	Lost    *float64       `json:"lost_mm"`         // Carried less the target's ease
	Pieces  []PieceInGirth `json:"pieces"`
}

// SizedReport is a girth in one size.
type SizedReport struct {
	Size     string  `json:"size"`
	Finished float64 `json:"finished_mm"`
	Body     float64 `json:"body_mm"`
	Ease     float64 `json:"ease_mm"`
}

// PieceInGirth is one piece's share of the target's girth: it gives
// times x (width - allowances - darts). BothHalves where it is cut once but
// ends at a centre line, and is counted for both halves of the body.
type PieceInGirth struct {
	Piece      string  `json:"piece"`
	Width      float64 `json:"width_mm"`
	Allowances float64 `json:"allowances_mm"`
	Darts      float64 `json:"darts_mm"`
	Times      int     `json:"times"`
	BothHalves bool    `json:"both_halves,omitempty"`
}

// NoGirthReport says what could not be measured; Size is empty for the size
// wanted.
type NoGirthReport struct {
	Girth string `json:"girth"`
	Piece string `json:"piece,omitempty"`
	Size  string `json:"size,omitempty"`
	Why   string `json:"why"`
}

// StepsReport compares repeating the printed gap with the chart, from the
// nearest printed size: Short is Chart less Steps.
type StepsReport struct {
	Girth string  `json:"girth"`
	From  string  `json:"from"`
	Chart float64 `json:"chart_mm"`
	Steps float64 `json:"steps_mm"`
	Short float64 `json:"short_mm"`
}

// CheckFully is Check with the target and the girths.
func CheckFully(p model.Pattern) (FullReport, error) {
	r, err := Grade(p)
	if err != nil {
		return FullReport{}, err
	}
	var c Checker
	table, err := c.GirthsOf(p, r)
	if err != nil {
		return FullReport{}, err
	}
	out := FullReport{
		Report: c.ReportOf(p, r), Target: targetReport(p, r),
		Girths: []GirthReport{}, NoGirth: []NoGirthReport{}, Steps: []StepsReport{},
	}
	for _, row := range table.Rows {
		out.Girths = append(out.Girths, girthReport(p, r.Size, row.Row))
	}
	for _, m := range table.Missing {
		out.NoGirth = append(out.NoGirth, NoGirthReport{string(m.Measure), pieceName(p, m.Piece), m.Size, m.Why})
	}
	for _, s := range r.Short {
		out.Steps = append(out.Steps, StepsReport{
			string(s.Measure), s.From, thousandth(s.ByChart), thousandth(s.BySteps), thousandth(s.Missing()),
		})
	}
	return out, nil
}

func targetReport(p model.Pattern, r grading.Result) TargetReport {
	out := TargetReport{Size: r.Size, Place: p.Target.Place, Method: methodName(p.Target), Wearer: p.Target.Wearer, Body: []BodyReport{}}
	for _, m := range Wearer(p) {
		out.Body = append(out.Body, BodyReport{string(m.Measure), thousandth(m.MM), m.Own, m.Says})
	}
	return out
}

func girthReport(p model.Pattern, size string, row girth.Row) GirthReport {
	out := GirthReport{
		Girth: string(row.Measure), Printed: []SizedReport{}, Target: sizedReport(size, row.Target), Pieces: []PieceInGirth{},
	}
	for _, s := range row.Printed {
		out.Printed = append(out.Printed, sizedReport(s.Size, s.Girth))
	}
	if row.Compared {
		carried, lost := thousandth(row.Carried), thousandth(row.Lost())
		out.Carried, out.Lost = &carried, &lost
	}
	for _, q := range row.Target.Parts {
		out.Pieces = append(out.Pieces, PieceInGirth{pieceName(p, q.Piece), thousandth(q.Width), thousandth(q.Allowances), thousandth(q.Darts), q.Times, q.Halves})
	}
	return out
}

func sizedReport(size string, g girth.Girth) SizedReport {
	return SizedReport{size, thousandth(g.Finished), thousandth(g.Body), thousandth(g.Ease)}
}

// pieceName is the name of the piece with that ID; empty for none.
func pieceName(p model.Pattern, id string) string {
	if i := p.PieceIndex(id); i >= 0 {
		return p.Pieces[i].Name
	}
	return ""
}

// methodName is the method in force, by name.
func methodName(t model.Target) string {
	if t.Method == "" {
		return string(model.ByChart)
	}
	return string(t.Method)
}

// thousandth rounds mm to 0.001, so that the same pattern reads the same
// everywhere; adding 0 turns a rounded -0 into 0.
func thousandth(mm float64) float64 { return math.Round(mm*1000)/1000 + 0 }

// Text is the report for a person to read or copy, the girths after the
// findings, for qstep.
//
// words: none
func (r FullReport) Text(u model.Unit) string {
	var b strings.Builder
	b.WriteString(r.Report.Text())
	show := func(mm float64) string { return measure.FormatPlace(mm, u) }
	for _, g := range r.Girths {
		fmt.Fprintf(&b, "  %s: the garment measures %s, the body %s: %s of ease", g.Girth, show(g.Target.Finished), show(g.Target.Body), show(g.Target.Ease))
		if g.Carried != nil {
			fmt.Fprintf(&b, ", %s in print", show(*g.Carried))
		}
		b.WriteString(".\n")
	}
	for _, m := range r.NoGirth {
		fmt.Fprintf(&b, "  no %s: %s\n", m.Girth, m.Why)
	}
	return b.String()
}
