package ui

import (
	"context"
	"slices"
	"testing"

	"fyne.io/fyne/v2/test"

	"quarterstep/app/session"
	"quarterstep/app/settings"
	"quarterstep/model/geom"
	"quarterstep/model/store"
)

// A piece traced in part, put aside and opened again, as after a crash, still
// says which sizes are printed, those not begun too.
func TestPrintedSizesComeBack(t *testing.T) {
	q, chart := bib(t)
	g, _ := printedPiece(q, bibPerMM)
	first, last := q.Nest[0].Size, q.Nest[len(q.Nest)-1].Size
	w := onPaper(t, g, bibPerMM, chart, first, last)
	w.placed(geom.Pt(30, 30))
	k, ok := w.tracing()
	if !ok || k.Printed != [2]string{first, last} {
		t.Fatalf("traced is %+v", k)
	}
	path := t.TempDir() + "/half.qstep"
	if err := store.Save(path, store.File{Pattern: w.doc.Pattern(), Pictures: map[string][]byte{"photo-1.jpg": {1}}}); err != nil {
		t.Fatal(err)
	}
	f, err := session.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	again := Open(test.NewTempApp(t), f, settings.Settings{}, "")
	again.aside = func(_ context.Context, work func()) { work() }
	again.goTo(stepBringIn)
	k, _ = again.tracing()
	var want []string
	for _, s := range q.Nest {
		want = append(want, s.Size)
	}
	if got := again.printedSizes(again.doc.Pattern(), k); len(want) < 3 || !slices.Equal(got, want) {
		t.Errorf("opened again, the printed sizes are %v", got)
	}
}
