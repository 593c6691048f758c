package ui

import (
	"path/filepath"
	"strings"

	"quarterstep/app"
	"quarterstep/assets/words"
	"quarterstep/model"
	"quarterstep/model/trace/target"
	"quarterstep/ui/panel"
)

// mostRecent is how many files the start page names.
const mostRecent = 4

// showStart shows the start page while there is nothing to work on.
func (w *Window) showStart(p model.Pattern) {
	if w.starts || len(p.Pieces)+len(p.Tracings)+len(p.Pictures)+len(w.paper.photos) > 0 {
		if w.start.Visible() {
			w.start.Hide()
			w.win.Canvas().Focus(w.table)
		}
		return
	}
	v := panel.StartView{Before: words.T("Before you cut: measure the test square, and sew a toile. A bought pattern is licensed for your own use. For children's nightwear, cords and drawstrings the safety rules where you live come first.")}
	for _, path := range w.settings.Recent[:min(len(w.settings.Recent), mostRecent)] {
		v.Recent = append(v.Recent, strings.TrimSuffix(filepath.Base(path), projectExt))
	}
	came := !w.start.Visible()
	w.start.SetView(v)
	w.start.Show()
	w.frame.Layout.Layout(w.frame.Objects, w.frame.Size())
	if came {
		w.win.Canvas().Focus(w.start.First())
	}
}

func (w *Window) connectStart() {
	s := w.start
	s.OnBringIn, s.OnOpen = w.bringIn, w.askOpen
	s.OnRecent = func(i int) {
		if i < len(w.settings.Recent) {
			w.ifSafe(func() { w.open(w.settings.Recent[i]) })
		}
	}
	s.OnBlouse = func() { w.ifSafe(func() { w.demo(app.DemoBlouse, nil) }) }
	s.OnJacket = func() { w.ifSafe(func() { w.demo(app.DemoWaistcoat, nil) }) }
	s.OnTour = w.beginTour
	s.OnTargets = func() { w.saveTargets(target.Strips) }
	t := w.tour
	t.OnNext = w.nextInTour
	t.OnBack = func() { w.tourTo(w.tourAt.step - 1) }
	t.OnLeave = w.leaveTour
}
