package ui

import (
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/measure"
	"quarterstep/ui/panel"
)

// The ways an edge can go past the printed sizes, as the panel lists them.
const (
	choiceSteps = iota
	choiceChart
	choiceEye
)

// incrementsView is the Increments panel for edge j of piece i; no edge is -1.
func incrementsView(p model.Pattern, r grading.Result, i, j, point int) panel.IncrementsView {
	if i < 0 || i >= len(p.Pieces) || j < 0 || j >= len(p.Pieces[i].Edges) {
		return panel.IncrementsView{Empty: words.T("Pick an edge on the Table.")}
	}
	q, g := p.Pieces[i], r.Pieces[i]
	f := figuresOf(p, r, i, j)
	v := panel.IncrementsView{
		Edge: j, EdgeNote: edgeNote(p, q, g, j), Point: -1,
		Past: words.F("How far past %s", f.from), Total: amount(f.total, p.Unit), Unit: smallUnit(p.Unit), Fixed: g.Frozen,
	}
	for k := range q.Edges {
		v.Edges = append(v.Edges, edgeName(q, k))
	}
	for k, gap := range f.gaps {
		v.Gaps = append(v.Gaps, panel.GapView{Between: q.Nest[k].Size + "–" + q.Nest[k+1].Size, Gap: amount(gap, p.Unit)})
	}
	n := f.stepsPast(p)
	v.Step, v.Even = amount(f.step, p.Unit), math.Abs(n) < 1e-6
	if !v.Even {
		v.Step = amount(f.total/n, p.Unit)
	}
	v.Follows, v.Follow = followChoices(p.Chart, f.follows)
	v.FollowNote = followNote(p, r, f)
	v.Choices = pastChoices(p, r, f)
	v.Choice = choiceChart
	if p.Target.Method == model.BySteps {
		v.Choice = choiceSteps
	}
	if math.Abs(f.hand) > 1e-6 {
		v.Choice = choiceEye
	}
	v.Note, v.Look = chartNote(p, r, f)
	for n, k := range f.ends {
		inc := g.Points[k]
		v.Points = append(v.Points, panel.PointView{
			Name: pointName(q, k),
			Out:  amount(outward(q, g, k)*inc.Across.Total, p.Unit),
			Down: amount(inc.Along.Total, p.Unit),
		})
		if k == point {
			v.Point = n
		}
	}
	return v
}

func edgeName(q model.Piece, j int) string {
	if n := q.Edges[j].Name; n != "" {
		return capital(n)
	}
	return words.F("Edge %d", j+1)
}

func pointName(q model.Piece, k int) string {
	if n := q.Points[k].Name; n != "" {
		return capital(n)
	}
	return words.F("Point %d", k+1)
}

func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// amount is a small length without its unit.
func amount(mm float64, u model.Unit) string {
	if math.Abs(mm) < 1e-9 {
		mm = 0
	}
	if u == model.Inches {
		return measure.Format(mm, measure.Sixteenths)
	}
	return measure.Format(mm, measure.TenthMM)
}

func smallUnit(u model.Unit) string {
	if u == model.Inches {
		return words.C("inches", "in")
	}
	return "mm"
}

// bareUnit is the unit of a figure typed without one.
func bareUnit(u model.Unit) measure.Unit {
	if u == model.Inches {
		return measure.Inches
	}
	return measure.Millimetres
}

func edgeNote(p model.Pattern, q model.Piece, g grading.Piece, j int) string {
	const tol = 0.01
	n := len(q.Points)
	note := words.F("%s to %s", pointName(q, j), words.Small(pointName(q, (j+1)%n)))
	if l, err := g.Edges[j].Length(tol); err == nil {
		note += ", " + measure.FormatPlace(l, p.Unit)
	}
	return note
}

// followChoices lists what an edge can follow, and which it follows.
func followChoices(c model.SizeChart, now model.Measure) ([]string, int) {
	out := []string{capital(model.Steps.Said())}
	at := 0
	for _, m := range c.Measures {
		if !c.Has(m) {
			continue
		}
		if m == now {
			at = len(out)
		}
		out = append(out, capital(m.Said()))
	}
	return out, at
}

// followed is the measure behind choice n of followChoices.
func followed(c model.SizeChart, n int) model.Measure {
	k := 0
	for _, m := range c.Measures {
		if c.Has(m) {
			if k++; k == n {
				return m
			}
		}
	}
	return model.Steps
}

func followNote(p model.Pattern, r grading.Result, f figures) [2]string {
	place, ok := p.Chart.Place(f.from)
	if !ok || f.follows == model.Steps {
		return [2]string{}
	}
	a, okA := p.Chart.At(float64(place), f.follows)
	b, okB := p.Target.Value(p.Chart, f.follows)
	if !okA || !okB {
		return [2]string{}
	}
	printed, wanted := measure.FormatPlace(a, p.Unit), measure.FormatPlace(b, p.Unit)
	if _, own := p.Target.Body[f.follows]; own {
		return [2]string{words.F("%s at %s", printed, f.from), words.F("%s measured", wanted)}
	}
	return [2]string{words.F("%s at %s", printed, f.from), words.F("%s at %s", wanted, r.Size)}
}

func pastChoices(p model.Pattern, r grading.Result, f figures) []panel.ChoiceView {
	steps, chartSteps := f.steps(p)
	unit := " " + smallUnit(p.Unit)
	step := amount(f.step, p.Unit)
	eye := "–"
	if math.Abs(f.hand) > 1e-6 {
		eye = amount(f.hand, p.Unit) + unit
	}
	return []panel.ChoiceView{
		{Name: words.C("a choice", "By steps"), How: stepsOf(steps, step), Figure: amount(f.bySteps, p.Unit) + unit},
		{Name: words.C("a choice", "By chart"), How: stepsOf(chartSteps, step), Figure: amount(f.byChart, p.Unit) + unit},
		{Name: words.T("By eye"), How: words.T("drag the line or type"), Figure: eye},
	}
}

// steps is how many steps the target lies past the nearest printed size: on the
// chart, and as many of the printed ones as the measure that is followed grows by.
func (f figures) steps(p model.Pattern) (steps, byChart float64) {
	place, _ := p.Chart.Place(f.from)
	steps = math.Abs(p.Target.PlaceFor(p.Chart, f.follows) - float64(place))
	if f.step == 0 {
		return steps, steps
	}
	return steps, math.Abs(f.byChart / f.step)
}

// stepsPast is how many steps the total is made of, by the method in force, below 0
// for sizes smaller than the printed ones; 0 for a printed size.
func (f figures) stepsPast(p model.Pattern) float64 {
	switch {
	case f.step == 0:
		place, _ := p.Chart.Place(f.from)
		return p.Target.PlaceFor(p.Chart, f.follows) - float64(place)
	case p.Target.Method == model.BySteps:
		return f.bySteps / f.step
	}
	return f.byChart / f.step
}

// stepsOf is "4 1/2 steps × 3/8": how many steps, and what each of them is.
func stepsOf(v float64, step string) string {
	if v == 1 {
		return words.F("1 step × %s", step)
	}
	return words.F("%s steps × %s", halves(v), step)
}

// chartNote says what steps and chart differ by on this edge, and on the whole
// garment. It asks to be looked at when the line goes by steps.
func chartNote(p model.Pattern, r grading.Result, f figures) (string, bool) {
	var lines []string
	if d := f.byChart - f.bySteps; amount(math.Abs(d), p.Unit) != "0" {
		lines = append(lines, chartLine(f, d, amount(math.Abs(d), p.Unit)+" "+smallUnit(p.Unit)))
	}
	for _, s := range r.Short {
		if s.Measure == f.follows && math.Abs(s.Missing()) >= 0.5 {
			by := measure.FormatMM(math.Abs(s.Missing()), p.Unit)
			if s.Missing() < 0 {
				lines = append(lines, words.F("Steps would leave the whole %s %s too wide.", s.Measure.Said(), by))
			} else {
				lines = append(lines, words.F("Steps would leave the whole %s %s too tight.", s.Measure.Said(), by))
			}
		}
	}
	return strings.Join(lines, " "), len(lines) > 0 && p.Target.Method == model.BySteps
}

// chartLine says that by chart an edge comes out by more than by steps, or by
// less where d is below 0, and why.
func chartLine(f figures, d float64, by string) string {
	both := f.follows == model.Steps // its ends follow two measures
	word := words.T("wider")
	switch {
	case f.along && d < 0:
		word = words.T("shorter")
	case f.along:
		word = words.T("longer")
	case d < 0:
		word = words.T("narrower")
	}
	if both {
		return words.F("By chart is %s %s: past %s what its ends follow grows by other steps than printed.", by, word, f.from)
	}
	return words.F("By chart is %s %s: past %s the %s grows by other steps than printed.", by, word, f.from, f.follows.Said())
}
