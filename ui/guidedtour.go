package ui

import (
	"quarterstep/app"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/ui/panel"
)

// tourAt is how far the guided demo is.
type tourAt struct {
	on    bool
	step  int
	begun int     // serial of the document when the step began
	place float64 // its size then
	done  bool
}

// tourStop is one step of the guided demo: what it says, what to try, where it
// is, and when she has tried it.
type tourStop struct {
	title, say, do words.Text
	at             int // step of the rail
	tried          func(w *Window, from tourAt) bool
}

func edited(w *Window, from tourAt) bool { return w.docSerial > from.begun }

// tourStops lead through the work in the order in which it is done.
var tourStops = []tourStop{
	{
		words.Text("A printed blouse"), words.Text("This blouse was printed in four sizes, the green lines. The violet line is the size you want, worked out from them. The blouse is invented: change it as you like."),
		"", stepGrade, nil,
	},
	{
		words.Text("Choose a size"), words.Text("The Size strip at the foot shows the printed sizes in green and the others of the chart beside them. Every piece follows while you drag."),
		words.Text("Drag the violet pin to another size."), stepGrade,
		func(w *Window, from tourAt) bool { return w.doc.Pattern().Target.Place != from.place },
	},
	{
		words.Text("Look at the figures"), words.Text("Pick an edge on the Table: the panel Increments says how far each of its ends goes beyond the print, and why. A printed gap times the steps is shown beside it, so that you can check it with a ruler."),
		"", stepGrade, nil,
	},
	{
		words.Text("Change it by eye"), words.Text("The squares are corners, the circles bend the curve. Drag one, or move it with the arrow keys. What you change by hand stays when you choose another size."),
		words.Text("Drag a violet handle."), stepGrade, edited,
	},
	{
		words.Text("Take it back"), words.Text("Everything can be taken back, as far as you like. The arrow says what it takes back."),
		words.Text("Press the undo arrow, or Ctrl+Z."), stepGrade,
		func(w *Window, from tourAt) bool { return w.doc.RedoLabel() != "" || edited(w, from) },
	},
	{
		words.Text("Seams that fit"), words.Text("At True the two sides of a seam lie along each other, with their ease. A facing follows its neckline by itself. Where a seam no longer fits, buttons offer what would mend it, with the amount."),
		"", stepTrue, nil,
	},
	{
		words.Text("Longer or shorter"), words.Text("At Length every piece is cut at its line and moved apart by the same amount all across; centre lines stay where they are."),
		words.Text("Type an amount, or drag the double line."), stepLength, edited,
	},
	{
		words.Text("On paper"), words.Text("Print lays the pieces over the pages of your printer, with joining marks. Print the test page once and type what you measure; your printer is corrected from then on. Measure the test square before you cut, and sew a toile first."),
		"", stepPrint, nil,
	},
	{
		words.Text("Your own pattern"), words.Text("The demo is put away, and you bring in a photo, a scan or an SVG of your printed pattern. Print the sheet of targets first and lay it beside the paper: a photo is then straightened by itself. This tour is in the menu under the name of the pattern, to come back to."),
		"", stepBringIn, nil,
	},
}

// beginTour opens the demo and leads through it.
func (w *Window) beginTour() {
	w.ifSafe(func() {
		w.demo(app.DemoBlouse, func() {
			w.tourAt = tourAt{on: true}
			w.tourTo(0)
		})
	})
}

// nextInTour goes on to the next step; after the last her own pattern begins.
func (w *Window) nextInTour() {
	if w.tourAt.step == len(tourStops)-1 {
		w.leaveTour()
		w.newPattern()
		return
	}
	w.tourTo(w.tourAt.step + 1)
}

// tourTo goes to a step of the tour; past the last one it ends.
func (w *Window) tourTo(step int) {
	if step >= len(tourStops) {
		w.leaveTour()
		return
	}
	w.tourAt = tourAt{on: true, step: max(step, 0), begun: w.docSerial, place: w.doc.Pattern().Target.Place}
	if at := tourStops[w.tourAt.step].at; at != w.step {
		w.goTo(at)
		return
	}
	w.refresh()
}

// leaveTour puts the card away; the demo stays as it is.
func (w *Window) leaveTour() {
	w.tourAt = tourAt{}
	w.refresh()
}

// showTour shows the step of the tour, and that she has tried what it says.
func (w *Window) showTour(p model.Pattern) {
	if !w.tourAt.on || len(p.Pieces) == 0 {
		w.tour.Hide()
		return
	}
	stop := tourStops[w.tourAt.step]
	if stop.tried != nil && stop.tried(w, w.tourAt) {
		w.tourAt.done = true
	}
	w.tour.SetView(panel.TourView{
		Step: w.tourAt.step + 1, Of: len(tourStops), Title: stop.title.String(), Say: stop.say.String(), Do: stop.do.String(),
		Done: w.tourAt.done, Last: w.tourAt.step == len(tourStops)-1,
	})
	w.tour.Show()
	w.frame.Layout.Layout(w.frame.Objects, w.frame.Size()) // the card is as high as its words
}
