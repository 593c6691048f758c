package ui

import (
	"fmt"
	"testing"

	"quarterstep/assets/words"
	"quarterstep/ui/panel"
	"quarterstep/ui/theme"
)

// keepWidth holds every side panel, opened, to the width there is: one that
// needs more is cut off at the window's edge.
func keepWidth(t *testing.T, w *Window, where string) {
	t.Helper()
	room := theme.Px(panel.SideWidth) - 16 // beside it
	for name, f := range w.folds {
		f.SetOpen(true)
		if wide := f.MinSize().Width; f.Visible() && wide > room+0.5 {
			t.Errorf("%s, in %s: panel %s needs %.0f px, there are %.0f", where, words.Now(), name, wide, room)
		}
	}
}

func TestSidePanelsKeepTheirWidth(t *testing.T) {
	speaksEnglish(t)
	for _, l := range words.Languages() {
		Speak(l.Code)
		w := open(t)
		for step := range stepCount {
			w.rail.OnUnit(step%2 == 0)
			w.goTo(step)
			for _, at := range handsOf(w.doc.Pattern().Pieces[step]) {
				w.hand = at
				w.refresh()
				keepWidth(t, w, fmt.Sprintf("step %d, %v", step+1, at))
			}
		}
		once := openFront(t)
		once.hand.Piece = front(once).ID
		for n := range 3 {
			once.growth.OnChoice(n)
			once.growth.OnDefaults()
			keepWidth(t, once, fmt.Sprintf("printed once, choice %d", n+1))
		}
		own := open(t)
		own.wearer.OnOwn(true)
		keepWidth(t, own, "own measures")
		own.wearer.OnMeasure(0, "120 cm")
		own.goTo(stepPrint)
		keepWidth(t, own, "own measures, pages")
		Speak("en") // what is typed meanwhile are names
		traced, q, at := onBib(t)
		Speak(l.Code)
		traced.rebuild()
		keepWidth(t, traced, "paper")
		clickLine(t, traced, q, "40", at)
		keepWidth(t, traced, "one size traced")
	}
}
