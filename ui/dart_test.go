package ui

import (
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"quarterstep/grading"
	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

// bustDart is the demo's dart as the Table names it.
var bustDart = scene.Ref{Piece: "front", Dart: "bust-dart"}

// dartNow is the demo's dart as graded.
func dartNow(t *testing.T, w *Window) grading.Dart {
	t.Helper()
	p := w.doc.Pattern()
	return w.doc.Result().Pieces[p.PieceIndex("front")].Darts[0]
}

func TestADartIsClosedTruedAndKept(t *testing.T) {
	w := open(t)
	if w.folds["Dart"].Visible() {
		t.Error("the Dart panel shows with no dart in hand")
	}
	w.table.OnSelect(bustDart)
	if !w.folds["Dart"].Visible() || !w.folds["Dart"].Open() {
		t.Fatal("the Dart panel does not show")
	}
	was := dartNow(t, w)
	w.dart.OnClose(true)
	in := w.sceneOf(w.doc.Pattern(), w.doc.Result())
	c, ok := in.Closed["front"]
	if !ok || math.Abs(c.Kink-was.Kink) > 1e-9 || len(w.doc.History()) != 0 {
		t.Fatalf("closed: %v, by a step of %v", ok, w.doc.History())
	}
	w.dart.OnTrue(true)
	if got := dartNow(t, w); got.Kink > 0.1 || was.Kink < 1 {
		t.Errorf("the seam turns by %.2f degrees, before truing by %.2f", got.Kink, was.Kink)
	}
	w.dart.OnKeep(true)
	want := []string{"true the seam across the bust dart", "keep the width of the bust dart"}
	h := w.doc.History()
	slices.Sort(h)
	slices.Sort(want)
	if !slices.Equal(h, want) {
		t.Errorf("history %q", h)
	}
	if got := dartNow(t, w); math.Abs(got.TakeUp-was.TakeUp) < 0.1 {
		t.Errorf("kept, the dart is %.2f mm wide, as before", got.TakeUp)
	}
	w.dart.OnKeep(false)
	w.dart.OnTrue(false)
	if got := dartNow(t, w); got != was {
		t.Errorf("let go, the dart is %+v, not %+v", got, was)
	}
	w.dart.OnClose(false)
	if in := w.sceneOf(w.doc.Pattern(), w.doc.Result()); len(in.Closed) != 0 {
		t.Error("the dart stays closed")
	}
}

// The panel speaks of the dart whose cap or leg is in hand, too, and of the one
// the piece is shown closed at.
func TestWhichDartIsInHand(t *testing.T) {
	w := open(t)
	for name, at := range map[string]scene.Ref{
		"the dart":  bustDart,
		"its cap":   {Piece: "front", Edge: "lower-half-of-the-dart-cap"},
		"a leg":     {Piece: "front", Point: "lower-dart-leg"},
		"its peak":  {Piece: "front", Point: "dart-peak"},
		"the other": {Piece: "front", Point: "upper-dart-leg"},
	} {
		w.table.OnSelect(at)
		if _, _, ok := w.dartInHand(); !ok {
			t.Errorf("%s in hand, no dart is", name)
		}
	}
	for name, at := range map[string]scene.Ref{
		"an edge beside it": {Piece: "front", Edge: "side-seam"},
		"another point":     {Piece: "front", Point: "underarm"},
		"another piece":     {Piece: "back", Edge: "armhole"},
	} {
		w.table.OnSelect(at)
		if _, _, ok := w.dartInHand(); ok || w.folds["Dart"].Visible() {
			t.Errorf("%s in hand, the dart is too", name)
		}
	}
	w.table.OnSelect(bustDart)
	w.dart.OnClose(true)
	w.table.OnSelect(scene.Ref{Piece: "front", Point: "underarm"})
	if _, _, ok := w.dartInHand(); !ok {
		t.Error("a piece shown closed leaves no way to open it")
	}
}

func TestWhatTheDartPanelSays(t *testing.T) {
	w := open(t)
	p := w.doc.Pattern()
	i := p.PieceIndex("front")
	v := dartView(p, p.Pieces[i], w.doc.Result().Pieces[i], 0, false)
	if v.Name != "Bust dart of Front bodice" || v.Legs != "both 161.9 mm" || v.Width != "28.3 mm, printed 27.9 mm to 28.1 mm" || v.Seam != "turns by 2.5° with the dart closed" || v.Note != "" {
		t.Errorf("it says %+v", v)
	}
}

func TestMenuOfADart(t *testing.T) {
	w := open(t)
	w.table.OnSelect(bustDart)
	items := map[string]*fyne.MenuItem{}
	for _, m := range w.handMenu() {
		items[m.Label] = m
	}
	for _, word := range []string{"Close the bust dart", "True the seam across it", "Keep its width as printed", "Let it grow", "Take the dart away"} {
		if items[word] == nil {
			t.Fatalf("the menu has no %q", word)
		}
	}
	if !items["Let it grow"].Checked || items["True the seam across it"].Checked {
		t.Error("the menu does not say how the dart stands")
	}
	items["Keep its width as printed"].Action()
	items["Take the dart away"].Action()
	if h := w.doc.History(); len(h) != 2 {
		t.Errorf("history %q", h)
	}
	if p := w.doc.Pattern(); len(p.Pieces[p.PieceIndex("front")].Darts) != 0 || w.hand.Dart != "" {
		t.Error("the dart is still there")
	}
}

func TestMakingADartByHand(t *testing.T) {
	w := open(t)
	was := dartNow(t, w)
	w.table.OnSelect(bustDart)
	w.removeDart()
	from, _ := corner(t, w, "upper dart leg")
	to, _ := corner(t, w, "lower dart leg")
	begin := func() {
		w.table.OnSelect(from)
		w.newDart()
	}
	begin()
	if !strings.Contains(w.askingDart(), "upper dart leg") {
		t.Errorf("the status bar asks %q", w.askingDart())
	}
	w.key(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.askingDart() != "" {
		t.Fatal("Esc did not let go")
	}
	begin()
	w.table.OnSelect(to)
	w.pointer = w.sceneOf(w.doc.Pattern(), w.doc.Result()).Place("front").Apply(was.Apex.Add(geom.Vec{X: 2}))
	w.table.OnSelect(scene.Ref{Piece: "front"})
	got := dartNow(t, w)
	if got.Apex.Dist(was.Apex.Add(geom.Vec{X: 2})) > 0.5 || got.Leg1 != was.Leg1 || got.Leg2 != was.Leg2 {
		t.Errorf("made %+v, clicked 2 mm right of %v", got, was.Apex)
	}
	if w.askingDart() != "" || w.hand.Piece != "front" {
		t.Error("the Table still asks")
	}
}

// With a dart closed an arrow key moves a turned point as it is seen.
func TestArrowKeysOnAClosedPiece(t *testing.T) {
	w := open(t)
	w.table.OnSelect(bustDart)
	w.dart.OnClose(true)
	w.table.OnSelect(scene.Ref{Piece: "front", Point: "underarm"})
	k := w.doc.Pattern().Pieces[0].PointIndex("underarm")
	was := w.sceneOf(w.doc.Pattern(), w.doc.Result()).Edges(0)[k].Start()
	w.table.OnNudge(geom.Vec{X: 5}, 0)
	now := w.sceneOf(w.doc.Pattern(), w.doc.Result()).Edges(0)[k].Start()
	if d := now.Sub(was); math.Abs(d.X-5) > 0.05 || math.Abs(d.Y) > 0.05 {
		t.Errorf("5 mm to the right moved the underarm by %v on the Table", d)
	}
}
