package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"quarterstep/app"
	"quarterstep/app/edit"
	"quarterstep/grading/check"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

// spoilt is the window on the blouse in a size near the print, the side hem of
// its front let down by hand.
func spoilt(t *testing.T) *Window {
	t.Helper()
	w := open(t)
	w.do("choose size", edit.Place(5))
	w.do("spoil it", edit.MovePoint("front", "side-hem", geom.Vec{Y: 7}))
	return w
}

// With the Checks panel open, Enter goes from one thing to look at to the next
// and puts it in hand; the panel and the Table number them alike.
func TestEnterShowsOneFindingAfterTheOther(t *testing.T) {
	w := spoilt(t)
	enter := func() { w.key(&fyne.KeyEvent{Name: fyne.KeyReturn}) }
	enter()
	if w.looked != "" {
		t.Error("Enter shows a place though the panel is folded")
	}
	w.rune('h')
	found := ordered(w.report())
	if len(found) < 2 {
		t.Fatalf("only %d findings", len(found))
	}
	for i := range len(found) + 1 {
		enter()
		f := found[i%len(found)].Found
		want := scene.Ref{Piece: f.Piece, Edge: f.Edge, Point: f.Point}
		if w.looked != keyOf(found[i%len(found)]) || w.hand != want {
			t.Errorf("press %d: looked at %q with %+v in hand, want %+v", i+1, w.looked, w.hand, want)
		}
		v := checksView(w.doc.Pattern(), w.report(), nil, w.looked)
		if v.Chosen != i%len(found) {
			t.Errorf("press %d: row %d is in hand", i+1, v.Chosen)
		}
	}
	for _, f := range faults(w.report()) {
		if got := found[f.Number-1].Found; got.Piece != f.Ref.Piece || got.Edge != f.Ref.Edge || got.Where != f.At {
			t.Errorf("number %d on the Table is %+v, in the panel %+v", f.Number, f, got)
		}
	}
}

// What a finding offers is one step that can be undone.
func TestAFindingIsMendedInOneStep(t *testing.T) {
	w := spoilt(t)
	found := ordered(w.report())
	at := -1
	for i, f := range found {
		if f.Code == "uneven-hem" {
			at = i
		}
	}
	if at < 0 {
		t.Fatalf("found %+v", found)
	}
	steps := len(w.doc.History())
	w.checks.OnDo(at)
	if n := len(w.doc.History()); n != steps+1 || w.doc.History()[n-1] != "take the correction back" {
		t.Errorf("history %v", w.doc.History())
	}
	if left := ordered(w.report()); len(left) != 0 {
		t.Errorf("afterwards %d findings", len(left))
	}
	w.doc.Undo()
	if len(ordered(w.report())) != len(found) {
		t.Error("undo does not bring the fault back")
	}
}

// A limit typed in the panel counts at once; the usual figure sets it free.
func TestALimitIsTypedInThePanel(t *testing.T) {
	w := spoilt(t)
	hem := -1
	for i, l := range check.Limits() {
		if l.Name == check.LimitHem {
			hem = i
		}
	}
	has := func() bool {
		for _, f := range w.report().Findings {
			if f.Code == "uneven-hem" {
				return true
			}
		}
		return false
	}
	if err := w.checks.OnLimit(hem, "10"); err != nil || has() || w.doc.Pattern().Limits[check.LimitHem] != 10 {
		t.Errorf("%v, the hem is still found: %v", err, has())
	}
	v := checksView(w.doc.Pattern(), w.report(), nil, "")
	if got := v.Limits[hem]; got.Figure != "10" || got.Unit != "mm" || got.Usual != "6.4 mm" {
		t.Errorf("the panel says %+v", got)
	}
	if err := w.checks.OnLimit(hem, "6.4"); err != nil || !has() || w.doc.Pattern().Limits != nil {
		t.Errorf("%v, limits %v", err, w.doc.Pattern().Limits)
	}
	for _, bad := range []string{"much", "-3", "900"} {
		if err := w.checks.OnLimit(hem, bad); err == nil {
			t.Errorf("%q is taken for a limit", bad)
		}
	}
	w.checks.OnLimit(hem, "20")
	w.checks.OnUsual(hem)
	if !has() {
		t.Error("as usual does not set it back")
	}
}

// The panel lists every check with its figures, and its text says all of it.
func TestTheChecksPanelSaysHowThingsStand(t *testing.T) {
	w := open(t)
	w.do("choose size", edit.Place(5))
	report := w.report()
	v := checksView(w.doc.Pattern(), report, nil, "")
	if len(v.Findings) != 0 || len(v.Fine) != len(report.Checks) || len(v.Fine) < 12 {
		t.Errorf("%d findings, %d of %d checks fine", len(v.Findings), len(v.Fine), len(report.Checks))
	}
	text := w.checks.Text()
	for _, f := range v.Fine {
		if f.Title == "" || f.Say == "" || !strings.Contains(text, "Fine: "+f.Title+": "+f.Say) {
			t.Errorf("%+v is not in the text", f)
		}
	}
	if empty := checksView(model.Pattern{}, app.Report{}, nil, ""); empty.Empty != "Nothing to check yet." || len(empty.Fine)+len(empty.Limits) != 0 {
		t.Errorf("without pieces: %+v", empty)
	}
}
