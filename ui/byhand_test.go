package ui

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"quarterstep/app"
	"quarterstep/app/edit"
	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/board"
	"quarterstep/ui/scene"
)

// ends is where the first piece's edge in hand begins and ends.
func ends(w *Window) (a, b geom.Point) {
	_, j, _ := w.inHand(w.doc.Pattern())
	e := w.doc.Result().Pieces[0].Edges[j]
	return e.Start(), e.End()
}

// An edge moved out and then in by as much lies where it was.
func TestParallelGoesOutAndIn(t *testing.T) {
	w := open(t)
	held(t, w, "hem")
	was, _ := ends(w)
	for _, step := range []struct {
		move func(string) error
		text string
		want float64
	}{{w.byEye.OnParallel, "8", 8}, {w.byEye.OnInward, "1 cm", -2}, {w.byEye.OnParallel, "2 mm", 0}} {
		if err := step.move(step.text); err != nil {
			t.Fatal(err)
		}
		at, _ := ends(w)
		if d := at.Y - was.Y; math.Abs(d-step.want) > 0.1 {
			t.Errorf("after %s the hem lies %.2f mm lower, want %g", step.text, d, step.want)
		}
	}
	if err := w.byEye.OnInward("a bit"); err == nil {
		t.Error("words are taken for a length")
	}
	if err := w.byEye.OnInward("900 cm"); err != nil {
		t.Fatal(err)
	}
	p := w.doc.Pattern()
	i, j, k := w.inHand(p)
	v := byEyeView(p, w.doc.Result(), i, j, k)
	if !strings.Contains(v.Unlaid, "moved that far") || strings.ContainsAny(v.Unlaid, "(0123456789") {
		t.Errorf("a hem moved by 9 m: %q", v.Unlaid)
	}
}

// The second grade point that is clicked ends the straight line; Esc and a click
// beside the points let go.
func TestStraightenToAnotherPoint(t *testing.T) {
	w := open(t)
	from, a := corner(t, w, "side waist")
	to, b := corner(t, w, "side hem")
	ask := func() {
		w.table.OnSelect(from)
		w.byEye.OnBetween()
	}
	ask()
	if !strings.Contains(w.asking(), "side waist") {
		t.Errorf("the status bar asks %q", w.asking())
	}
	w.key(&fyne.KeyEvent{Name: fyne.KeyEscape})
	w.table.OnSelect(to)
	if len(w.doc.History()) != 0 || w.hand.Point != to.Point {
		t.Fatal("Esc did not let go")
	}
	ask()
	w.table.OnSelect(scene.Ref{Piece: from.Piece})
	if len(w.doc.History()) != 0 || w.asking() != "" {
		t.Fatal("a click beside the points did not let go")
	}
	ask()
	w.table.OnSelect(to)
	if h := w.doc.History(); len(h) != 1 || h[0] != "straighten from side waist to side hem" {
		t.Fatalf("history %v", h)
	}
	line := w.doc.Result().Pieces[0].Edges
	n := len(line)
	if (a+1)%n == b || (b+1)%n == a {
		t.Fatal("the demo has no point between side waist and side hem")
	}
	if way := (b - a + n) % n; way > n/2 {
		a, b = b, a
	}
	chord := geom.Line(line[a].Start(), line[b].Start())
	for k := a; k != b; k = (k + 1) % n {
		for _, p := range line[k].Controls() {
			if off := math.Abs(p.Sub(chord.P0).Cross(chord.P3.Sub(chord.P0).Unit())); off > 1e-6 {
				t.Errorf("edge %d lies %.6f mm off the straight line", k, off)
			}
		}
	}
	w.doc.Undo()
	if len(edit.Corrections(w.doc.Pattern())) != 0 {
		t.Error("undo leaves a correction")
	}
}

// The panel lists every correction, those of the piece in hand first, and takes
// back each or all of the piece.
func TestEveryCorrectionIsListed(t *testing.T) {
	w := open(t)
	if err := w.byEye.OnStyle(0, "6"); err != nil {
		t.Fatal(err)
	}
	p := w.doc.Pattern()
	back := p.PieceIndex("back")
	w.do("move", edit.MovePoint("back", p.Pieces[back].Points[0].ID, geom.Vec{Y: 3}))
	held(t, w, "armhole")
	if err := w.byEye.OnParallel("5"); err != nil {
		t.Fatal(err)
	}
	view := func() []string {
		p := w.doc.Pattern()
		i, j, k := w.inHand(p)
		v := byEyeView(p, w.doc.Result(), i, j, k)
		return append(v.Hand, v.All)
	}
	got := view()
	want := []string{"Whole armhole 5 mm out", "Narrower shoulder, 6 mm", p.Pieces[back].Name + ": ", "Take back all of " + p.Pieces[0].Name}
	if len(got) != len(want) {
		t.Fatalf("listed %q", got)
	}
	for i := range want {
		if !strings.HasPrefix(got[i], want[i]) {
			t.Errorf("listed %q, want %q", got[i], want[i])
		}
	}
	w.byEye.OnTakeBack(2)
	if h := w.doc.Pattern().Pieces[back].Hand; len(h.Moves) > 1 {
		t.Errorf("the back keeps %+v", h)
	}
	w.byEye.OnTakeAll()
	if !w.doc.Pattern().Pieces[0].Hand.IsZero() {
		t.Error("the front keeps corrections")
	}
	w.doc.Undo()
	if n := len(w.doc.Pattern().Pieces[0].Hand.Shifts); n != 1 {
		t.Errorf("undo brings %d shifts back", n)
	}
}

// blouse is the demo blouse without a window.
func blouse(t *testing.T) model.Pattern {
	t.Helper()
	p, err := app.DemoBlouse()
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// What a correction made now holds for is said of the size it would be kept
// with, not of the size wanted between two.
func TestStageIsSaidOfTheSizeItIsKeptWith(t *testing.T) {
	p := blouse(t)
	say := func(place float64, on bool) string {
		p := p
		p.Target.Place, p.Target.Stages = place, on
		return stageLine(p, p.Pieces[0])
	}
	at := func(size string) float64 {
		place, _ := p.Chart.Place(size)
		return float64(place)
	}
	for _, c := range []struct{ say, want string }{
		{say(at("48"), false), "every size"},
		{say(at("46"), true), "size 46:"},
		{say(at("46")+0.25, true), "size 46:"},
		{say(at("40"), true), "printed in this size"},
	} {
		if !strings.Contains(c.say, c.want) {
			t.Errorf("%q does not say %q", c.say, c.want)
		}
	}
}

// Measures that the print follows as near as the proposal are marked, unless it
// follows all of them.
func TestWhatFitsThePrintIsMarked(t *testing.T) {
	p := blouse(t)
	fits := func(waist, hip float64) grading.Share {
		return grading.Share{Follows: model.Bust, Proposed: model.Bust, Residual: 0.3, Fits: []grading.Fits{
			{Measure: model.Hip, Residual: hip},
			{Measure: model.Bust, Residual: 0.3},
			{Measure: model.Waist, Residual: waist},
			{Measure: model.Steps, Residual: waist},
		}}
	}
	for _, c := range []struct {
		share  grading.Share
		marked string
		fit    string
	}{
		{fits(2, 0.2), "Bust Hip", "Printed gaps follow bust within 0.3 mm."},
		{fits(0.305, 2), "Steps Bust Waist", "Printed gaps follow bust within 0.3 mm."},
		{fits(0.3, 0.3), "", "Printed gaps follow bust within 0.3 mm. They fit every other measure as well."},
		{grading.Share{Follows: model.Bust}, "", ""},
	} {
		v := followView(p, model.GradePoint{}, c.share, false)
		var marked []string
		for _, o := range v.Options {
			if name, ok := strings.CutSuffix(o, ", fits the print"); ok {
				marked = append(marked, name)
			}
		}
		if strings.Join(marked, " ") != c.marked || v.Fit != c.fit {
			t.Errorf("marked %v, want %s; %q", marked, c.marked, v.Fit)
		}
	}
}

// A right click takes what lies there in hand and offers what can be done to it.
func TestTheMenuOfTheTable(t *testing.T) {
	w := open(t)
	at, _ := corner(t, w, "underarm")
	q := w.doc.Pattern().Pieces[0]
	names := func() string {
		var out []string
		for _, i := range w.handMenu() {
			out = append(out, i.Label)
		}
		return strings.Join(out, "|")
	}
	for _, c := range []struct {
		at         scene.Ref
		has, hasnt string
	}{
		{scene.Ref{Piece: q.ID}, q.Name, "Straighten"},
		{at, "Run smoothly through underarm", "parallel"},
		{scene.Ref{Piece: q.ID, Edge: q.Edges[0].ID}, "Move " + q.Edges[0].Name + " parallel ...", "smoothly"},
	} {
		w.table.OnMenu(c.at, fyne.NewPos(300, 300))
		if got := names(); !strings.Contains(got, c.has) || strings.Contains(got, c.hasnt) {
			t.Errorf("the menu of %v reads %s", c.at, got)
		}
	}
	curves := w.curveMenu().ChildMenu.Items
	if len(curves) < 5 || !curves[curveTrend].Checked {
		t.Fatalf("%d curves", len(curves))
	}
	curves[curveStraight].Action()
	if a, b := w.curveMenu().ChildMenu.Items, w.doc.Pattern().Pieces[0].Hand.Curves; !a[curveStraight].Checked || len(b) != 1 || b[0].Kind != model.StraightCurve {
		t.Errorf("the curve is %+v", b)
	}
}

// Guides that take too long are left out while a drag lasts.
func TestSlowGuidesWaitForTheEndOfADrag(t *testing.T) {
	w := open(t)
	at, _ := corner(t, w, "side hem")
	w.table.OnSelect(at)
	w.byEye.OnStages(true)
	for _, slow := range []bool{false, true} {
		w.guidesTook = 0
		if slow {
			w.guidesTook = 2 * guideTime
		}
		w.table.OnDragPoint(at, geom.Vec{}, board.DragStart)
		w.table.OnDragPoint(at, geom.Vec{X: 3}, board.DragMove)
		if got := len(w.guides(w.doc.Pattern())) > 0; got == slow {
			t.Errorf("slow %v: guides shown while dragging: %v", slow, got)
		}
		w.table.OnDragPoint(at, geom.Vec{}, board.DragCancel)
		if len(w.guides(w.doc.Pattern())) == 0 {
			t.Error("no guides after the drag")
		}
	}
}
