package ui

import (
	"math"
	"strings"
	"testing"

	"quarterstep/model"
	"quarterstep/ui/panel"
)

func viewOf(w *Window) panel.WearerView {
	return wearerView(w.doc.Pattern(), w.doc.Result(), w.report(), false, w.body.own)
}

// EN 13402-3, women (bust as published, waist and hip from memory): bust 122
// cm is size 52, waist 97 half way from 48 to 50.
func TestTypedMeasuresAreStepsOfTheirOwn(t *testing.T) {
	w := open(t)
	before := w.doc.Result().Pieces[0].Outline().Controls()
	if v := viewOf(w); v.Own || len(v.Measures) != 0 || len(v.Figures) != 3 || v.Figures[0].Figure != "110 cm" || v.Size != "48" {
		t.Errorf("by chart: %+v", v)
	}
	w.wearer.OnOwn(true)
	v := viewOf(w)
	if !v.Own || len(v.Measures) != 3 || v.Measures[0].Own != "" || v.Measures[0].Chart != "110" || len(w.doc.History()) != 0 {
		t.Errorf("asked for her own: %+v, history %v", v, w.doc.History())
	}
	for i, text := range []string{"122", "97 cm"} {
		if err := w.wearer.OnMeasure(i, text); err != nil {
			t.Fatal(err)
		}
	}
	v = viewOf(w)
	if v.Measures[0].Own != "122" || v.Measures[0].Place != "52" || v.Measures[1].Place != "48 1/2" || v.Measures[2].Chart != "127" ||
		v.OwnCount != "2 of 3" || v.Rest != "What you leave empty goes by size 52." {
		t.Errorf("%+v", v)
	}
	if got := strings.Join(w.doc.History(), ", "); got != "set bust to 122 cm, set waist to 97 cm" {
		t.Errorf("history %s", got)
	}
	moved := 0.0
	for k, c := range w.doc.Result().Pieces[0].Outline().Controls() {
		moved = math.Max(moved, c.Dist(before[k]))
	}
	if moved < 20 { // a quarter of 12 cm of bust is 30 mm
		t.Errorf("the line moved %.1f mm", moved)
	}
	if err := w.wearer.OnMeasure(0, " "); err != nil {
		t.Fatal(err)
	}
	if p := w.doc.Pattern(); p.Chart.NameAt(p.Target.Place) != "50" || len(p.Target.Body) != 1 {
		t.Errorf("without the bust the rest goes by %s", p.Chart.NameAt(p.Target.Place))
	}
	w.doc.Undo()
	w.doc.Undo()
	w.doc.Undo()
	if w.doc.Pattern().Target.Own() || len(w.doc.History()) != 0 {
		t.Error("undo does not take the measurements back one by one")
	}
}

func TestMeasuresThatCannotBeReadStayOut(t *testing.T) {
	w := open(t)
	w.wearer.OnOwn(true)
	for _, text := range []string{"wide", "12 mm", "-3"} {
		err := w.wearer.OnMeasure(0, text)
		if err == nil || err.Error() != "type bust as cm or inches, for example 110 cm" {
			t.Errorf("%q: %v", text, err)
		}
	}
	if err := w.wearer.OnMeasure(0, ""); err != nil || len(w.doc.History()) != 0 || w.doc.Pattern().Target.Own() {
		t.Errorf("%v, history %v", err, w.doc.History())
	}
	w.rail.OnUnit(false)
	if err := w.wearer.OnMeasure(1, "44 1/2"); err != nil || math.Abs(w.doc.Pattern().Target.Body[model.Waist]-1130.3) > 1e-9 {
		t.Errorf("44 1/2 in: %v, %v", w.doc.Pattern().Target.Body, err)
	}
	steps := len(w.doc.History())
	if err := w.wearer.OnMeasure(1, "44.5 in"); err != nil || len(w.doc.History()) != steps {
		t.Error("the same measurement again is a step")
	}
	if v := viewOf(w); v.Measures[1].Own != "44 1/2" || v.Unit != "in" || v.EaseUnit != "in inches" {
		t.Errorf("%+v", v)
	}
}

// Going back to the chart and to her own again brings her measurements back.
func TestOwnMeasuresComeBack(t *testing.T) {
	w := open(t)
	w.wearer.OnOwn(true)
	if err := w.wearer.OnMeasure(0, "116"); err != nil {
		t.Fatal(err)
	}
	w.wearer.OnOwn(false)
	if v := viewOf(w); v.Own || w.doc.Pattern().Target.Own() {
		t.Errorf("%+v", v)
	}
	w.wearer.OnOwn(true)
	if w.doc.Pattern().Target.Body[model.Bust] != 1160 {
		t.Errorf("her own are %v", w.doc.Pattern().Target.Body)
	}
	if got := strings.Join(w.doc.History(), ", "); got != "set bust to 116 cm, size from the chart, own measurements" {
		t.Errorf("history %s", got)
	}
}

// On the Size strip each of her own has its pin; a size picked there is what
// the rest goes by, and the status bar says so.
func TestOwnMeasuresOnTheSizeStrip(t *testing.T) {
	w := open(t)
	strip := func() panel.StripView { return stripView(w.doc.Pattern(), w.doc.Result(), w.charts()) }
	if v := strip(); len(v.Pins) != 0 {
		t.Errorf("by chart the pins are %v", v.Pins)
	}
	for i, text := range []string{"155", "97"} {
		if err := w.wearer.OnMeasure(i, text); err != nil {
			t.Fatal(err)
		}
	}
	v := strip()
	want := []panel.PinView{{Name: "bust", Place: 15.5, Beyond: "3 cm"}, {Name: "waist", Place: 8.5}}
	if len(v.Pins) != 2 || v.Pins[0] != want[0] || v.Pins[1] != want[1] || v.Note != "for the rest" {
		t.Errorf("pins %v, note %q, want %v", v.Pins, v.Note, want)
	}
	if view := viewOf(w); len(view.Notes) == 0 || view.Notes[0] != "Bust is beyond 62 by 3 cm: the line goes on by the chart's last step." || !view.Measures[0].Off {
		t.Errorf("notes %q", view.Notes)
	}
	w.strip.OnPick(7)
	p := w.doc.Pattern()
	if p.Target.Place != 7 || p.Target.Body[model.Bust] != 1550 || len(p.Target.Body) != 2 {
		t.Errorf("picked 46: %+v", p.Target)
	}
	if got := w.status.Text(); got != "What is not measured goes by size 46. Her own stay: bust beyond 62, waist 48 1/2." {
		t.Errorf("said %q", got)
	}
}

func TestTheFoldedWearerSaysItInOneLine(t *testing.T) {
	w := open(t)
	w.wearer.OnName("Maren")
	line := func() string { l, look := ownLine(w.doc.Pattern()); return l + map[bool]string{true: " !"}[look] }
	if got := line(); got != "Maren, size 48" {
		t.Error(got)
	}
	for i, text := range []string{"116", "97", "127"} {
		if err := w.wearer.OnMeasure(i, text); err != nil {
			t.Fatal(err)
		}
	}
	if got := line(); got != "Maren: bust 50, waist 48 1/2, hip 52" {
		t.Error(got)
	}
	w.wearer.OnName("")
	w.wearer.OnMeasure(1, "160")
	if got := line(); got != "bust 50, waist beyond 62, hip 52 !" {
		t.Error(got)
	}
}

// By steps the demo loses ease: the table says so against the print, in amber.
func TestTheEaseOfTheGarment(t *testing.T) {
	w := open(t)
	w.increments.OnChoice(choiceChart)
	fair := viewOf(w)
	if len(fair.Ease) < 2 || fair.Ease[0].Name != "Bust" || fair.Ease[0].Body != "110" || fair.Ease[0].Look || fair.EaseUnit != "in cm" {
		t.Fatalf("by chart %+v", fair.Ease)
	}
	if e := fair.Ease[0]; e.Ease != e.Print {
		t.Errorf("by chart the ease is %s, in print %s", e.Ease, e.Print)
	}
	w.increments.OnChoice(choiceSteps)
	short := viewOf(w)
	if !short.Ease[0].Look || short.Ease[0].Print != fair.Ease[0].Print || len(short.Notes) == 0 || !strings.HasPrefix(short.Notes[0], "By steps the bust is 20 mm too tight") {
		t.Errorf("by steps %+v, notes %q", short.Ease, short.Notes)
	}
}

// The Increments panel counts each edge to her own measurement: from 40 to a
// waist of 97 cm, half way from 48 to 50, are 4 1/2 steps by EN 13402-3 (from
// memory).
func TestIncrementsGoByHerOwnMeasure(t *testing.T) {
	w := open(t)
	for i, text := range []string{"122", "97"} {
		if err := w.wearer.OnMeasure(i, text); err != nil {
			t.Fatal(err)
		}
	}
	p, r := w.doc.Pattern(), w.doc.Result()
	i, j, k := w.inHand(p)
	v := incrementsView(p, r, i, j, k)
	if v.Follows[v.Follow] != "Waist" {
		t.Fatalf("the edge in hand follows %s", v.Follows[v.Follow])
	}
	if v.FollowNote != [2]string{"76 cm at 40", "97 cm measured"} || !strings.HasPrefix(v.Choices[choiceSteps].How, "4 1/2 steps") {
		t.Errorf("follows %q, by steps %q", v.FollowNote, v.Choices[choiceSteps].How)
	}
	// A quarter of 97 less 76 cm.
	if v.Points[0].Out != "52.5" {
		t.Errorf("the waist goes %s out, want 52.5", v.Points[0].Out)
	}
}
