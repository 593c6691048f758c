package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"quarterstep/app/edit"
	"quarterstep/app/session"
	"quarterstep/app/settings"
	"quarterstep/model/geom"
	"quarterstep/ui/scene/scenetest"
)

// full is the window on a full Table: 12 pieces in 10 sizes, graded past them.
func full(b *testing.B) *Window {
	b.Helper()
	in, err := scenetest.Wardrobe(10)
	if err != nil {
		b.Fatal(err)
	}
	in.Pattern.Target.Place = 11
	doc, err := session.New(in.Pattern)
	if err != nil {
		b.Fatal(err)
	}
	w := Open(test.NewTempApp(b), doc, settings.Settings{}, "")
	w.win.Resize(w.win.Canvas().Size())
	return w
}

// BenchmarkDragFrame is our work in one frame of a drag of a grade point, but
// for painting.
func BenchmarkDragFrame(b *testing.B) {
	w := full(b)
	t := w.table
	at := t.View().ToPx(w.doc.Result().Pieces[0].Edges[3].Start().Add(w.doc.Pattern().Pieces[0].At))
	place := func(by float64) fyne.Position {
		const left, top = 34, 26 // of the rulers
		return fyne.NewPos(float32(at.X+by)+left, float32(at.Y)+top)
	}
	t.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: place(0)}, Button: desktop.MouseButtonPrimary})
	b.ResetTimer()
	for i := range b.N {
		t.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: place(float64(i%20) + 1)}})
	}
	if !w.doc.Previewing() {
		b.Fatal("nothing was dragged")
	}
}

// BenchmarkScrubFrame is our work as the handle of the Size strip comes to the
// next size.
func BenchmarkScrubFrame(b *testing.B) {
	w := full(b)
	b.ResetTimer()
	for i := range b.N {
		w.strip.OnScrub(float64(i % 12))
	}
}

// BenchmarkStepDone is what follows when a change is kept: every panel shows it.
func BenchmarkStepDone(b *testing.B) {
	w := full(b)
	q := w.doc.Pattern().Pieces[0]
	b.ResetTimer()
	for i := range b.N {
		w.do("move", edit.MovePoint(q.ID, q.Points[3].ID, geom.Vec{X: float64(1 - i%2*2)}))
	}
}

// BenchmarkShownAnew shows an unchanged document, as choosing something else does.
func BenchmarkShownAnew(b *testing.B) {
	w := full(b)
	b.ResetTimer()
	for range b.N {
		w.refresh()
	}
}

// BenchmarkEnter enters each step of the guide rail.
func BenchmarkEnter(b *testing.B) {
	w := full(b)
	for k, name := range []string{"Bring in", "Sizes", "Grade", "True", "Length", "Print"} {
		b.Run(name, func(b *testing.B) {
			for range b.N {
				w.goTo(k)
			}
		})
	}
}
