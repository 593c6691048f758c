package board

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"quarterstep/model/geom"
	"quarterstep/ui/scene"
)

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

// An edge already in hand is dragged as a whole from anywhere on its line; one
// that is not is only taken in hand, and a fold stays where it is.
func TestDraggingAnEdge(t *testing.T) {
	b := newTable(t)
	b.OnDragEdge = func(r scene.Ref, by geom.Vec, p Phase) { b.note("edge %s %.2f,%.2f phase %d", r.Edge, by.X, by.Y, p) }
	pull := func(edge string) {
		start := b.midEdge(edge)
		b.press(start)
		b.drag(move(start, 8, 0))
		b.release(move(start, 8, 0))
	}
	pull("side seam")
	b.expect("select front/side seam//0")
	pull("side seam")
	by := 8 / b.view.Scale
	b.expect(
		"select front/side seam//0",
		"edge side seam 0.00,0.00 phase 0",
		fmt.Sprintf("edge side seam %.2f,0.00 phase 1", by),
		fmt.Sprintf("edge side seam %.2f,0.00 phase 2", by),
	)
	pull("centre")
	pull("centre")
	b.expect("select front/centre//0", "select front/centre//0")
}

// Close to a line but away from the middle of a handle, the line is meant, so
// that a short edge can be taken in hand between its handles.
func TestShortEdgesCanBeTaken(t *testing.T) {
	b := newTable(t)
	b.click(b.at(geom.Pt(120, 200)))
	b.said()
	v := b.view
	k := b.in.Pattern.Pieces[0].EdgeIndex("side top")
	e := b.in.Edges(0)[k]
	b.setView(v.ScaleTo(36/e.Start().Dist(e.End()), px(400, 300)))
	b.click(b.midEdge("side top")) // 18 px from either handle
	b.expect("select front/side top//0")
	b.click(move(b.midEdge("side top"), 6, -10))
	b.expect("select front//underarm/0")
}
