package ui

import (
	"cmp"
	"fmt"
	"slices"

	"quarterstep/assets/words"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/ui/panel"
)

// The steps of the guide rail.
const (
	stepBringIn = iota
	stepSizes
	stepGrade
	stepTrue
	stepLength
	stepPrint
	stepCount
)

// railView is the guide rail for pattern p graded as r. pages is how many would
// be printed, look how many findings want looking at.
func (w *Window) railView(p model.Pattern, r grading.Result, look int) panel.RailView {
	v := panel.RailView{
		Pattern: p.Name, Present: w.step,
		Undo: w.doc.UndoLabel(), Redo: w.doc.RedoLabel(),
		Cm: p.Unit != model.Inches, Dark: w.settings.Dark,
	}
	if v.Pattern == "" {
		v.Pattern = words.T("New pattern")
	}
	if p.Target.Wearer != "" {
		v.Wearer = words.F("for %s", p.Target.Wearer)
	}
	v.Steps = make([]panel.StepView, stepCount)
	has := len(p.Pieces) > 0
	v.Steps[stepBringIn] = panel.StepView{Name: words.T("Bring in"), State: w.tracedLine(p), Mark: done(has), Enabled: true}
	v.Steps[stepSizes] = panel.StepView{Name: words.T("Sizes"), State: sizesLine(p, r), Mark: done(has), Enabled: has}
	grade := panel.StepView{Name: words.T("Grade"), State: count(edgeCount(p), "edge"), Mark: panel.UnderWay, Enabled: has}
	if look > 0 {
		grade.State, grade.Mark = words.F("%d to look at", look), panel.LookAt
	}
	v.Steps[stepGrade] = grade
	if !has {
		v.Steps[stepGrade].State, v.Steps[stepGrade].Mark = words.T("not yet"), panel.NotStarted
	}
	v.Steps[stepTrue] = trueState(p, r)
	v.Steps[stepLength] = panel.StepView{Name: words.T("Length"), State: lengthLine(p), Mark: done(len(p.Lengths) > 0), Enabled: has}
	v.Steps[stepPrint] = panel.StepView{Name: words.T("Print"), State: w.pagesLine(), Mark: panel.NotStarted, Enabled: has}
	for i := stepTrue; i < stepCount && !has && w.step == stepBringIn; i++ {
		v.Steps[i].State = words.T("not yet")
	}
	return v
}

func done(yes bool) panel.State {
	if yes {
		return panel.Done
	}
	return panel.NotStarted
}

func edgeCount(p model.Pattern) int {
	n := 0
	for _, q := range p.Pieces {
		n += len(q.Edges)
	}
	return n
}

// printedPlaces is every chart place that some piece was printed in, ascending.
func printedPlaces(p model.Pattern) []int {
	var out []int
	for _, q := range p.Pieces {
		for _, o := range q.Nest {
			for _, size := range o.Sizes() {
				if place, ok := p.Chart.Place(size); ok && !slices.Contains(out, place) {
					out = append(out, place)
				}
			}
		}
	}
	slices.Sort(out)
	return out
}

// sizesLine is "34-40 to 48".
func sizesLine(p model.Pattern, r grading.Result) string {
	printed := printedPlaces(p)
	if len(printed) == 0 {
		if len(p.Chart.Sizes) == 0 {
			return words.T("no chart yet")
		}
		return words.T("none yet")
	}
	wanted := r.Size
	if p.Target.Own() {
		wanted = cmp.Or(p.Target.Wearer, words.C("measures", "own"))
	}
	first, last := p.Chart.Sizes[printed[0]].Name, p.Chart.Sizes[printed[len(printed)-1]].Name
	if first == last {
		return fmt.Sprintf(words.C("the size printed and the size wanted", "%s to %s"), first, wanted)
	}
	return words.F("%s–%s to %s", first, last, wanted)
}
