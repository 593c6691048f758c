package app

import (
	"io"
	"slices"
	"strings"

	"quarterstep/app/edit"
	"quarterstep/assets"
	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/printing/summary"
	"quarterstep/printing/tile"
)

// Summary is all there is to say of p at its target: its pieces, sizes,
// measures and ease, corrections, links, what the checks found, and what to mind
// before cutting. The date is shown as given. It fails on a pattern that cannot
// be graded.
func Summary(p model.Pattern, date string) (summary.Summary, error) {
	r, err := Grade(p)
	if err != nil {
		return summary.Summary{}, err
	}
	var c Checker
	table, err := c.GirthsOf(p, r)
	if err != nil {
		return summary.Summary{}, err
	}
	a := accounts{p: p, r: r, table: table, report: c.ReportOf(p, r)}
	out := summary.Summary{Title: p.Name, Line: a.line(), Date: date, Pieces: a.drawings()}
	if out.Title == "" {
		out.Title = words.T("Pattern without a name")
	}
	out.Parts = []summary.Part{
		a.toLook(), a.sizes(), a.body(), a.ease(), a.pieces(), a.lengths(), a.corrections(), a.links(), a.checks(),
		{Title: words.T("Before you cut"), Points: a.cautions()},
	}
	return out, nil
}

// WriteSummary writes the summary of p as a PDF on upright paper.
func WriteSummary(w io.Writer, p model.Pattern, date string, paper tile.Paper) error {
	s, err := Summary(p, date)
	if err != nil {
		return err
	}
	return summary.Write(w, s, summary.Options{Paper: paper, Regular: assets.LatoRegular, Bold: assets.LatoBold})
}

// accounts gathers what a summary says.
type accounts struct {
	p      model.Pattern
	r      grading.Result
	table  GirthTable
	report Report
}

// line is "Size 48 by chart, for Maren".
func (a accounts) line() string {
	line := capital(WearerLine(a.p)) + ", " + methodWords(a.p.Target.Method)
	if a.p.Target.Wearer != "" {
		return words.F("%s, for %s", line, a.p.Target.Wearer)
	}
	return line
}

func (a accounts) drawings() []summary.Drawing {
	var out []summary.Drawing
	for i, q := range a.p.Pieces {
		h := hand{p: a.p, q: q, r: a.r.Pieces[i]}
		out = append(out, summary.Drawing{
			Name: q.Name, Cut: q.CutWords(),
			Outline: geom.Join(h.upright(h.r.Edges)...), Lines: h.upright(h.marks()),
		})
	}
	return out
}

// toLook is what the checks found to look at, with what would help.
func (a accounts) toLook() summary.Part {
	out := summary.Part{Title: words.T("To look at")}
	for _, f := range a.report.Findings {
		if f.Look {
			out.Text = append(out.Text, strings.TrimSpace(f.Say+" "+f.Help))
		}
	}
	if len(out.Text) == 0 {
		out.Text = []string{words.T("The checks found nothing to look at.")}
	}
	return out
}

func (a accounts) sizes() summary.Part {
	p := a.p
	rows := [][]string{
		{words.C("in the summary", "Printed"), orNone(printedSizes(p))},
		{words.C("in the summary", "Wanted"), capital(WearerLine(p)) + ", " + methodWords(p.Target.Method)},
		{words.T("Size chart"), p.Chart.Name},
		{words.T("Its source"), capital(p.Chart.Source)},
		{words.T("How sure its figures are"), capital(p.Chart.Status)},
		{words.C("in the summary", "Note"), p.Note},
	}
	rows = slices.DeleteFunc(rows, func(r []string) bool { return r[1] == "" })
	return summary.Part{Title: words.C("in the summary", "Sizes"), Table: summary.Table{Head: []string{"", ""}, Rows: rows}, Text: append(WearerText(p), ShortText(p, a.r)...)}
}

func orNone(names []string) string {
	if len(names) == 0 {
		return words.C("of printed sizes", "none")
	}
	return strings.Join(names, ", ")
}

// printedSizes is every size printed of any piece, in the chart's order.
func printedSizes(p model.Pattern) []string {
	var out []string
	for _, s := range p.Chart.Sizes {
		if slices.ContainsFunc(p.Pieces, func(q model.Piece) bool {
			_, ok := q.Printed(s.Name)
			return ok && !q.OneForAll
		}) {
			out = append(out, s.Name)
		}
	}
	return out
}

func (a accounts) long(mm float64) string { return measure.FormatPlace(mm, a.p.Unit) }

func (a accounts) body() summary.Part {
	t := summary.Table{Head: []string{words.C("in the summary", "Body"), words.C("in the summary", "By"), words.C("in the summary", "Measure")}, Amounts: 1}
	for _, m := range Wearer(a.p) {
		by := words.F("size %s of the chart", m.Says)
		if m.Own {
			by = words.F("the wearer, size %s", m.Says)
			if !m.Placed || m.Off {
				by = words.F("the wearer, %s", m.Says)
			}
		}
		t.Rows = append(t.Rows, []string{capital(m.Measure.Said()), by, a.long(m.MM)})
	}
	return summary.Part{Title: words.T("Body measures"), Table: t}
}

// ease sets the garment beside the body, in every printed size and as wanted.
func (a accounts) ease() summary.Part {
	t := summary.Table{Head: []string{words.C("in the summary", "Place"), words.C("in the summary", "Size"), words.C("in the summary", "Body"), words.C("in the summary", "Garment"), words.C("in the summary", "Ease")}, Amounts: 3}
	for _, row := range a.table.Rows {
		name := capital(row.Measure.Said())
		for _, s := range row.Printed {
			t.Rows = append(t.Rows, []string{name, words.F("%s, printed", s.Size), a.long(s.Body), a.long(s.Finished), a.long(s.Ease)})
			name = ""
		}
		t.Rows = append(t.Rows, []string{name, words.F("%s, wanted", a.p.Target.NameOn(a.p.Chart)), a.long(row.Target.Body), a.long(row.Target.Finished), a.long(row.Target.Ease)})
	}
	out := summary.Part{Title: words.T("Finished measures and ease"), Table: t}
	for _, m := range a.table.Missing {
		out.Text = append(out.Text, words.F("Not measured, %s: %s.", m.Measure.Said(), strings.TrimSuffix(m.Why, ".")))
	}
	return out
}

func (a accounts) pieces() summary.Part {
	t := summary.Table{Head: []string{words.C("in the summary", "Piece"), words.C("in the summary", "Cut"), words.T("Seam allowance"), words.C("in the summary", "Wide"), words.C("in the summary", "Long")}, Amounts: 2}
	for i, q := range a.p.Pieces {
		b := geom.Join(hand{q: q}.upright(a.r.Pieces[i].Edges)...).Bounds()
		t.Rows = append(t.Rows, []string{q.Name, q.CutWords(), a.allowances(q), a.long(b.Width()), a.long(b.Height())})
	}
	return summary.Part{Title: words.C("in the summary", "Pieces"), Table: t}
}

// allowances is "10 mm, 15 mm, in the line": every allowance the piece has.
func (a accounts) allowances(q model.Piece) string {
	var all []string
	for _, e := range q.Edges {
		if e.Allowance > 0 {
			if s := Length(e.Allowance, a.p.Unit); !slices.Contains(all, s) {
				all = append(all, s)
			}
		}
	}
	if len(all) == 0 {
		return words.T("none in the line")
	}
	return words.F("%s, in the line", strings.Join(all, ", "))
}

func (a accounts) lengths() summary.Part {
	return summary.Part{Title: words.T("Made longer or shorter"), Text: LengthText(a.p)}
}

func (a accounts) corrections() summary.Part {
	out := summary.Part{Title: words.T("Corrected by hand"), Table: summary.Table{Head: []string{"", ""}}}
	for _, k := range edit.Corrections(a.p) {
		name := words.T("All pieces")
		if i := a.p.PieceIndex(k.Piece); i >= 0 {
			name = a.p.Pieces[i].Name
		}
		out.Table.Rows = append(out.Table.Rows, []string{name, k.What})
	}
	if len(out.Table.Rows) == 0 {
		out.Text = []string{words.T("Nothing.")}
	}
	return out
}

// links is every pair of edges that belong together, and how they stand.
func (a accounts) links() summary.Part {
	out := summary.Part{Title: words.T("Edges that belong together"), Table: summary.Table{Head: []string{words.C("in the summary", "Edges"), words.T("Linked as"), words.T("How they stand")}}}
	for _, l := range a.p.Links {
		kind := words.T("sewn together")
		if l.Kind == model.SameLine {
			kind = words.T("same line")
		}
		out.Table.Rows = append(out.Table.Rows, []string{words.F("%s and %s", a.stretches(l.Leads()), a.stretches([]model.Stretch{l.Follow})), kind, a.stands(l)})
	}
	if len(out.Table.Rows) == 0 {
		out.Text = []string{words.T("None are linked.")}
	}
	return out
}

// stretches names edges: "Back, shoulder".
func (a accounts) stretches(all []model.Stretch) string {
	var names []string
	for _, s := range all {
		i := a.p.PieceIndex(s.Piece)
		if i < 0 {
			continue
		}
		q := a.p.Pieces[i]
		var edges []string
		for _, id := range s.Edges {
			if j := q.EdgeIndex(id); j >= 0 {
				edges = append(edges, edgeName(q, j))
			}
		}
		names = append(names, q.Name+" "+allOf(edges))
	}
	if len(names) == 0 {
		return ""
	}
	out := names[0]
	for _, name := range names[1:] {
		out = words.F("%s with %s", out, name)
	}
	return out
}

// allOf is names one after another.
func allOf(names []string) string {
	if len(names) == 0 {
		return ""
	}
	all := names[0]
	for _, name := range names[1:] {
		all = words.F("%s and %s", all, name)
	}
	return all
}

// stands says how long the two sides of a link are.
func (a accounts) stands(l model.Link) string {
	for _, u := range a.r.Unlinked {
		if u.Link == l.ID {
			return u.Why
		}
	}
	for _, k := range a.report.Checks {
		if k.Link == l.ID && k.Say != "" {
			return k.Say
		}
	}
	for _, s := range a.r.Seams {
		if s.Link == l.ID {
			return words.F("%s and %s long", Length(s.Lead, a.p.Unit), Length(s.Follow, a.p.Unit))
		}
	}
	return words.T("one line")
}

func (a accounts) checks() summary.Part {
	t := summary.Table{Head: []string{words.C("in the summary", "Check"), words.T("How it stands")}}
	for _, k := range a.report.Checks {
		say := k.Say
		if k.Look {
			say = words.T("look at it")
			if k.Say != "" {
				say = words.F("%s; look at it", k.Say)
			}
		}
		t.Rows = append(t.Rows, []string{k.Title, say})
	}
	return summary.Part{Title: words.C("in the summary", "Checks"), Table: t}
}
