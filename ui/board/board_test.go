package board

import (
	"fmt"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"quarterstep/grading"
	"quarterstep/model"
	"quarterstep/model/geom"
	"quarterstep/ui/scene"
	"quarterstep/ui/scene/scenetest"
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
