package ui

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"quarterstep/app/session"
	"quarterstep/app/settings"
	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
	"quarterstep/ui/board"
	"quarterstep/ui/scene"
)

// openFront is the window on the front of the blouse printed in size 38 only and
// wanted in 48.
func openFront(t *testing.T) *Window {
	t.Helper()
	c, _ := sizechart.ByID("en13402-women")
	p, err := draft.Blouse(c, []string{"38"})
	if err != nil {
		t.Fatal(err)
	}
	p.Pieces, p.Links = p.Pieces[:1], nil
	place, _ := c.Place("48")
	p.Target.Place = float64(place)
	doc, err := session.New(p)
	if err != nil {
		t.Fatal(err)
	}
	w := Open(test.NewTempApp(t), doc, settings.Settings{}, t.TempDir())
	t.Cleanup(w.closeSafe)
	return w
}

func front(w *Window) model.Piece { return w.doc.Pattern().Pieces[0] }

// shownGrowth is the panel's view as the window shows it.
func shownGrowth(w *Window) growth {
	return growth{
		p: w.doc.Pattern(), q: front(w), g: w.doc.Result().Pieces[0],
		spread: w.grows.spread, cut: w.grows.cut, point: w.hand.Point,
	}
}

// The usual lengthwise cut lines share a quarter of what the bust grows
// (T. Horlamus, Threads no. 101): from 38 to 48, 88 to 110 cm by EN 13402-3, that
// is 55 mm.
func TestUsualCutLinesOpenAQuarterOfTheBust(t *testing.T) {
	w := openFront(t)
	if state, look := shownGrowth(w).state(); state != "say how" || !look {
		t.Errorf("before it is told the panel says %q", state)
	}
	w.growth.OnChoice(growSpread)
	if len(w.doc.History()) != 0 || shownGrowth(w).view().Spread == nil {
		t.Errorf("asking for cut lines alone changes nothing: %v", w.doc.History())
	}
	w.growth.OnDefaults()
	var sum float64
	for i, c := range front(w).Cuts {
		if c.Measure == model.Bust {
			sum += w.doc.Result().Pieces[0].Opens[i]
		}
	}
	if math.Abs(sum-55) > 1e-6 {
		t.Errorf("they open %.3f mm in all, want 55", sum)
	}
	v := shownGrowth(w).view().Spread
	if v.Cuts[0].Name != "1 Neck" || v.Cuts[0].How != "1/16 of bust" || v.Cuts[0].Figure != "13.8 mm" || !strings.Contains(v.Status, "published") {
		t.Errorf("the first reads %+v, %q", v.Cuts[0], v.Status)
	}
	if state, look := shownGrowth(w).state(); look || state != count(len(front(w).Cuts), "cut line") {
		t.Errorf("the panel says %q", state)
	}
	w.doc.Undo()
	if len(front(w).Cuts) != 0 {
		t.Error("not undone")
	}
}

func TestCutLinesAreDraggedNudgedAndTakenOut(t *testing.T) {
	w := openFront(t)
	w.growth.OnAdd(false)
	cut := front(w).Cuts[0]
	if w.hand.Cut != cut.ID {
		t.Fatalf("the new cut line is not in hand: %v", w.hand)
	}
	end := scene.Ref{Piece: front(w).ID, Cut: cut.ID, Control: scene.CutStart}
	w.table.OnSelect(end)
	w.table.OnDragHandle(end, geom.Vec{}, board.DragStart)
	w.table.OnDragHandle(end, geom.Vec{X: 20}, board.DragMove)
	w.table.OnDragHandle(end, geom.Vec{X: 12}, board.DragEnd)
	got := front(w).Cuts[0]
	if got.To.Dist(cut.To) > 1e-6 || math.Abs(got.From.X-cut.From.X-12) > 0.5 || w.hand != end {
		t.Errorf("an end dragged from %v to %v; in hand %v", cut, got, w.hand)
	}
	if h := w.doc.History(); h[len(h)-1] != "move cut line 1" || len(h) != 2 {
		t.Errorf("history %v", h)
	}
	middle := end
	middle.Control = scene.CutMiddle
	w.table.OnSelect(middle)
	w.table.OnNudge(geom.Vec{X: -5}, board.Large)
	if now := front(w).Cuts[0]; math.Abs(now.From.X-got.From.X+5) > 0.5 || math.Abs(now.To.X-got.To.X+5) > 0.5 {
		t.Errorf("nudged from %v to %v", got, now)
	}
	w.table.OnDragHandle(middle, geom.Vec{}, board.DragStart)
	w.table.OnDragHandle(middle, geom.Vec{X: 900}, board.DragEnd)
	if now := front(w).Cuts[0]; now.From.X > 400 || len(w.doc.History()) != 3 {
		t.Errorf("a cut line beside the piece was taken: %v", now)
	}
	w.key(&fyne.KeyEvent{Name: fyne.KeyDelete})
	if len(front(w).Cuts) != 0 || w.hand.Cut != "" || w.hand.Control != 0 {
		t.Errorf("after Delete: %v, in hand %v", front(w).Cuts, w.hand)
	}
}

// A share is a fraction or the length from the print to the next size; going
// from a measure to steps and back keeps that length: 38 to 40 the bust grows
// 4 cm by EN 13402-3.
func TestSharesAndLengths(t *testing.T) {
	w := openFront(t)
	w.growth.OnAdd(false)
	share := func() float64 { return front(w).Cuts[0].Share }
	for _, c := range []struct {
		text string
		want float64
	}{{"1/16", 1.0 / 16}, {"0,1", 0.1}, {"5 mm", 0.125}, {`1"`, 25.4 / 40}} {
		if err := w.growth.OnShare(c.text); err != nil || math.Abs(share()-c.want) > 1e-9 {
			t.Errorf("%s: share %v, want %v; %v", c.text, share(), c.want, err)
		}
	}
	for _, text := range []string{"lots", "2", "-1/16", "1/0", "90 mm"} {
		if err := w.growth.OnShare(text); err == nil || share() != 25.4/40 {
			t.Errorf("%s was taken for a share", text)
		}
	}
	w.growth.OnFollow(0)
	if c := front(w).Cuts[0]; c.Measure != model.Steps || math.Abs(c.Share-25.4) > 1e-9 {
		t.Errorf("by steps it opens %v", c)
	}
	if err := w.growth.OnShare("5"); err != nil || share() != 5 {
		t.Errorf("5 mm a size: %v, %v", share(), err)
	}
	for i, m := range followMeasures(w.doc.Pattern().Chart) {
		if m == model.Bust {
			w.growth.OnFollow(i)
		}
	}
	if c := front(w).Cuts[0]; c.Measure != model.Bust || math.Abs(c.Share-0.125) > 1e-9 {
		t.Errorf("with the bust it opens %v", c)
	}
}

func TestGapsAreTypedOutAndDown(t *testing.T) {
	w := openFront(t)
	k := 0
	for i, g := range front(w).Points {
		if g.Name == "underarm" {
			k = i
		}
	}
	was := w.doc.Result().Pieces[0].Edges[k].Start()
	if err := w.growth.OnOut(k, "10"); err != nil {
		t.Fatal(err)
	}
	if err := w.growth.OnDown(k, "1/8 in"); err != nil {
		t.Fatal(err)
	}
	if err := w.growth.OnOut(k, "wide"); err == nil {
		t.Error("words were taken for a length")
	}
	// From 38 to 40 the bust grows 4 cm, to 48 22 cm: 5.5 gaps.
	if d := w.doc.Result().Pieces[0].Edges[k].Start().Sub(was); math.Abs(math.Abs(d.X)-55) > 1e-6 {
		t.Errorf("the underarm went %v, want 55 mm out", d)
	}
	v := shownGrowth(w).view().Gaps
	if v.Points[k].Out != "10" || v.Points[k].Down != "3.2" || !strings.Contains(v.Say, "from 38 to 40, in mm") {
		t.Errorf("the panel reads %+v, %q", v.Points[k], v.Say)
	}
	w.growth.OnPoint(k)
	if w.hand.Point != front(w).Points[k].ID || shownGrowth(w).view().Gaps.Point != k {
		t.Errorf("in hand %v", w.hand)
	}
	centre := len(front(w).Points) - 1
	if err := w.growth.OnOut(centre, "5"); err == nil {
		t.Error("a point of the centre line left it")
	}
}

// The choice made last counts, and each is one step back.
func TestHowItGrowsIsChosen(t *testing.T) {
	w := openFront(t)
	w.growth.OnChoice(growNever)
	if !front(w).OneForAll || shownGrowth(w).view().Choice != growNever {
		t.Error("it is not the same in all sizes")
	}
	w.growth.OnChoice(growSpread)
	w.growth.OnDefaults()
	if front(w).OneForAll || shownGrowth(w).view().Choice != growSpread {
		t.Error("it is not cut")
	}
	w.growth.OnChoice(growGaps)
	if len(front(w).Cuts) != 0 || shownGrowth(w).view().Choice != growGaps {
		t.Error("the cut lines stay though gaps are chosen")
	}
	w.doc.Undo()
	if len(front(w).Cuts) == 0 || shownGrowth(w).view().Choice != growSpread {
		t.Error("undo does not bring the cut lines back")
	}
}
