package ui

import (
	"slices"

	"quarterstep/app"
	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/measure"
	"quarterstep/ui/panel"
)

// wearerView is the Wearer panel; own asks for her own measurements though she
// gave none yet. Where waits is set the girths of report are those of before.
func wearerView(p model.Pattern, r grading.Result, report app.Report, waits, own bool) panel.WearerView {
	v := panel.WearerView{Name: p.Target.Wearer, Unit: placeUnit(p.Unit), Own: own || p.Target.Own()}
	if len(p.Chart.Sizes) == 0 {
		v.Empty = words.T("Choose a size chart on the Size strip.")
		return v
	}
	measures := app.Wearer(p)
	v.Size = p.Chart.NameAt(p.Target.Place)
	if v.Own {
		v.Measures, v.OwnCount, v.Rest = measureViews(p, measures)
	} else {
		v.Figures = chartFigures(p, measures)
		v.Rest = sizeLine(p, r)
	}
	v.Notes = wearerNotes(p, measures, report)
	v.Ease, v.Unknown = easeViews(p, report)
	v.EaseWaits = waits
	v.EaseUnit = words.T("in cm")
	if p.Unit == model.Inches {
		v.EaseUnit = words.T("in inches")
	}
	return v
}

// sizeLine is "Size 48 of House chart, EU: 4 steps, or 4 1/2 by bust."
func sizeLine(p model.Pattern, r grading.Result) string {
	if note := stepsNote(p, r, printedPlaces(p)); note != "" {
		return words.F("Size %s of %s: %s.", r.Size, p.Chart.Name, note)
	}
	return words.F("Size %s of %s.", r.Size, p.Chart.Name)
}

func chartFigures(p model.Pattern, measures []app.Measured) []panel.FigureView {
	var out []panel.FigureView
	for _, m := range measures {
		out = append(out, panel.FigureView{Name: capital(m.Measure.Said()), Figure: measure.FormatPlace(m.MM, p.Unit)})
	}
	return out
}

// measureViews is the measures to type, how many are her own, and what the
// others go by.
func measureViews(p model.Pattern, measures []app.Measured) (views []panel.MeasureView, count, rest string) {
	own := 0
	for _, m := range measures {
		v := panel.MeasureView{Name: capital(m.Measure.Said()), Place: m.Says, Off: m.Off}
		if m.Own {
			own++
			v.Own = girthFigure(m.MM, p.Unit)
		} else {
			v.Chart = girthFigure(m.MM, p.Unit)
		}
		views = append(views, v)
	}
	if own < len(measures) {
		rest = words.F("What you leave empty goes by size %s.", p.Chart.NameAt(p.Target.Place))
	}
	return views, words.F("%d of %d", own, len(measures)), rest
}

// wearerNotes is what to look at: measurements off the chart, and what is found
// of each girth.
func wearerNotes(p model.Pattern, measures []app.Measured, report app.Report) []string {
	var out []string
	for _, m := range measures {
		if m.Off {
			out = append(out, words.F("%s is %s by %s: the line goes on by the chart's last step.",
				capital(m.Measure.Said()), m.Says, measure.FormatPlace(m.By, p.Unit)))
		}
	}
	said := map[string]bool{}
	for _, f := range report.Findings {
		if f.Look && f.Girth != "" && !said[f.Girth] {
			said[f.Girth] = true
			out = append(out, f.Say+" "+f.Help)
		}
	}
	return out
}

// easeViews is the girths with their ease, and why others have no figure.
func easeViews(p model.Pattern, report app.Report) (rows []panel.EaseView, unknown []string) {
	if len(p.Pieces) == 0 {
		return nil, nil
	}
	for _, g := range report.Measured.Rows {
		v := panel.EaseView{
			Name: capital(g.Measure.Said()), Body: girthFigure(g.Target.Body, p.Unit),
			Finished: girthFigure(g.Target.Finished, p.Unit), Ease: girthFigure(g.Target.Ease, p.Unit), Print: "–",
			Look: slices.ContainsFunc(report.Findings, func(f app.Finding) bool { return f.Look && f.Girth == string(g.Measure) }),
		}
		if g.Compared {
			v.Print = girthFigure(g.Carried, p.Unit)
		}
		rows = append(rows, v)
	}
	said := map[model.Measure]bool{}
	for _, m := range report.Measured.Missing {
		if !said[m.Measure] {
			said[m.Measure] = true
			unknown = append(unknown, capital(m.Measure.Said())+": "+m.Why)
		}
	}
	return rows, unknown
}

// girthFigure is a girth without its unit, as placeUnit has it; "0" for what
// rounds to nothing.
func girthFigure(mm float64, u model.Unit) string {
	if u == model.Inches {
		return measure.Format(mm, measure.Sixteenths)
	}
	return measure.Format(mm, measure.TenthCM)
}

// placeUnit is the unit girths are shown and typed in.
func placeUnit(u model.Unit) string {
	if u == model.Inches {
		return words.C("inches", "in")
	}
	return words.T("cm")
}

// ownLine is "Maren: bust 50, waist 48 1/2, hip 52" or "Maren, size 48"; look
// where a measurement lies off the chart.
func ownLine(p model.Pattern) (line string, look bool) {
	if len(p.Pieces) == 0 {
		return words.T("no pieces yet"), false
	}
	line = app.WearerLine(p)
	look = slices.ContainsFunc(app.Wearer(p), func(m app.Measured) bool { return m.Off })
	switch {
	case p.Target.Wearer == "":
		return line, look
	case p.Target.Own():
		return p.Target.Wearer + ": " + line, look
	}
	return p.Target.Wearer + ", " + line, look
}
