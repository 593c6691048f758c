package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

// An edge right-clicked away from its notches offers a notch there, and where
// one is to take it off; both go to the mate across the seam, too.
func TestNotchesByRightClick(t *testing.T) {
	w := openTrue(t, 0)
	front, sleeve := w.doc.Pattern().PieceIndex("front"), w.doc.Pattern().PieceIndex("sleeve")
	count := func() [2]int {
		return [2]int{len(w.doc.Pattern().Pieces[front].Notches), len(w.doc.Pattern().Pieces[sleeve].Notches)}
	}
	before := count()
	choose := func(at geom.Point, start string) {
		t.Helper()
		w.hold(scene.Ref{Piece: "front", Edge: "armhole"})
		w.pointer = w.sceneOf(w.doc.Pattern(), w.doc.Result()).Place("front").Apply(at)
		for _, item := range w.notchItems() {
			if strings.HasPrefix(item.Label, start) {
				item.Action()
				return
			}
		}
		t.Fatalf("%q is not offered at %v: %v", start, at, labels(w.notchItems()))
	}
	armhole := w.doc.Result().Pieces[front].Edges[w.doc.Pattern().Pieces[front].EdgeIndex("armhole")]
	m, err := geom.Measure(armhole, 1e-3)
	if err != nil {
		t.Fatal(err)
	}
	at := m.At(40)
	choose(at, "Notch armhole here")
	if got := count(); got != [2]int{before[0] + 1, before[1] + 1} {
		t.Fatalf("front and sleeve have %v notches, had %v", got, before)
	}
	choose(at.Add(geom.Vec{X: 2}), "Take this notch off")
	if got := count(); got != before {
		t.Errorf("front and sleeve have %v notches, had %v", got, before)
	}
	if w.doc.UndoLabel() != "take a notch off" {
		t.Errorf("undo would undo %q", w.doc.UndoLabel())
	}
}

func labels(items []*fyne.MenuItem) []string {
	var out []string
	for _, i := range items {
		out = append(out, i.Label)
	}
	return out
}
