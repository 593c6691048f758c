package ui

import (
	"reflect"
	"strings"
	"testing"

	"quarterstep/app/edit"
	"quarterstep/model"
	"quarterstep/model/draft"
	"quarterstep/model/geom"
	"quarterstep/model/sizechart"
	"quarterstep/ui/board"
	"quarterstep/ui/scene"
)

// held takes an edge of the blouse's front in hand.
func held(t *testing.T, w *Window, name string) model.Piece {
	t.Helper()
	q := w.doc.Pattern().Pieces[0]
	for _, e := range q.Edges {
		if e.Name == name {
			w.table.OnSelect(scene.Ref{Piece: q.ID, Edge: e.ID})
			return q
		}
	}
	t.Fatalf("no edge %s", name)
	return q
}

// Every control of the By eye panel changes the pattern in one step that undo
// takes back.
func TestByEyeIsUndoneStepByStep(t *testing.T) {
	w := open(t)
	held(t, w, "armhole")
	for name, press := range map[string]func(w *Window) error{
		"follow":     func(w *Window) error { w.byEye.OnFollow(false, 2); return nil },
		"down":       func(w *Window) error { w.byEye.OnFollow(true, 2); return nil },
		"nearest":    func(w *Window) error { w.byEye.OnCurve(curveNearest); return nil },
		"straight":   func(w *Window) error { w.byEye.OnCurve(curveStraight); return nil },
		"printed":    func(w *Window) error { w.byEye.OnCurve(curvePrinted + 1); return nil },
		"smooth":     func(w *Window) error { w.byEye.OnSmooth(); return nil },
		"straighten": func(w *Window) error { w.byEye.OnStraighten(); return nil },
		"parallel":   func(w *Window) error { return w.byEye.OnParallel("1/4 in") },
		"style":      func(w *Window) error { return w.byEye.OnStyle(0, "8") },
		"stages":     func(w *Window) error { w.byEye.OnStages(true); return nil },
	} {
		before := w.doc.Pattern()
		if err := press(w); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if reflect.DeepEqual(w.doc.Pattern(), before) {
			t.Errorf("%s changes nothing", name)
		}
		w.doc.Undo()
		if !reflect.DeepEqual(w.doc.Pattern(), before) {
			t.Errorf("%s is not undone in one step", name)
		}
	}
}

func TestByEyeRefusesInWords(t *testing.T) {
	w := open(t)
	held(t, w, "armhole")
	for _, err := range []error{w.byEye.OnParallel("soon"), w.byEye.OnStyle(0, "-3"), w.byEye.OnStyle(0, "9000")} {
		if err == nil || err.Error() == "" {
			t.Error("nothing is said")
		}
	}
	if len(edit.Corrections(w.doc.Pattern())) != 0 {
		t.Error("something was corrected")
	}
}

// The panel says how well the print agrees, and what the curve is.
func TestByEyeSaysWhatItRestsOn(t *testing.T) {
	w := open(t)
	q := held(t, w, "armhole")
	p, r := w.doc.Pattern(), w.doc.Result()
	i, j, _ := w.inHand(p)
	under := byEyeView(p, r, i, j, q.PointIndex(q.Points[(j+1)%len(q.Points)].ID))
	if !strings.HasPrefix(under.Point, "Underarm") || under.Follows[0].Fit != "Printed gaps follow bust within 0.1 mm. They fit every other measure as well." {
		t.Errorf("%q: %q", under.Point, under.Follows[0].Fit)
	}
	edge := q.Edges[j].ID
	for _, ph := range []board.Phase{board.DragStart, board.DragEnd} {
		w.table.OnDragHandle(scene.Ref{Piece: q.ID, Edge: edge, Control: 1}, geom.Vec{Y: 3}, ph)
	}
	names, chosen := curveChoices(w.doc.Pattern().Pieces[0], j)
	if names[chosen] != "By eye" {
		t.Errorf("a shaped curve reads %q", names[chosen])
	}
	w.byEye.OnCurve(curveTrend)
	if _, chosen = curveChoices(w.doc.Pattern().Pieces[0], j); chosen != curveTrend {
		t.Error("the printed trend does not come back")
	}
}

// In stages the sizes on the way are drawn, and the next goes on from the one
// corrected.
func TestStagesDrawTheSizesOnTheWay(t *testing.T) {
	w := open(t)
	q := held(t, w, "armhole")
	if len(w.stageGuides(w.doc.Pattern())) != 0 {
		t.Error("guides without stages")
	}
	w.byEye.OnStages(true)
	p := w.doc.Pattern()
	guides := w.stageGuides(p)
	var sizes []string
	for _, g := range guides {
		sizes = append(sizes, g.Size)
	}
	if strings.Join(sizes, " ") != "42 44 46" {
		t.Errorf("guides %v", sizes)
	}
	place, _ := p.Chart.Place("44")
	w.strip.OnPick(float64(place))
	w.table.OnSelect(scene.Ref{Piece: q.ID, Point: q.Points[0].ID})
	w.table.OnNudge(geom.Vec{Y: 2}, board.Normal)
	if m := w.doc.Pattern().Pieces[0].Hand.Moves; len(m) != 1 || m[0].Stage != "44" {
		t.Errorf("moves %+v", m)
	}
}

// once is a window on the blouse's front printed in one size.
func once(t *testing.T) *Window {
	t.Helper()
	w := open(t)
	c, _ := sizechart.ByID("en13402-women")
	p, err := draft.Blouse(c, []string{"38"})
	if err != nil {
		t.Fatal(err)
	}
	p.Pieces, p.Links = p.Pieces[:1], nil
	place, _ := c.Place("48")
	p.Target.Place = float64(place)
	w.show(p, func() {})
	return w
}

func TestAPieceOfOneSizeGrowsAsSaid(t *testing.T) {
	w := once(t)
	q, ok := w.once()
	if !ok || !w.folds["How it grows"].Visible() {
		t.Fatal("the panel is not shown")
	}
	k := -1
	for i, g := range q.Points {
		if g.Name == "underarm" {
			k = i
		}
	}
	start := func() geom.Point { return w.doc.Result().Pieces[0].Edges[k].Start() }
	was := start()
	if err := w.growth.OnOut(k, "10 mm"); err != nil {
		t.Fatal(err)
	}
	if d := start().Dist(was); d < 40 {
		t.Errorf("a gap of 10 mm moves the underarm %.2f mm to 48", d)
	}
	w.growth.OnChoice(growSpread)
	w.growth.OnDefaults()
	if len(w.doc.Pattern().Pieces[0].Cuts) == 0 {
		t.Error("no cut lines are laid")
	}
	cuts := len(w.doc.Pattern().Pieces[0].Cuts)
	w.growth.OnCut(0)
	if err := w.growth.OnShare("3/32"); err != nil {
		t.Fatal(err)
	}
	if got := w.doc.Pattern().Pieces[0].Cuts[0].Share; got != 3.0/32 {
		t.Errorf("share %v", got)
	}
	if err := w.growth.OnShare("lots"); err == nil {
		t.Error("words are taken for a share")
	}
	w.growth.OnTakeOut(0)
	if got := len(w.doc.Pattern().Pieces[0].Cuts); got != cuts-1 {
		t.Errorf("%d cut lines", got)
	}
	w.growth.OnChoice(growGaps)
	w.growth.OnChoice(growNever)
	if !w.doc.Pattern().Pieces[0].OneForAll {
		t.Error("it is not the same in all sizes")
	}
	w.doc.Undo()
	if w.doc.Pattern().Pieces[0].OneForAll {
		t.Error("not undone")
	}
}

func TestThePanelHidesForANest(t *testing.T) {
	if w := open(t); w.folds["How it grows"].Visible() {
		t.Error("a nest says by itself how it grows")
	}
}
