package board

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/model/measure"
	"quarterstep/ui/scene"
	"quarterstep/ui/scene/scenetest"
	"quarterstep/ui/theme/palette"
	"quarterstep/ui/view"
)

// table is a board in a window, with an owner that does what a document would.
type table struct {
	*Board
	t    *testing.T
	in   scene.Input
	base model.Pattern
	log  []string
	mods fyne.KeyModifier
}

func newTable(t *testing.T) *table {
	t.Helper()
	test.NewTempApp(t)
	in, err := scenetest.Blouse(4)
	if err != nil {
		t.Fatal(err)
	}
	in.Zero = geom.Pt(40, 30)
	b := &table{Board: New(), t: t, in: in, base: in.Pattern}
	b.modifier = func() fyne.KeyModifier { return b.mods }
	b.SetUnit(model.Inches)
	b.OnSelect = func(r scene.Ref) {
		b.note("select %s/%s/%s/%d", r.Piece, r.Edge, r.Point, r.Control)
		if r.Point != "" {
			r.Edge = b.in.Select.Edge
		}
		b.in.Select = r
		b.SetScene(b.in)
	}
	b.OnDragPoint = func(r scene.Ref, by geom.Vec, p Phase) {
		b.note("point %s %.2f,%.2f phase %d", r.Point, by.X, by.Y, p)
		b.apply(r, by, p)
	}
	b.OnDragHandle = func(r scene.Ref, by geom.Vec, p Phase) {
		b.note("handle %s/%d %.2f,%.2f phase %d", r.Edge, r.Control, by.X, by.Y, p)
	}
	b.OnDragPiece = func(piece string, by geom.Vec, p Phase) { b.note("piece %s %.2f,%.2f phase %d", piece, by.X, by.Y, p) }
	b.OnNudge = func(by geom.Vec, s Step) { b.note("nudge %.4f,%.4f step %d", by.X, by.Y, s) }
	b.OnAddPoint = func(r scene.Ref, at geom.Point) { b.note("add %s %.1f,%.1f", r.Edge, at.X, at.Y) }
	b.OnPage = func(name string) { b.note("page %s", name) }
	b.OnTool = func(x Tool) { b.note("tool %d", x) }
	b.OnRune = func(r rune) { b.note("rune %c", r) }
	b.OnKey = func(e *fyne.KeyEvent) { b.note("key %s", e.Name) }
	b.OnShortcut = func(s fyne.Shortcut) { b.note("shortcut %s", s.ShortcutName()) }
	w := test.NewTempWindow(t, b.Board)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(1000, 760))
	b.SetScene(in)
	return b
}

func (b *table) note(format string, args ...any) { b.log = append(b.log, fmt.Sprintf(format, args...)) }

// said is what the board has reported since last asked.
func (b *table) said() []string {
	out := b.log
	b.log = nil
	return out
}

func (b *table) expect(want ...string) {
	b.t.Helper()
	if got := b.said(); !slices.Equal(got, want) {
		b.t.Errorf("the board said %q, want %q", got, want)
	}
}

// apply grades the pattern with a point moved, as the window does.
func (b *table) apply(r scene.Ref, by geom.Vec, phase Phase) {
	p := b.base
	if phase != DragCancel {
		p = p.WithPiece(p.PieceIndex(r.Piece), func(q model.Piece) model.Piece {
			q.Hand.Moves = append(slices.Clone(q.Hand.Moves), model.PointMove{Point: r.Point, By: by})
			return q
		})
	}
	var g grading.Grader
	res, err := g.Grade(p)
	if err != nil {
		b.t.Fatal(err)
	}
	b.in.Pattern, b.in.Result = p, res
	if phase == DragEnd {
		b.base = p
	}
	b.SetScene(b.in)
}

// at is where a place of the Table lies on the widget.
func (b *table) at(p geom.Point) fyne.Position {
	q := b.view.ToPx(p)
	return pos(q.X+rulerLeft, q.Y+rulerTop)
}

// pointAt is where a grade point of the front lies on the widget.
func (b *table) pointAt(id string) fyne.Position {
	k := b.in.Pattern.Pieces[0].PointIndex(id)
	return b.at(b.in.Edges(0)[k].Start())
}

func mouse(p fyne.Position, button desktop.MouseButton) *desktop.MouseEvent {
	return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: p, AbsolutePosition: p}, Button: button}
}

func (b *table) press(p fyne.Position) { b.MouseDown(mouse(p, desktop.MouseButtonPrimary)) }

func (b *table) drag(p fyne.Position) {
	b.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: p, AbsolutePosition: p}})
}

func (b *table) release(p fyne.Position) {
	b.MouseUp(mouse(p, desktop.MouseButtonPrimary))
	b.DragEnd()
}

func (b *table) click(p fyne.Position) {
	b.press(p)
	b.MouseUp(mouse(p, desktop.MouseButtonPrimary))
}

func move(p fyne.Position, dx, dy float32) fyne.Position { return p.AddXY(dx, dy) }

// midEdge is a place on an edge of the front, on the widget.
func (b *table) midEdge(id string) fyne.Position {
	k := b.in.Pattern.Pieces[0].EdgeIndex(id)
	return b.at(b.in.Edges(0)[k][0].At(0.5))
}

func TestClickingTakesThingsInHand(t *testing.T) {
	b := newTable(t)
	b.click(b.midEdge("side seam"))
	b.expect("select front/side seam//0")
	b.click(b.pointAt("underarm"))
	b.expect("select front//underarm/0")
	b.click(move(b.pointAt("tip"), 20, 0)) // within the 22 px that a handle reaches
	b.expect("select front//tip/0")
	b.click(move(b.pointAt("tip"), 60, -40)) // the bare Table
	b.expect("select ///0")
	b.click(b.at(geom.Pt(120, 200))) // inside the front
	b.expect("select front///0")
	b.click(fyne.NewPos(5, 300)) // a ruler
	b.expect()
}

// A drag previews on change and ends once; the movement is that of the hand
// over the scale.
func TestDraggingAPoint(t *testing.T) {
	b := newTable(t)
	b.click(b.midEdge("side seam"))
	b.said()
	start := b.pointAt("underarm")
	b.press(start)
	b.drag(move(start, 3, 0))
	b.drag(move(start, 30, 12))
	if !b.parts.moved.amount.Visible() {
		t.Error("nothing says how far the point went")
	}
	b.release(move(start, 30, 12))
	s := b.view.Scale
	b.expect(
		"select front//underarm/0",
		"point underarm 0.00,0.00 phase 0",
		fmt.Sprintf("point underarm %.2f,0.00 phase 1", 3/s),
		fmt.Sprintf("point underarm %.2f,%.2f phase 1", 30/s, 12/s),
		fmt.Sprintf("point underarm %.2f,%.2f phase 2", 30/s, 12/s),
	)
	if b.parts.moved.amount.Visible() {
		t.Error("the figure stays after the drag")
	}
	now := b.pointAt("underarm")
	if math.Abs(float64(now.X-start.X)-30) > 0.01 || math.Abs(float64(now.Y-start.Y)-12) > 0.01 {
		t.Errorf("the point went from %v to %v", start, now)
	}
}

func TestEscapeLetsGoWithoutChange(t *testing.T) {
	b := newTable(t)
	b.click(b.pointAt("underarm")) // an edge, for nothing is in hand yet
	b.said()
	start := b.pointAt("underarm")
	b.press(start)
	b.drag(move(start, 25, 0))
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	said := b.said()
	if last := said[len(said)-1]; last != fmt.Sprintf("point underarm %.2f,0.00 phase 3", 25/b.view.Scale) {
		t.Errorf("ended with %q", last)
	}
	b.drag(move(start, 40, 0))
	b.release(move(start, 40, 0))
	b.expect()
	if b.pointAt("underarm") != start {
		t.Error("the point did not go back")
	}
}

func TestLockedPointsStay(t *testing.T) {
	b := newTable(t)
	b.click(b.at(geom.Pt(120, 200)))
	b.said()
	start := b.pointAt("cf-hem")
	b.press(start)
	b.drag(move(start, 30, 0))
	b.release(move(start, 30, 0))
	b.expect("select front//cf-hem/0")
}

func TestDraggingAHandleOfAnEdge(t *testing.T) {
	b := newTable(t)
	b.click(b.midEdge("side seam"))
	b.said()
	start := b.at(b.in.Edges(0)[6].Controls()[1])
	b.press(start)
	b.drag(move(start, -10, 0))
	b.release(move(start, -10, 0))
	by := -10 / b.view.Scale
	b.expect(
		"select front/side seam//1",
		"handle side seam/1 0.00,0.00 phase 0",
		fmt.Sprintf("handle side seam/1 %.2f,0.00 phase 1", by),
		fmt.Sprintf("handle side seam/1 %.2f,0.00 phase 2", by),
	)
}

// The other button let go in the middle of a drag must not end it: the toolkit
// then sends an end of drag too early.
func TestOtherButtonsDoNotEndADrag(t *testing.T) {
	b := newTable(t)
	b.click(b.midEdge("side seam"))
	start := b.pointAt("underarm")
	b.press(start)
	b.drag(move(start, 10, 0))
	b.said()
	b.MouseDown(mouse(start, desktop.MouseButtonSecondary))
	b.MouseUp(mouse(start, desktop.MouseButtonSecondary))
	b.DragEnd()
	b.drag(move(start, 20, 0))
	b.release(move(start, 20, 0))
	by := 20 / b.view.Scale
	b.expect(fmt.Sprintf("point underarm %.2f,0.00 phase 1", by), fmt.Sprintf("point underarm %.2f,0.00 phase 2", by))
	// Let go outside the board, no MouseUp comes.
	b.press(b.pointAt("tip"))
	b.drag(move(start, 20, 0))
	b.said()
	b.DragEnd()
	if said := b.said(); len(said) != 1 || b.gesture.kind != idle {
		t.Errorf("let go outside, the board said %q", said)
	}
}

// While a point is dragged, what holds still is not drawn again; a follower
// that changes is taken into the active layer, once.
func TestOnlyWhatChangesIsDrawnAgain(t *testing.T) {
	b := newTable(t)
	b.click(b.midEdge("neckline"))
	drawn := func() []string { return b.hand }
	start := b.pointAt("tip")
	b.press(start)
	b.drag(move(start, 5, 0))
	still := b.parts.static.layers
	for i := range 5 {
		b.drag(move(start, 5+float32(i), 3))
	}
	if &still[0] != &b.parts.static.layers[0] || !slices.Equal(drawn(), []string{"front"}) {
		t.Errorf("dragging the shoulder tip drew all again, with %v in hand", drawn())
	}
	b.release(start)
	start = b.pointAt("cf-neck")
	b.press(start)
	b.drag(move(start, 0, 6))
	if !slices.Equal(drawn(), []string{"front", "facing"}) {
		t.Errorf("dragging the neckline has %v in hand", drawn())
	}
	still = b.parts.static.layers
	b.drag(move(start, 0, 9))
	if &still[0] != &b.parts.static.layers[0] {
		t.Error("the facing was taken along twice")
	}
}

func TestArrowKeysAskForSteps(t *testing.T) {
	b := newTable(t)
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	b.mods = fyne.KeyModifierShift
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	b.mods = 0
	b.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyLeft, Modifier: fyne.KeyModifierControl})
	b.expect("nudge 1.5875,0.0000 step 0", "nudge 0.0000,-6.3500 step 1", "nudge -0.3969,0.0000 step 2")
	b.SetUnit(model.Centimetres)
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	b.expect("nudge 0.0000,1.0000 step 0")
	b.TypedShortcut(&fyne.ShortcutUndo{})
	b.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyS, Modifier: fyne.KeyModifierControl})
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF2})
	b.TypedRune('n')
	b.TypedRune('3')
	b.expect("shortcut Undo", "shortcut CustomDesktop:Control+S", "key F2", "rune n", "rune 3")
}

func TestTabGoesRoundTheHandles(t *testing.T) {
	b := newTable(t)
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyTab})
	b.expect()
	b.click(b.at(geom.Pt(120, 200)))
	b.said()
	var seen []string
	for range 9 {
		b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyTab})
		seen = append(seen, b.in.Select.Point)
	}
	if seen[0] != "cf-neck" || seen[8] != "cf-hem" || len(slices.Compact(slices.Sorted(slices.Values(seen)))) != 9 {
		t.Errorf("Tab went through %v", seen)
	}
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyTab})
	if b.in.Select.Point != "cf-neck" {
		t.Errorf("after the last came %s", b.in.Select.Point)
	}
	b.mods = fyne.KeyModifierShift
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyTab})
	if b.in.Select.Point != "cf-hem" {
		t.Errorf("before the first came %s", b.in.Select.Point)
	}
}

func TestKeysOfTheView(t *testing.T) {
	b := newTable(t)
	fit := b.view
	b.TypedRune('+')
	if r := b.view.Scale / fit.Scale; math.Abs(r-1.25) > 1e-9 {
		t.Errorf("+ made it %g times as large", r)
	}
	b.TypedRune('-')
	b.TypedRune('9')
	if math.Abs(b.Percent()-100) > 1e-9 {
		t.Errorf("true size is %g %%", b.Percent())
	}
	b.SetScreen(4)
	b.TrueSize()
	if b.view.Scale != 4 {
		t.Errorf("on a screen of 4 px a mm true size is %g px a mm", b.view.Scale)
	}
	b.TypedRune('0')
	if b.view != fit {
		t.Errorf("0 shows %v, not %v", b.view, fit)
	}
	b.TypedRune('r')
	if b.Tool() != Measure {
		t.Error("R does not measure")
	}
	b.expect("tool 2")
	b.TypedRune('c')
	if !b.CloseUp() {
		t.Error("C does not show the close-up")
	}
}

func TestTheViewFitsUntilItIsChanged(t *testing.T) {
	b := newTable(t)
	b.Resize(fyne.NewSize(700, 500))
	w, h := b.paperSize()
	if want := view.Fit(b.in.Bounds(), w, h, fitMargin); b.view.Scale != want.Scale {
		t.Errorf("a smaller board shows %v, want %v", b.view, want)
	}
	b.ZoomBy(2)
	before := b.view
	b.Resize(fyne.NewSize(900, 700))
	b.SetScene(b.in)
	if b.view != before {
		t.Error("the view changed by itself")
	}
}

func TestWheelZoomsAboutThePointer(t *testing.T) {
	b := newTable(t)
	p := b.pointAt("underarm")
	scroll := func(dx, dy float32) {
		b.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: p}, Scrolled: fyne.NewDelta(dx, dy)})
	}
	scale := b.view.Scale
	scroll(0, 25)
	if r := b.view.Scale / scale; math.Abs(r-1.15) > 1e-6 {
		t.Errorf("a notch zooms by %g", r)
	}
	if q := b.pointAt("underarm"); math.Abs(float64(q.X-p.X)) > 0.01 || math.Abs(float64(q.Y-p.Y)) > 0.01 {
		t.Errorf("the place under the pointer went from %v to %v", p, q)
	}
	scale = b.view.Scale
	scroll(0, -6000) // an accelerated wheel
	if r := b.view.Scale / scale; math.Abs(r-math.Pow(1.15, -3)) > 1e-6 {
		t.Errorf("a fast wheel zooms by %g", r)
	}
	scroll(25, 0)
	if q := b.pointAt("underarm"); math.Abs(float64(q.X-p.X)-60) > 0.01 {
		t.Errorf("with Shift the paper slid %g px", q.X-p.X)
	}
}

// Sliding moves what is drawn and draws it anew only when its slack is used up.
func TestSlidingMovesWhatIsDrawn(t *testing.T) {
	for name, c := range map[string]struct {
		button desktop.MouseButton
		tool   Tool
		space  bool
	}{
		"middle button": {desktop.MouseButtonTertiary, Move, false},
		"slide tool":    {desktop.MouseButtonPrimary, Slide, false},
		"space":         {desktop.MouseButtonPrimary, Measure, true},
	} {
		b := newTable(t)
		b.SetTool(c.tool)
		if c.space {
			b.KeyDown(&fyne.KeyEvent{Name: fyne.KeySpace})
		}
		p := b.pointAt("underarm")
		before := b.pointAt("tip")
		layers := b.parts.static.layers
		b.MouseDown(mouse(p, c.button))
		b.drag(move(p, 40, 25))
		if d := b.pointAt("tip").Subtract(before); math.Abs(float64(d.X)-40) > 0.01 || math.Abs(float64(d.Y)-25) > 0.01 {
			t.Errorf("%s: the paper slid by %v", name, d)
		}
		if &layers[0] != &b.parts.static.layers[0] {
			t.Errorf("%s: sliding 40 px drew all anew", name)
		}
		if r := b.parts.static.raster.Position(); math.Abs(float64(r.X)-40+slack) > 0.01 || math.Abs(float64(r.Y)-25+slack) > 0.01 {
			t.Errorf("%s: the sheet lies at %v", name, r)
		}
		b.drag(move(p, 40+slack, 25))
		if &layers[0] == &b.parts.static.layers[0] {
			t.Errorf("%s: sliding past the slack drew nothing", name)
		}
		b.MouseUp(mouse(p, c.button))
		b.DragEnd()
		b.expect()
		b.KeyUp(&fyne.KeyEvent{Name: fyne.KeySpace})
		if b.sliding() != (c.tool == Slide) {
			t.Errorf("%s: still sliding", name)
		}
	}
}

func TestMeasuringReadsTheGap(t *testing.T) {
	b := newTable(t)
	b.SetTool(Measure)
	front := b.in.Pattern.Pieces[0]
	// From the largest printed side seam straight across to the computed one,
	// with a hand 3 px off at either end.
	y := front.At.Y + 400
	cs := scene.Crossings(b.in, geom.Pt(150, y), geom.Pt(400, y), 1e-3)
	from, to, ok := scene.Reading(cs)
	if !ok {
		t.Fatal("no gap there")
	}
	a, z := b.at(geom.Pt(150+from.S, y)), b.at(geom.Pt(150+to.S, y))
	b.press(move(a, 3, 0))
	b.drag(move(z, -20, 1))
	b.drag(move(z, -4, 2))
	b.release(move(z, -4, 2))
	p, q, ok := b.Measured()
	if !ok || math.Abs(q.Sub(p).Len()-(to.S-from.S)) > 0.3 || math.Abs(q.Y-p.Y) > 1e-9 {
		t.Errorf("measured %v to %v, the gap is %.2f mm", p, q, to.S-from.S)
	}
	if got := b.parts.measure.figure.caption.Text; got != "straight across" {
		t.Errorf("it says %q", got)
	}
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if _, _, ok := b.Measured(); ok {
		t.Error("the measure stays")
	}
	b.expect()
	// Corner to corner.
	b.press(move(b.pointAt("hps"), 4, 3))
	b.drag(move(b.pointAt("tip"), 5, -5))
	b.release(move(b.pointAt("tip"), 5, -5))
	p, q, _ = b.Measured()
	edge := b.in.Edges(0)[1]
	if p != edge.Start() || q != edge.End() {
		t.Errorf("measured %v to %v, the shoulder goes from %v to %v", p, q, edge.Start(), edge.End())
	}
	// Exactly a quarter and an eighth, as a tape would be read.
	f := b.parts.measure.figure
	f.show(25.4*3/8, "", 10, 10)
	if f.amount.Text != "3\u20448" || f.unit.Text != "in" {
		t.Errorf("3/8 in is shown as %q %q", f.amount.Text, f.unit.Text)
	}
	f.show(25.4*27/16, "", 10, 10)
	if f.amount.Text != "1\u200911\u204416" {
		t.Errorf("1 11/16 in is shown as %q", f.amount.Text)
	}
}

// The close-up names the lines it shows and measures the gaps level with the
// pointer: as far apart as the lines themselves.
func TestCloseUpReadsTheGaps(t *testing.T) {
	b := newTable(t)
	b.SetCloseUp(true)
	y := b.in.Pattern.Pieces[0].At.Y + 400
	all := scene.Crossings(b.in, geom.Pt(150, y), geom.Pt(400, y), 1e-3)
	_, to, ok := scene.Reading(all)
	if !ok {
		t.Fatal("no gap there")
	}
	here := geom.Pt(150+to.S-20, y)
	b.MouseMoved(mouse(b.at(here), 0))
	v := view.View{Scale: b.view.Scale * lensZoom}
	v.Origin = here.Add(v.MM(px(150, 80)).Scale(-1))
	l := b.parts.lens.gaps(v, 300, 160)
	var words []string
	for _, x := range l.Texts {
		words = append(words, x.Words)
	}
	gap, _ := splitUnit(measure.FormatMM(all[len(all)-1].S-all[len(all)-2].S, model.Inches))
	for _, want := range []string{"40", "48", gap} {
		if !slices.Contains(words, want) {
			t.Errorf("the close-up says %q, not %q", words, want)
		}
	}
	for _, k := range l.Lines {
		if a, z := k.Path.Start(), k.Path.End(); a.Y == z.Y {
			mm := (z.X - a.X) / v.Scale
			if shown, _ := splitUnit(measure.FormatMM(mm, model.Inches)); !slices.Contains(words, shown) {
				t.Errorf("a bar of %.2f mm has no figure among %q", mm, words)
			}
		}
	}
}

func TestSeeThroughRuler(t *testing.T) {
	b := newTable(t)
	b.SetRuler(true)
	r := b.parts.ruler
	y := b.in.Pattern.Pieces[0].At.Y + 400
	r.zero = geom.Pt(240, y)
	r.place()
	if !r.figure.amount.Visible() || r.figure.caption.Text != "from 40 to 48, straight across" {
		t.Errorf("it reads %q", r.figure.caption.Text)
	}
	// Drag it by its body: it goes with the hand, the document is left alone.
	zero := b.view.ToPx(r.zero)
	hold := pos(zero.X+60+rulerLeft, zero.Y+20+rulerTop)
	b.press(hold)
	b.drag(move(hold, 10, 40))
	b.release(move(hold, 10, 40))
	if d := b.view.ToPx(r.zero).Sub(zero); math.Abs(d.X-10) > 1e-6 || math.Abs(d.Y-40) > 1e-6 {
		t.Errorf("it slid by %v", d)
	}
	// Turn it by its far end, to nearly upright: it stands upright.
	end := b.view.ToPx(r.zero.Add(r.dir.Scale(r.length())))
	hold = pos(end.X+rulerLeft, end.Y+8+rulerTop)
	b.press(hold)
	zero = b.view.ToPx(r.zero)
	b.drag(pos(zero.X+4+rulerLeft, zero.Y+150+rulerTop))
	b.release(hold)
	if r.dir != (geom.Vec{Y: 1}) {
		t.Errorf("it points to %v", r.dir)
	}
	b.expect()
	b.SetRuler(false)
	if r.raster.Visible() {
		t.Error("it stays on the Table")
	}
}

func TestAddPointSaysWhere(t *testing.T) {
	b := newTable(t)
	b.SetTool(AddPoint)
	b.click(move(b.midEdge("side seam"), 3, 0))
	on := b.in.Edges(0)[6][0].At(0.5).Add(b.in.Pattern.Pieces[0].At.Scale(-1))
	said := b.said()
	var edge string
	var x, y float64
	if len(said) != 1 {
		t.Fatalf("the board said %q", said)
	}
	if _, err := fmt.Sscanf(said[0], "add side %s %f,%f", &edge, &x, &y); err != nil {
		t.Fatal(err, said)
	}
	if geom.Pt(x, y).Dist(on) > 1 {
		t.Errorf("at %g, %g, want %v", x, y, on)
	}
	b.click(b.at(geom.Pt(120, 200)))
	b.expect()
}

func TestArrangingPieces(t *testing.T) {
	b := newTable(t)
	b.in.Sheets = []scene.Page{{Name: "A1", Box: geom.Box{Max: geom.Pt(300, 700)}}, {Name: "A2", Box: geom.Box{Min: geom.Pt(300, 0), Max: geom.Pt(600, 700)}}}
	b.in.Placement = map[string]geom.Affine{"front": geom.Translate(geom.Vec{X: 20, Y: 20}).Mul(geom.Rotate(math.Pi).Mul(geom.Translate(geom.Vec{X: -300, Y: -600})))}
	b.SetTool(Arrange)
	b.SetScene(b.in)
	inside := b.at(b.in.Place("front").Apply(geom.Pt(100, 250)))
	b.press(inside)
	b.drag(move(inside, 14, 7))
	b.release(move(inside, 14, 7))
	s := b.view.Scale
	b.expect(
		"select front///0",
		"piece front 0.00,0.00 phase 0",
		fmt.Sprintf("piece front %.2f,%.2f phase 1", 14/s, 7/s),
		fmt.Sprintf("piece front %.2f,%.2f phase 2", 14/s, 7/s),
	)
	b.click(b.at(geom.Pt(590, 690)))
	b.expect("page A2")
}

func TestHoverRingsTheHandle(t *testing.T) {
	b := newTable(t)
	var over []scene.Ref
	b.OnHover = func(r scene.Ref) { over = append(over, r) }
	b.click(b.midEdge("side seam"))
	b.MouseMoved(mouse(move(b.pointAt("tip"), 8, 8), 0))
	if !b.parts.ring.Visible() || b.Cursor() != desktop.PointerCursor {
		t.Error("no ring round the handle under the pointer")
	}
	if c := b.parts.ring.Position().AddXY(22+rulerLeft, 22+rulerTop); c.Subtract(b.pointAt("tip")).X > 0.01 {
		t.Errorf("the ring is round %v", c)
	}
	b.MouseMoved(mouse(b.at(geom.Pt(120, 200)), 0))
	if b.parts.ring.Visible() || b.Cursor() != desktop.DefaultCursor {
		t.Error("the ring stays")
	}
	if n := len(over); n < 2 || over[n-2].Point != "tip" || over[n-1] != (scene.Ref{}) {
		t.Errorf("hovered over %v", over)
	}
	start := b.pointAt("underarm")
	b.press(start)
	b.drag(move(start, 4, 4))
	if b.Cursor() != desktop.HiddenCursor {
		t.Error("the pointer hides the handle while it is dragged")
	}
	b.release(start)
	b.SetTool(Slide)
	if c, ok := b.Cursor().(*drawn); !ok {
		t.Error("the slide tool has no pointer of its own")
	} else if img, x, y := c.Image(); img.Bounds().Dx() != cursorSize || x != y {
		t.Error("the slide pointer is off its middle")
	}
}

func TestPointerIsToldFromZero(t *testing.T) {
	b := newTable(t)
	var last geom.Point
	b.OnPointer = func(p geom.Point) { last = p }
	b.MouseMoved(mouse(b.at(geom.Pt(140, 80)), 0))
	if last.Dist(geom.Pt(100, 50)) > 0.01 {
		t.Errorf("told %v, want (100, 50)", last)
	}
	if !b.parts.edges.markTop.Visible() {
		t.Error("the rulers do not mark the pointer")
	}
	b.MouseOut()
	if b.parts.edges.markTop.Visible() {
		t.Error("the marks stay")
	}
}

// The painted window shows the Table, the rulers and the line, in both sets of
// colours.
func TestPaintedInBothColours(t *testing.T) {
	for _, p := range []palette.Palette{palette.Light, palette.Dark} {
		b := newTable(t)
		b.SetPalette(p)
		b.SetCloseUp(true)
		b.click(b.midEdge("side seam"))
		img := test.NewTempWindow(t, b.Board).Canvas()
		img.(test.WindowlessCanvas).SetPadded(false)
		img.(test.WindowlessCanvas).Resize(fyne.NewSize(1000, 760))
		shot := img.Capture()
		seen := map[color.NRGBA]int{}
		for y := range shot.Bounds().Dy() {
			for x := range shot.Bounds().Dx() {
				seen[color.NRGBAModel.Convert(shot.At(x, y)).(color.NRGBA)]++
			}
		}
		for name, c := range map[string]color.NRGBA{"table": p.Table, "ruler": p.Ruler, "accent": p.Accent, "nest": p.Nest4, "grid": p.Grid} {
			if seen[c] < 50 {
				t.Errorf("%s is seen on %d pixels", name, seen[c])
			}
		}
		if at := nearest(shot, b.pointAt("underarm"), p.Accent); at > 6 {
			t.Errorf("the new line is %.1f px from its underarm", at)
		}
	}
}

// nearest is how far from p the nearest pixel of colour c lies, within 40 px.
func nearest(img image.Image, p fyne.Position, c color.NRGBA) float64 {
	best := math.Inf(1)
	for dy := -40; dy <= 40; dy++ {
		for dx := -40; dx <= 40; dx++ {
			if color.NRGBAModel.Convert(img.At(int(p.X)+dx, int(p.Y)+dy)) == c {
				best = min(best, math.Hypot(float64(dx), float64(dy)))
			}
		}
	}
	return best
}
